"""What an event asks of its teams. The roster stands above the events and registers itself; until then nobody is entered."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from weighin.events.models import Event


class Count(Protocol):
    """How many teams are entered in an event, or in one ``flight`` of it."""

    def __call__(self, event: Event, flight: str | None = None) -> int: ...


@dataclass(frozen=True)
class Teams:
    """``counts`` gives the teams of many events by primary key; ``rename_flight`` moves the teams of a flight to its new name,
    and gives their seals for the history."""

    count: Count
    counts: Callable[[Iterable[int]], Mapping[int, int]]
    rename_flight: Callable[[Event, str, str], Mapping[str, str | None]]


def _none(event: Event, flight: str | None = None) -> int:
    return 0


_known = [Teams(_none, lambda events: {}, lambda event, old, new: {})]


def register(teams: Teams) -> None:
    """Let events ask this from now on."""
    _known[0] = teams


def count(event: Event, flight: str | None = None) -> int:
    """How many teams are entered in an event, or in one ``flight`` of it."""
    return _known[0].count(event, flight)


def counts(events: Iterable[int]) -> Mapping[int, int]:
    """The teams of many events by primary key; an event without any may be missing."""
    return _known[0].counts(events)


def rename_flight(event: Event, old: str, new: str) -> Mapping[str, str | None]:
    """Move the teams of a flight to its new name; their seals for the history."""
    return _known[0].rename_flight(event, old, new)
