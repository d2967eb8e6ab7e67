"""What an event asks of payments when a fee changes. They stand far above the events and register themselves."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from weighin.events.models import Event

Seals = Mapping[str, str | None]


@dataclass(frozen=True)
class Fees:
    """``is_paid`` tells whether a team has paid a fee (``entry_fee``, ``big_fish_pot``); ``follow`` lets who has paid
    follow the fees as they are now, and gives the seals of those teams."""

    is_paid: Callable[[Event, str], bool]
    follow: Callable[[Event], Seals]


_known = [Fees(lambda event, kind: False, lambda event: {})]


def register(fees: Fees) -> None:
    """Ask this from now on."""
    _known[0] = fees


def is_paid(event: Event, kind: str) -> bool:
    """Whether a team has paid this fee: then it changes with a reason only."""
    return _known[0].is_paid(event, kind)


def follow(event: Event) -> Seals:
    """Let who has paid follow the fees as they are now; the seals of the teams that changed, for the history."""
    return _known[0].follow(event)
