"""Measured figures as pages write them."""

from decimal import Decimal

from weighin.events.domain import temperatures
from weighin.ui import figures
from weighin.ui.figures import SPACE
from weighin.ui.templatetags.ui import minutes as any_minutes


def minutes(value: Decimal | None) -> str:
    """Minutes as pages write them, kept on one line, whole hours without the minutes: 8 h."""
    return any_minutes(value).removesuffix(f" 0{SPACE}min").replace(" ", SPACE)


def degrees(written: str) -> str:
    """A temperature as a thermometer says it: ``72 F`` as 72 °F."""
    return figures.written_degrees(temperatures.water(written).written())
