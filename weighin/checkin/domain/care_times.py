"""When boats launched and had their first fish, as care notes tell. They stand above the roll and register themselves."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from weighin.events.models import Event

Times = Mapping[str, datetime]


class OfEvent(Protocol):
    """``launched`` and ``first_fish`` of boats by day and entry, of an event or of those that ``only`` names."""

    def __call__(self, event: Event, **only: object) -> Mapping[tuple[int, int], Times]: ...


@dataclass(frozen=True)
class CareTimes:
    """``of_boat`` gives those of one entry and day, by primary key, in one quick statement."""

    of_event: OfEvent
    of_boat: Callable[[int, int], Times]


def _none(event: Event, **only: object) -> Mapping[tuple[int, int], Times]:
    return {}


_known = [CareTimes(_none, lambda entry, day: {})]


def register(times: CareTimes) -> None:
    """Let the roll and the slips ask this from now on."""
    _known[0] = times


def of_event(event: Event, **only: object) -> Mapping[tuple[int, int], Times]:
    """What is told of ``launched`` and ``first_fish`` by day and entry, of an event or of those that ``only`` names."""
    return _known[0].of_event(event, **only)


def of_boat(entry: int, day: int) -> Times:
    """What is told of ``launched`` and ``first_fish`` of an entry, by primary key, on a day."""
    return _known[0].of_boat(entry, day)
