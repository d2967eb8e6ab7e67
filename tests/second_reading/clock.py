"""Days of the event and the moments that cells mean, in UTC so that differences are real time."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo


def time_of_day(text: str) -> time | None:
    """`HH:MM` or `HH:MM:SS`, else None."""
    match = re.fullmatch(r"(\d{1,2}):(\d{2})(?::(\d{2}))?", text.strip())
    return time(int(match[1]), int(match[2]), int(match[3] or 0)) if match else None


def _local(moment: datetime, zone: ZoneInfo) -> datetime:
    """As written: "a time that does not exist is a fault, one that exists twice means its first passing"."""
    aware = moment.replace(tzinfo=zone, fold=0)
    back = aware.astimezone(UTC).astimezone(zone)
    if back.replace(tzinfo=None) != moment:
        raise ValueError(f"{moment} does not exist in {zone}")
    return aware.astimezone(UTC)


@dataclass(frozen=True)
class Day:
    """One day of the event. `start` and `due` are times of day; `lake` in °F or None."""

    number: int
    date: date
    start: time
    due: time
    zone: ZoneInfo
    cancelled: bool
    lake: Fraction | None

    @property
    def night(self) -> bool:
        """As written: "a night event (due time of day earlier than start_time)": taken for each day by its
        own times."""
        return self.due < self.start

    def moment(self, text: str) -> datetime:
        """As written: "`HH:MM` means that day's date, or, in a night event, the next date when it is earlier
        than the start_time"; ISO date-times say their date themselves, and their offset when they have
        one."""
        clock = time_of_day(text)
        if clock is not None:
            return self.at(clock)
        stamp = datetime.fromisoformat(text.strip())
        return stamp.astimezone(UTC) if stamp.tzinfo else _local(stamp, self.zone)

    def at(self, clock: time) -> datetime:
        """The moment of a time of day."""
        next_date = self.night and clock < self.start
        return _local(datetime.combine(self.date + timedelta(days=int(next_date)), clock), self.zone)

    @property
    def starts(self) -> datetime:
        return self.at(self.start)

    @property
    def ends(self) -> datetime:
        return self.at(self.due)


def minutes(later: datetime, earlier: datetime) -> Fraction:
    """Real minutes between two moments, exact."""
    return Fraction((later - earlier) // timedelta(microseconds=1), 60_000_000)


def one_decimal(value: Fraction) -> Fraction:
    """As written: "Both in minutes, one decimal, half up"."""
    tenths = value * 10 + Fraction(1, 2)
    return Fraction(tenths.numerator // tenths.denominator, 10)
