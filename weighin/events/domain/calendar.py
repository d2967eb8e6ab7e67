"""An event's days and clock: written local times turned into moments, and when each flight is due."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from weighin.events.domain.faults import (
    DATE_WITHOUT_TIME,
    FAR_FROM_DAY,
    NO_SUCH_YEAR,
    NOT_A_DATE,
    NOT_A_TIME,
    NOT_A_TIME_OF_DAY,
    TIME_SKIPPED,
)
from weighin.ui import figures

_CLOCK = re.compile(r"(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})(?::(?P<second>[0-9]{2}))?\Z")
MOST_DAYS_OFF = timedelta(days=2)
EARLIEST, LATEST = date(1900, 1, 1), date(2200, 12, 31)


@dataclass(frozen=True)
class Day:
    """One day of an event: its number, date, and the local times of start and due."""

    number: int
    date: date
    start: time
    due: time
    cancelled: bool = False

    @property
    def night(self) -> bool:
        """Whether the day runs over midnight: it is due earlier in the clock than it starts."""
        return self.due < self.start


class Calendar:
    """The days of an event in its time zone.

    ``flights`` maps (flight, day number or None for every day) to the flight's due time of day.
    """

    def __init__(
        self,
        zone: ZoneInfo,
        days: Iterable[Day],
        flights: Mapping[tuple[str, int | None], time] | None = None,
    ):
        self.zone = zone
        self.days = {day.number: day for day in days}
        self.flights = dict(flights or {})

    @property
    def fished(self) -> list[int]:
        """Numbers of the days that were not cancelled, in order."""
        return sorted(number for number, day in self.days.items() if not day.cancelled)

    def at(self, number: int, clock: time) -> datetime:
        """The moment of a time of day on day ``number``; in a night event early hours belong to the next date.

        Raises ValueError for a time that the clocks skip that day.
        """
        day = self.days[number]
        when = day.date + timedelta(days=1) if day.night and clock < day.start else day.date
        return self.moment(datetime.combine(when, clock))

    def moment(self, local: datetime) -> datetime:
        """A naive local time as a moment in UTC; one that exists twice means its first passing.

        UTC, because Python compares and subtracts two times of one zone by the clock on the wall, which is an
        hour off across a daylight-saving change.

        Raises ValueError for a time that does not exist.
        """
        moment = local.replace(tzinfo=self.zone, fold=0).astimezone(UTC)
        if moment.astimezone(self.zone).replace(tzinfo=None) != local:
            raise TIME_SKIPPED.wrong(time=figures.clock(local), day=figures.dated(local))
        return moment

    def read(self, number: int, text: str) -> datetime:
        """A written time of day ``number``: ``HH:MM``, ``HH:MM:SS`` or an ISO date-time, with or without offset.

        Raises ValueError with a sentence for anything else, for a time that does not exist, and for one more
        than two days from the day.
        """
        written = text.strip()
        if _CLOCK.match(written):
            return self.at(number, read_clock(written))
        try:
            found = datetime.fromisoformat(written)
        except ValueError:
            raise NOT_A_TIME.wrong(written=written[:40]) from None
        if len(written) < 12:
            raise DATE_WITHOUT_TIME.wrong(written=written[:40])
        # Some are so far off that no zone can hold them, as years 1 and 9999 are.
        if EARLIEST <= found.date() <= LATEST:
            moment = self.moment(found) if found.tzinfo is None else found.astimezone(UTC)
            noon = self.moment(datetime.combine(self.days[number].date, time(12)))
            if abs(moment - noon) <= MOST_DAYS_OFF + timedelta(hours=12):
                return moment
        raise FAR_FROM_DAY.wrong(written=figures.dated_moment(found), day=number)

    def write(self, number: int, moment: datetime) -> str:
        """A moment as text that ``read`` turns into the same moment, as short as it can be."""
        local = moment.astimezone(self.zone)
        whole_minute = local.second == 0 and local.microsecond == 0
        clock = f"{local:%H:%M}" if whole_minute else f"{local:%H:%M:%S}"
        if local.microsecond == 0:
            try:
                if self.read(number, clock) == moment:
                    return clock
            except ValueError:
                pass
        return local.isoformat()

    def start(self, number: int) -> datetime:
        """When day ``number`` starts."""
        return self.at(number, self.days[number].start)

    def due(self, number: int, flight: str = "") -> datetime:
        """When a flight is due on day ``number``: its row for the day, else its row for every day, else the day's."""
        clock = self.flights.get((flight, number), self.flights.get((flight, None), self.days[number].due))
        return self.at(number, clock)


def read_date(text: str) -> date:
    """A date of an event, ``2026-06-20``, from 1900 to 2200. Raises ValueError with a sentence otherwise."""
    try:
        found = date.fromisoformat(text.strip())
    except ValueError:
        raise NOT_A_DATE.wrong(written=text.strip()[:40]) from None
    check_date(found)
    return found


def check_date(day: date) -> None:
    """Raises ValueError for a year that no event is in, which no clock could be worked out for either."""
    if not EARLIEST <= day <= LATEST:
        raise NO_SUCH_YEAR.wrong(day=day, earliest=EARLIEST.year, latest=LATEST.year)


def read_clock(text: str) -> time:
    """A time of day, ``HH:MM`` or ``HH:MM:SS``. Raises ValueError with a sentence otherwise."""
    found = _CLOCK.match(text.strip())
    try:
        if found is None:
            raise ValueError
        return time(int(found["hour"]), int(found["minute"]), int(found["second"] or 0))
    except ValueError:
        raise NOT_A_TIME_OF_DAY.wrong(written=text.strip()[:40]) from None


def write_clock(clock: time) -> str:
    """A time of day as ``HH:MM``, with seconds only where there are some."""
    return f"{clock:%H:%M:%S}" if clock.second else f"{clock:%H:%M}"
