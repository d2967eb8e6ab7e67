"""What a season needs of each event: who fished in it, and what came of that."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

YOUTH = "youth"  # as the roster knows it


@dataclass(frozen=True, slots=True)
class TeamResult:
    """A team at an event, and the ``classes`` that it was in there. ``team`` is its name folded, ``anglers`` their names as written; weights in pounds.

    Before an event has a slip place and big fish are None, points and total 0.
    """

    team: str
    name: str
    team_pk: int
    entry_pk: int
    classes: frozenset[str]
    anglers: tuple[str, ...]
    status: str = "entered"
    place: int | None = None
    points: Decimal = Decimal(0)
    total: Decimal = Decimal(0)
    big_fish: Decimal | None = None


@dataclass(frozen=True)
class EventResults:
    """An event of the season that is not cancelled; ``fished`` once it has a slip.

    ``win`` are the points of its first place before additions; None where some are added by pounds or the big fish.
    """

    pk: int
    slug: str
    name: str
    date: date
    fished: bool
    win: Decimal | None
    teams: Sequence[TeamResult]

    def __len__(self) -> int:
        """About how many bytes it takes."""
        return 400 * (1 + len(self.teams))
