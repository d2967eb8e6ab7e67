"""A date that may lie long before an event."""

from dataclasses import dataclass
from datetime import date

from weighin.events.domain.calendar import read_date
from weighin.records.domain.kinds import Beside, Kind


@dataclass(frozen=True)
class AnyDate(Kind):
    """A date, ``2026-06-20``."""

    def read(self, text: str, beside: Beside) -> date:
        return read_date(text)

    def plain(self, value: date | None) -> str | None:
        return None if value is None else value.isoformat()
