"""Moments as the event's clock shows them, and how far a device's clock is off."""

from datetime import datetime, timedelta

from weighin.events.domain.calendar import Calendar
from weighin.ui import figures

CLOCK_MAY_DIFFER = timedelta(minutes=2)


def clock_off(received: datetime, sent: datetime | None, noted: datetime | None = None) -> timedelta | None:
    """How far a device's clock is ahead (negative: behind) when that is more than two minutes; else None.

    ``sent`` is the device's time of sending. Without it only a clock that is ahead can be told, by a moment
    ``noted`` that has not come yet.
    """
    shown = sent if sent is not None else max(received, noted or received)
    off = shown - received
    return off if abs(off) > CLOCK_MAY_DIFFER else None


def clock(moment: datetime, calendar: Calendar, day: int) -> str:
    """A moment as the event's clock shows it, with seconds where there are some and the date when it is another."""
    local = moment.astimezone(calendar.zone)
    of_day = calendar.days.get(day)
    same = of_day is not None and local.date() == of_day.date
    if local.second:
        return figures.exact_clock(local) if same else figures.exact_moment(local)
    return figures.clock(local) if same else figures.moment(local)
