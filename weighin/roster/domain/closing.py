"""Whether teams may still be entered or taken out. Draws, which close the entries, stand above and register themselves."""

from collections.abc import Callable

from weighin.events.models import Event
from weighin.rules.faults import Fault, Faults, Said

WhyClosed = Callable[[Event], Said | None]

_known: list[WhyClosed] = []


def register(why_closed: WhyClosed) -> None:
    """Ask this from now on."""
    _known[:] = [why_closed]


def require_entries_open(event: Event) -> None:
    """Raises Faults with why, and what to do, when the entries of an event are closed."""
    closed = [Fault("", said) for ask in _known if (said := ask(event)) is not None]
    if closed:
        raise Faults(closed)
