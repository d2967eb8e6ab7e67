"""Which teams wait for a place in an event. Sign-up, which limits the places, stands above and registers itself."""

from collections.abc import Callable
from collections.abc import Set as AbstractSet

from weighin.events.models import Event

WithoutPlace = Callable[[Event], AbstractSet[int]]

_known: list[WithoutPlace] = []


def register(waiting: WithoutPlace) -> None:
    """Ask this from now on."""
    _known[:] = [waiting]


def without_place(event: Event) -> frozenset[int]:
    """The keys of the entries on the waiting list; empty where the places are not limited."""
    return frozenset(key for ask in _known for key in ask(event))
