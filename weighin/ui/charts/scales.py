"""From values to places in the frame, and the round values worth a tick."""

from dataclasses import dataclass
from math import ceil, floor, log10


@dataclass(frozen=True)
class Axis:
    """A straight scale: ``low`` stands at pixel ``start``, ``high`` at pixel ``end``."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """The pixel of ``value``, held to the axis."""
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)


def step_for(low: float, high: float, most: int) -> float:
    """The smallest of 1, 2, 5, 10, ... (times a power of ten) that needs at most ``most`` steps.

    Raises ValueError when ``high`` is not above ``low`` or ``most`` is below 1.
    """
    if not high > low or most < 1:
        raise ValueError(f"an axis from {low} to {high} in {most} steps cannot be drawn")
    power = 10.0 ** floor(log10((high - low) / most))
    for factor in (1, 2, 5, 10, 20):
        step = factor * power
        if ceil(round(high / step, 9)) - floor(round(low / step, 9)) <= most:
            return step
    return 50 * power


def ticks(low: float, high: float, most: int) -> tuple[float, ...]:
    """Round values from at or below ``low`` to at or above ``high``, at most ``most`` steps.

    >>> ticks(0, 17.5, 4)
    (0.0, 5.0, 10.0, 15.0, 20.0)
    """
    step = step_for(low, high, most)
    first, last = floor(round(low / step, 9)), ceil(round(high / step, 9))
    return tuple(round(number * step, 9) for number in range(first, last + 1))


def figures(value: float) -> str:
    """A tick as words: no needless decimals, a true minus."""
    return f"{value:g}".replace("-", "\u2212")
