"""What an event asks of its slips. They stand above the events and register themselves; until then nothing is weighed."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event
from weighin.rules.faults import Fault


class Count(Protocol):
    """How many slips are kept of an event, of one ``day`` of it, or only the ``current`` ones."""

    def __call__(self, event: Event, day: int | None = None, current: bool = False) -> int: ...


@dataclass(frozen=True)
class Slips:
    """``first`` gives the number of the slip that locked the rule sheet, ``begun`` those of many events (primary keys)
    that have slips, ``too_late`` the faults of a day's start later than fish were weighed."""

    first: Callable[[Event], int | None]
    count: Count
    begun: Callable[[Iterable[int]], frozenset[int]]
    too_late: Callable[[Event, Calendar], Sequence[Fault]]


def _none(event: Event, day: int | None = None, current: bool = False) -> int:
    return 0


_known = [Slips(lambda event: None, _none, lambda events: frozenset(), lambda event, calendar: ())]


def register(slips: Slips) -> None:
    """Let events ask this from now on."""
    _known[0] = slips


def first(event: Event) -> int | None:
    """The number of the slip that locked the rule sheet, or None while there is none."""
    return _known[0].first(event)


def count(event: Event, day: int | None = None, current: bool = False) -> int:
    """How many slips are kept of an event, of one ``day`` of it, or only the ``current`` ones."""
    return _known[0].count(event, day, current)


def begun(events: Iterable[int]) -> frozenset[int]:
    """Those of many events (primary keys) that have slips."""
    return _known[0].begun(events)


def too_late(event: Event, calendar: Calendar) -> list[Fault]:
    """Faults of days that start later than fish were weighed or released on them. Field ``start_time``."""
    return list(_known[0].too_late(event, calendar))
