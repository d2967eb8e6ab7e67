"""When a scale was tested, as a person writes it: date and time, blank for now."""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import TypeVar

from weighin.events.domain.calendar import read_clock, read_date
from weighin.events.domain.clock import CLOCK_MAY_DIFFER
from weighin.records.parsing.reader import Reader
from weighin.rules.faults import Wrong
from weighin.scales.domain import faults

MOST_DAYS_OFF = timedelta(days=7)
T = TypeVar("T")


def tested_at(reader: Reader, now: datetime) -> datetime | None:
    """The moment of ``at_date`` and ``at_time``; blank they are now. None when the reader's faults say why not."""
    calendar = reader.context.calendar
    local = now.astimezone(calendar.zone)
    day = _part(reader, "at_date", read_date) or local.date()
    clock = _part(reader, "at_time", read_clock)
    if not reader.sure("at_date", "at_time"):
        return None
    dates = [found.date for found in calendar.days.values()]
    if not min(dates) - MOST_DAYS_OFF <= day <= max(dates) + MOST_DAYS_OFF:
        reader.fault("at_date", faults.TEST_FAR_FROM_EVENT, day=day, first=min(dates))
    elif clock is None and day == local.date():
        return now
    elif clock is None:
        reader.fault("at_time", faults.TEST_WITHOUT_TIME)
    else:
        try:
            moment: datetime = calendar.moment(datetime.combine(day, clock))
        except Wrong as wrong:
            reader.faults.append(wrong.at("at_time"))
            return None
        if moment > now + CLOCK_MAY_DIFFER:
            reader.fault("at_time", faults.TEST_TO_COME, clock=f"{clock:%H:%M}", day=day)
        return moment
    return None


def _part(reader: Reader, name: str, read: Callable[[str], T]) -> T | None:
    text = reader.texts.get(name, "")
    try:
        return read(text) if text else None
    except Wrong as wrong:
        reader.faults.append(wrong.at(name))
        return None
