"""When one boat came in on one day, as the lines of the roll say, and what that costs it."""

from dataclasses import dataclass
from fractions import Fraction

from weighin.rules import scoring
from weighin.rules.slips import Slip
from weighin.scale.reading import Arrival, Table, lateness


@dataclass(frozen=True)
class Late:
    """How late a boat came: ``minutes`` exact and less what was excused, ``begun`` those the rule sheet counts."""

    minutes: Fraction
    begun: int
    day_lost: bool

    @property
    def said(self) -> str:
        """The lateness in hours, minutes and seconds: ``2:10``, ``1:02:10``."""
        seconds = int(self.minutes * 60)
        hours, rest = divmod(seconds, 3600)
        minutes, seconds = divmod(rest, 60)
        return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"


def late(arrival: Arrival, table: Table, flight: str) -> Late | None:
    """How late it came by the rule sheet's grace and limit; None while no time is noted."""
    if arrival.checked_in is None and arrival.minutes_late is None:
        return None
    minutes = lateness(arrival, table.calendar, flight)
    slip = Slip(fish=0, alive=0, dead=0, minutes_late=minutes)
    return Late(minutes, scoring.minutes_begun(table.rules, slip), scoring.lost_day(table.rules, slip) == "late")
