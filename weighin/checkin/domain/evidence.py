"""What weigh slips tell the roll. Slips stand above the roll and register themselves; until then nothing is weighed."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from weighin.events.domain.table import Table
from weighin.events.models import Event


class Weighed(Protocol):
    """A current slip, as far as the roll looks at it."""

    number: int
    day: int
    entry_id: int
    checked_in: datetime | None
    minutes_late: int | None
    excused_minutes: str


class Slips(Protocol):
    """The current slips of an event, or of one ``day`` or ``entry`` of it, in order of number."""

    def __call__(self, event: Event, **only: object) -> Iterable[Weighed]: ...


@dataclass(frozen=True)
class Evidence:
    """``fish_no_more`` gives the boats that the cut has sent home."""

    slips: Slips
    fish_no_more: Callable[[Event, Table], frozenset[int]]


def _none(event: Event, **only: object) -> Iterable[Weighed]:
    return ()


_known = [Evidence(_none, lambda event, table: frozenset())]


def register(evidence: Evidence) -> None:
    """Let the roll ask this from now on."""
    _known[0] = evidence


def current_slips(event: Event, **only: object) -> Iterable[Weighed]:
    """The current slips of an event, or of one ``day`` or ``entry`` of it, in order of number."""
    return _known[0].slips(event, **only)


def fish_no_more(event: Event, table: Table) -> frozenset[int]:
    """The entered boats that have missed the cut; none without a cut."""
    return _known[0].fish_no_more(event, table)
