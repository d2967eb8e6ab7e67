"""Figures of the line that may be refused, each with a sentence that says what to give instead."""

import math
from collections.abc import Sequence

MOST_BOATS = 100_000
MOST_SCALES = 50
MOST_MINUTES = 100_000.0


def minutes(name: str, value: float, least: float, most: float) -> float:
    """``value`` when it is a number within the bounds. Raises ValueError."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError(f"{name} must be a number of minutes, not {value!r}")
    if not least <= value <= most:
        raise ValueError(f"{name} must be {least:g} to {most:g} minutes, not {value:g}")
    return float(value)


def whole(name: str, value: int, least: int, most: int) -> int:
    """``value`` when it is a whole number within the bounds. Raises ValueError."""
    if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
        raise ValueError(f"{name} must be a whole number, {least} to {most}, not {value!r}")
    return value


def many_minutes(name: str, values: Sequence[float], least: float, most: float) -> tuple[float, ...]:
    """Every value within the bounds, and at least one of them. Raises ValueError."""
    if not values:
        raise ValueError(f"{name} is empty: give at least one figure")
    if len(values) > MOST_BOATS:
        raise ValueError(f"{name} has {len(values)} figures: at most {MOST_BOATS}")
    return tuple(minutes(name, value, least, most) for value in values)
