"""The hours of a day of an event as moments, whatever the clocks do that night."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from weighin.events.models import Event, EventDay


@dataclass(frozen=True)
class Hours:
    """A day's date, and its start and due time in UTC."""

    date: date
    start: datetime
    due: datetime


def hours_of(event: Event, day: EventDay) -> Hours:
    """The hours of a day; one that is due earlier in the clock than it starts ends on the next date.

    Never raises: a cancelled day may have times that the clocks skip, which are read as if they did not.
    """
    zone = ZoneInfo(event.time_zone)
    start, due = day.start_time or event.start_time, day.due_time or event.due_time

    def at(on: date, clock: time) -> datetime:
        return datetime.combine(on, clock, zone).astimezone(UTC)

    ends = day.date + timedelta(days=1) if due < start else day.date
    return Hours(day.date, at(day.date, start), at(ends, due))
