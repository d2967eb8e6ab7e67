"""When one boat came in on one day, as the lines of the roll say, and what that costs it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.table import Table
from weighin.rules import scoring
from weighin.rules.slips import Slip


@dataclass(frozen=True)
class Arrival:
    """What the check-in table says of one boat's coming in on one day; the names are those of a slip.

    The time (or the minutes late) is the first one noted. Excused minutes are those said last, whichever line they
    stand on: a tow is often reported before the boat comes in.
    """

    day: int
    checked_in: datetime | None
    minutes_late: int | None
    excused_minutes: str


def arrival_counted(slip: Any, arrival: Arrival | None) -> Any:
    """Whose time, minutes late and excused minutes count: the slip's own, or where it has no time the check-in table's.

    A slip's own time keeps the slip's own excuse; an excuse that stands alone on a slip goes before the table's.
    """
    if arrival is None or slip.checked_in is not None or slip.minutes_late is not None:
        return slip
    excused = slip.excused_minutes or arrival.excused_minutes
    return Arrival(arrival.day, arrival.checked_in, arrival.minutes_late, excused)


def arrivals_by_boat_and_day(lines: Iterable[Mapping[str, Any]]) -> dict[tuple[int, int], Arrival]:
    """What check-ins in plain values, in the order they were written, say of each (boat, day)."""
    written: dict[tuple[int, int], list[SimpleNamespace]] = {}
    for line in lines:
        written.setdefault((line["boat"], line["day"]), []).append(SimpleNamespace(**line))
    found = {(boat, day): arrival_of(day, mine) for (boat, day), mine in written.items()}
    return {key: arrival for key, arrival in found.items() if arrival is not None}


def arrival_of(day: int, lines: Iterable[Any]) -> Arrival | None:
    """The arrival that lines of one boat and day tell of, in the order they were written; None without any word of it."""
    came = minutes = None
    excused = ""
    for line in lines:
        if came is None and minutes is None:
            came, minutes = line.checked_in, line.minutes_late
        excused = line.excused_minutes or excused
    if came is None and minutes is None and not excused:
        return None
    return Arrival(day, came, minutes, excused)


def lateness(slip: Any, calendar: Calendar, flight: str) -> Fraction:
    """Minutes late before grace, exact and never negative.

    From the check-in clock: less the due time, less excused minutes. Or the whole minutes given, which take no excuse.
    """
    if slip.checked_in is None:
        return Fraction(slip.minutes_late or 0)
    # In UTC: two times of one zone would be subtracted by the clock on the wall, also where it was put forward
    late = slip.checked_in.astimezone(UTC) - calendar.due(slip.day, flight).astimezone(UTC)
    minutes = Fraction(late.days * 86400 + late.seconds, 60) + Fraction(late.microseconds, 60_000_000)
    excused = Fraction(Decimal(slip.excused_minutes)) if slip.excused_minutes else Fraction(0)
    return max(Fraction(0), minutes - excused)


@dataclass(frozen=True)
class Late:
    """How late a boat came: ``minutes`` exact and less what was excused, ``begun`` those the rule sheet counts."""

    minutes: Fraction
    begun: int
    day_lost: bool

    @property
    def said(self) -> str:
        """The lateness to the second, which no one takes for a time of day: ``2 min 10 s``, ``1 h 2 min``."""
        hours, rest = divmod(int(self.minutes * 60), 3600)
        minutes, seconds = divmod(rest, 60)
        return " ".join(f"{n} {unit}" for n, unit in ((hours, "h"), (minutes, "min"), (seconds, "s")) if n) or "0 s"


def late(arrival: Arrival, table: Table, flight: str) -> Late | None:
    """How late it came by the rule sheet's grace and limit; None while no time is noted."""
    if arrival.checked_in is None and arrival.minutes_late is None:
        return None
    minutes = lateness(arrival, table.calendar, flight)
    slip = Slip(fish=0, alive=0, dead=0, minutes_late=minutes)
    return Late(minutes, scoring.minutes_begun(table.rules, slip), scoring.lost_day(table.rules, slip) == "late")
