"""The figures of a slip as a proof has them: no texts, no names, and of the times only those that decide something."""

from datetime import datetime
from decimal import Decimal
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.kinds import Clock, Tare, Weight, Weights, read_weights
from weighin.records.domain.kinds import Count, Excuse, Flag
from weighin.roster.domain.kinds import Boat
from weighin.rules import weights
from weighin.slips.domain.fields import FIELDS

# Lateness decides penalties and lost days, the time of weighing who had the first limit
TIMES = ("checked_in", "weighed")
# Day and boat say whose a slip is; the reason of a lost day is a text, and stands as true or false
PLAIN = (Count, Flag, Boat)
SHOWN = tuple(
    field for field in FIELDS if field.name in TIMES or isinstance(field.kind, (*PLAIN, Weight, Tare, Weights, Excuse))
)


def figures_of(slip: Any, calendar: Calendar, unit: str) -> dict[str, Any]:
    """What a slip says, by the names of the workbook's columns: weights in pounds (``lb``, ``lb-oz``) or kilograms as
    texts that hold exact decimals, times as the workbook writes them; null = not recorded."""
    return {
        "slip": slip.number,
        "day": slip.day,
        "boat": slip.entry.boat,
        **{
            field.name: _figure(field.kind, field.name, slip, calendar, unit) for field in SHOWN if field.name != "boat"
        },
        "disqualified": bool(slip.disqualified_reason),
        "replaces": slip.replaces.number if slip.replaces else None,
    }


def _figure(kind: Any, name: str, slip: Any, calendar: Calendar, unit: str) -> Any:
    value = getattr(slip, name)
    if isinstance(kind, Clock):
        return time_of(slip.day, value, calendar)
    if isinstance(kind, Excuse):
        return minutes_of(value)
    if isinstance(kind, Weights):
        return [format(weight, "f") for weight in read_weights(value, unit)] if value else []
    if isinstance(kind, (Weight, Tare)):
        return format(weights.read(value, unit), "f") if value else None
    return value


def time_of(day: int, moment: datetime | None, calendar: Calendar) -> str | None:
    """A moment of a day as the workbook writes it."""
    return None if moment is None else calendar.write(day, moment)


def minutes_of(text: str) -> int | float | None:
    """Minutes that were excused, as written; whole ones as a whole number."""
    if not text:
        return None
    minutes = Decimal(text)
    return int(minutes) if minutes == minutes.to_integral_value() else float(minutes)
