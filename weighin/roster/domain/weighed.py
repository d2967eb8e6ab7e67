"""Whether a boat's number stands on slips. They stand above the roster and register themselves."""

from collections.abc import Callable

from weighin.roster.models import Entry

OnSlips = Callable[[Entry], bool]

_known: list[OnSlips] = []


def register(on_slips: OnSlips) -> None:
    """Ask this from now on."""
    _known[:] = [on_slips]


def is_on_slips(entry: Entry) -> bool:
    """Whether the entry's boat number stands on a slip of its event."""
    return any(on_slips(entry) for on_slips in _known)
