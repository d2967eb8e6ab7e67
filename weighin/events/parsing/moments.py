"""Read a moment written as a date and a time, which may come days after the event."""

from datetime import date, datetime, timedelta

from weighin.events.domain.calendar import read_clock
from weighin.events.domain.care_context import CareContext
from weighin.events.domain.faults import NOT_A_DATE
from weighin.events.parsing.rows import Reader
from weighin.records.domain.faults import NOT_OF_THIS_TIME
from weighin.rules.faults import Wrong

LONGEST_AFTER = timedelta(days=60)  # nothing is found of an event later than that


def read_moment(reader: Reader, name: str, care_context: CareContext) -> datetime | None:
    """The fields ``name_date`` and ``name_time``, from the event's first day to 60 days after its last."""
    day = reader.required(f"{name}_date", _date, None)
    clock = reader.required(f"{name}_time", read_clock, None)
    if day is None or clock is None:
        return None
    dates = [found.date for found in care_context.calendar.days.values()]
    if not min(dates) - timedelta(days=1) <= day <= max(dates) + LONGEST_AFTER:
        reader.faults.append(NOT_OF_THIS_TIME.at(f"{name}_date", date=day, first=min(dates)))
        return None
    try:
        return care_context.calendar.moment(datetime.combine(day, clock))
    except Wrong as error:
        reader.faults.append(error.at(f"{name}_time"))
        return None


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise NOT_A_DATE.wrong(written=text[:40]) from None
