"""Rules that changed after the first slip: what changed, why, and from which day on; kept with the sheet in plain JSON.

An event has one rule sheet, since one is all that its files carry. A change that leaves what is weighed as it was counts
from the next day on; any other one counts for the whole event.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from weighin.rules.sheet.key import Key
from weighin.rules.sheet.keys import BY_NAME, KEYS, MONEY, POINTS

# Rules of the event and not of its days
OF_WHOLE_EVENT = frozenset(
    {"species", "ties", "cut_after_day", "cut_keep", "care_stop_percent"}
    | {key.name for key in KEYS if key.section in (MONEY, POINTS)}
)


@dataclass(frozen=True)
class RuleChange:
    """One change. ``through`` is the last day that was fished under the rules before it, None where it counts for the
    whole event; ``changed`` has what each key said before and after; ``at`` is a moment in ISO 8601."""

    number: int
    through: int | None
    changed: Mapping[str, Sequence[str]]
    reason: str
    at: str
    by: str

    def row(self) -> dict[str, Any]:
        """As it is kept."""
        return asdict(self)

    @property
    def moment(self) -> datetime:
        return datetime.fromisoformat(self.at)

    @property
    def from_day(self) -> int | None:
        """The first day it counts for; None for the whole event."""
        return None if self.through is None else self.through + 1

    @property
    def lines(self) -> list[tuple[Key, str, str]]:
        """Each rule that changed, before and after."""
        return [(BY_NAME[name], before, after) for name, (before, after) in self.changed.items()]


def changes_in(versions: Sequence[Mapping[str, Any]], until: datetime | None = None) -> list[RuleChange]:
    """The changes, oldest first; with ``until`` those kept by then."""
    found = [RuleChange(**row) for row in versions]
    return [change for change in found if until is None or change.moment <= until]


def written_on(day: int, written: Mapping[str, str], changes: Sequence[RuleChange]) -> dict[str, str]:
    """The sheet under which a day was fished: what later days changed is as it was, what was corrected for all is not."""
    found, corrected = dict(written), set[str]()
    for change in reversed(changes):
        if change.through is None:
            corrected |= set(change.changed)
        elif day <= change.through:
            _take_back(found, change, corrected)
    return found


def written_at(moment: datetime, written: Mapping[str, str], changes: Sequence[RuleChange]) -> dict[str, str]:
    """The sheet as it was at a moment."""
    found = dict(written)
    for change in reversed(changes):
        if change.moment > moment:
            _take_back(found, change, ())
    return found


def _take_back(written: dict[str, str], change: RuleChange, besides: Collection[str]) -> None:
    written.update({name: before for name, (before, _) in change.changed.items() if name not in besides})
