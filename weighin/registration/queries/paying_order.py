"""The order in which teams paid, for clubs that give boat numbers or launch places so."""

from collections.abc import Sequence

from weighin.events.models import Event
from weighin.roster.models import Entry


def in_order_of_payment(event: Event, entries: Sequence[Entry]) -> list[Entry]:
    """The entries that have paid, then the others, each in the order of entry."""
    return sorted(entries, key=lambda entry: (not entry.paid, entry.number))
