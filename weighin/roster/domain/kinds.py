"""The boat or the team that a row is about."""

from dataclasses import dataclass
from typing import Any

from weighin.records.domain.kinds import Beside, Count, Kind
from weighin.roster.domain import value_faults as faults
from weighin.roster.models import Entry
from weighin.rules import values
from weighin.rules.faults import Sentence

LARGEST = 2_000_000_000
OF_ENTRY = "#"


@dataclass(frozen=True)
class Boat(Count):
    """The number of a boat that is entered; ``unknown`` is said of one that is not."""

    unknown: Sentence = faults.NO_SUCH_BOAT

    def read(self, text: str, beside: Beside) -> int:
        boat = values.whole(text, least=1, most=LARGEST)
        if boat not in beside.context.boats:
            raise self.unknown.wrong(boat=boat)
        return boat


@dataclass(frozen=True)
class TeamOf(Kind):
    """A team by its boat number, or by ``#`` and the number of its entry while it waits for a number."""

    def read(self, text: str, beside: Beside) -> Entry:
        written = text.strip()
        if written.startswith(OF_ENTRY) and written[1:].isdigit() and len(written) < 10:
            entry = Entry.everyone.filter(event=beside.context.event_id, number=int(written[1:])).first()
        else:
            entry = beside.context.entries.get(values.whole(written, least=1, most=LARGEST))
        if entry is None:
            raise faults.NO_SUCH_TEAM.wrong(team=written)
        found: Entry = entry
        return found

    def text(self, value: Any) -> str:
        return "" if value is None else named_in_forms(value)

    def plain(self, value: Any) -> Any:
        return None if value is None else value.boat

    def compared(self, value: Any, beside: Beside) -> Any:
        return None if value is None else value.pk


def named_in_forms(entry: Entry) -> str:
    """A team as ``TeamOf`` reads it."""
    return f"{OF_ENTRY}{entry.number}" if entry.waits else str(entry.boat)
