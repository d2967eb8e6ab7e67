"""What must hold of an event, its days and its flights; each fault at the field it was written in."""

from collections.abc import Callable, Iterable, Mapping
from datetime import time
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from weighin.events.domain import temperatures, weighed
from weighin.events.domain.calendar import Calendar, check_date
from weighin.events.domain.faults import (
    ELEVATION_TOO_LONG,
    EVENT_WITHOUT_NAME,
    NOT_A_TIME_ZONE,
    ODD_NUMBER_OF_DAYS,
)
from weighin.events.models import Event, EventDay, Flight
from weighin.events.queries.events import calendar_of
from weighin.rules import values
from weighin.rules.faults import Fault, Wrong

MOST_DAYS = 60
LONGEST_ELEVATION = 20


def event_faults(said: Mapping[str, Any]) -> list[Fault]:
    """Faults of an event's own fields, each read by itself."""
    faults = written_faults(said)
    if not said["name"].strip():
        faults.append(EVENT_WITHOUT_NAME.at("name"))
    if not 1 <= said["days"] <= MOST_DAYS:
        faults.append(ODD_NUMBER_OF_DAYS.at("days", most=MOST_DAYS))
    return faults + _date_faults(said)


def written_faults(said: Mapping[str, Any]) -> list[Fault]:
    """Faults of those texts of an event that are there."""
    readers: dict[str, Callable[[str], Any]] = {
        "name": values.line,
        "time_zone": _zone,
        "elevation_ft": elevation,
        "lake_temp": temperatures.water,
        "permit": lambda text: values.lines(text, 500),
        "note": lambda text: values.lines(text, 2000),
    }
    return _read_each(said, readers)


def day_faults(said: Mapping[str, Any]) -> list[Fault]:
    """Faults of a day's own fields."""
    return written_day_faults(said) + _date_faults(said)


def written_day_faults(said: Mapping[str, Any]) -> list[Fault]:
    """Faults of those texts of a day that are there."""
    readers: dict[str, Callable[[str], Any]] = {
        "lake_temp": temperatures.water,
        "air_temp": temperatures.air,
        "weather": lambda text: values.lines(text, 200),
        "note": lambda text: values.lines(text, 2000),
    }
    return _read_each(said, readers)


def elevation(text: str) -> Decimal:
    """A water's height above the sea in feet. Raises ValueError with a sentence."""
    found = values.decimal(text, least=-1500, most=30_000)
    if len(text.strip()) > LONGEST_ELEVATION:
        raise ELEVATION_TOO_LONG.wrong(most=LONGEST_ELEVATION)
    return found


def clock_faults(event: Event, days: Iterable[EventDay], flights: Iterable[Flight]) -> list[Fault]:
    """Times of day that the clocks skip on a day that is fished: fields ``start_time``, ``due_time`` and ``launch``."""
    days, flights = list(days), list(flights)
    calendar = calendar_of(event, days, flights)
    faults = []
    for number in calendar.fished:
        day = calendar.days[number]
        of_day = [f for f in flights if f.day in (None, number)]
        clocks = [("start_time", day.start), ("due_time", day.due)]
        clocks += [("due_time", f.due_time) for f in of_day] + [("launch", f.launch) for f in of_day if f.launch]
        faults += [wrong.at(field) for field, clock in clocks if (wrong := _skipped(calendar, number, clock))]
    return list(dict.fromkeys(faults))


def start_faults(event: Event, days: Iterable[EventDay]) -> list[Fault]:
    """A start later than fish were weighed or released that day: held for less than no time. Field ``start_time``."""
    return weighed.too_late(event, calendar_of(event, list(days), []))


def _skipped(calendar: Calendar, number: int, clock: time) -> Wrong | None:
    try:
        calendar.at(number, clock)
    except Wrong as error:
        return error
    return None


def _date_faults(said: Mapping[str, Any]) -> list[Fault]:
    try:
        check_date(said["date"])
    except Wrong as error:
        return [error.at("date")]
    return []


def _read_each(said: Mapping[str, Any], readers: Mapping[str, Callable[[str], Any]]) -> list[Fault]:
    faults = []
    for name, read in readers.items():
        text = (said.get(name) or "").strip()
        if not text:
            continue
        try:
            read(text)
        except Wrong as error:
            faults.append(error.at(name))
    return faults


def _zone(text: str) -> ZoneInfo:
    try:
        return ZoneInfo(text)
    except (ValueError, OSError, KeyError):
        raise NOT_A_TIME_ZONE.wrong(written=text[:40]) from None
