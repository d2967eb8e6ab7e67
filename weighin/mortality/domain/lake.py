"""How warm the lake was while fish were brought in."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import lake_temperatures
from weighin.mortality.domain.words import SPACE
from weighin.ui.figures import writing


@dataclass(frozen=True)
class Lake:
    """Lake temperatures of an event's days with fish, in °F; ``unit`` is the one they were written in, F or C."""

    mean: float
    low: float
    high: float
    unit: str

    def said(self, unit: str) -> str:
        """82 °F, or of several days 78 to 82 °F."""
        low, high = (round(in_unit(value, unit)) for value in (self.low, self.high))
        return (
            f"{low}{SPACE}°{unit}"
            if low == high
            else gettext("%(low)s to %(high)s °%(unit)s") % {"low": low, "high": high, "unit": unit}
        )


def lake_of(event: Event, days: Iterable[int]) -> Lake | None:
    """The lake over ``days``; None when no temperature was written for any of them."""
    written = lake_temperatures(event)
    known = [found for found in (written.get(day) for day in sorted(set(days))) if found is not None]
    if not known:
        return None
    temperature_curve = [float(found.fahrenheit) for found in known]
    return Lake(
        sum(temperature_curve) / len(temperature_curve),
        min(temperature_curve),
        max(temperature_curve),
        writing().degrees or known[0].unit,
    )


def unit_of(lakes: Sequence[Lake]) -> str:
    """The unit most of them were written in; F when they are even."""
    return "C" if sum(lake.unit == "C" for lake in lakes) > len(lakes) / 2 else "F"


def in_unit(fahrenheit: float, unit: str) -> float:
    """Degrees Fahrenheit in °F or °C."""
    return fahrenheit if unit == "F" else (fahrenheit - 32) * 5 / 9
