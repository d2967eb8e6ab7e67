"""Temperatures and differences of temperatures as the planner writes them."""

from weighin.livewell.figures.units import DEGREES_F_PER_C
from weighin.livewell.temperature.cooling import STRICTEST_STEP_C
from weighin.planning.domain.quantities import TEMPERATURE, US, shown

SPACE = "\u00a0"


def warmth(degrees_c: float, system: str) -> str:
    """A temperature with its unit, in °C to the tenth."""
    return shown(degrees_c, TEMPERATURE, system, tenths(system))


def tenths(system: str) -> int:
    return 0 if system == US else 1


def strictest_step(system: str) -> str:
    """The largest drop of the strictest advice: 7 °F or 3.9 °C."""
    return step(STRICTEST_STEP_C, system)


def step(degrees_c: float, system: str) -> str:
    """A difference of temperatures: 7 °F or 3.9 °C."""
    size = degrees_c * (DEGREES_F_PER_C if system == US else 1)
    return f"{size:.2g}{SPACE}{TEMPERATURE.unit(system).word}"
