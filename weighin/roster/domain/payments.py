"""What is said of a team beside its name: that it has paid. Money stands above the roster and registers itself."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from weighin.events.models import Event
from weighin.roster.models import Entry


@dataclass(frozen=True)
class Payments:
    """``of_new`` keeps what is said of teams as they are entered, and tells whether it raised the revision; ``of`` what a team's form says now, and said before
    (of the entry fee, of the big fish pot). Both inside the write; Faults where money says otherwise."""

    of_new: Callable[[Event, Sequence[Entry], str], bool]
    of: Callable[[Event, Entry, tuple[bool, bool], str], None]


_known: list[Payments] = []


def register(payments: Payments) -> None:
    """Tell this from now on."""
    _known[:] = [payments]


def said_of_new(event: Event, entries: Sequence[Entry], by: str) -> bool:
    """Tell of teams that were entered just now; whether the event's revision was raised with it."""
    return any(payments.of_new(event, entries, by) for payments in _known)


def said_of(event: Event, entry: Entry, before: tuple[bool, bool], by: str) -> None:
    """Tell of a team that was changed just now."""
    for payments in _known:
        payments.of(event, entry, before, by)
