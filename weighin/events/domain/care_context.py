"""An event as its fish care sees it: its days, rules, water and the time now."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.temperatures import Temperature
from weighin.events.models import Event
from weighin.livewell.figures.units import metres
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.rules.rulebook import Rulebook
from weighin.ui.figures import writing

A_DAY = timedelta(hours=24)


@dataclass(frozen=True)
class CareContext:
    """An event as its fish care sees it. ``elevation_ft`` is None when nobody wrote it down."""

    event: Event
    calendar: Calendar
    rules: Rulebook
    lakes: Mapping[int, Temperature | None]
    elevation_ft: float | None
    now: datetime

    @property
    def days(self) -> list[int]:
        """Every day's number, cancelled ones too."""
        return sorted(self.calendar.days)

    @property
    def going(self) -> int | None:
        """The day that is going on now: within 24 hours of its start."""
        return next((n for n in self.calendar.fished if timedelta() <= self.now - self.calendar.start(n) < A_DAY), None)

    @property
    def likely_day(self) -> int:
        """The day somebody most likely writes of: the one going on, else the last that began, else the first."""
        begun = [number for number in self.calendar.fished if self.calendar.start(number) <= self.now]
        return self.going or max(begun, default=min(self.calendar.fished or self.days, default=1))

    @property
    def unit(self) -> str:
        """The unit of the club, else that in which the lake's temperature is written, else ``F``."""
        return writing().degrees or next((lake.unit for lake in self.lakes.values() if lake), "F")

    @property
    def pressure_mmhg(self) -> float:
        """The mean air pressure at the lake's elevation; at sea level where none is written."""
        return at_elevation_mmhg(metres(self.elevation_ft or 0.0))

    def lake(self, day: int) -> Temperature | None:
        return self.lakes.get(day)

    def date_of(self, moment: datetime) -> date:
        """The local date of a moment."""
        return moment.astimezone(self.calendar.zone).date()

    def minute_of(self, day: int, moment: datetime) -> float:
        """Minutes of a moment since the midnight on which a day begins; over 1440 after the next."""
        found = self.calendar.days.get(day)
        local = moment.astimezone(self.calendar.zone)
        off = (local.date() - found.date).days if found else 0
        return off * 1440 + local.hour * 60 + local.minute + local.second / 60
