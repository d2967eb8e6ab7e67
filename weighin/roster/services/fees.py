"""Whether a team has paid, as a list or its form says: rows of payments are made of it (``domain/payments.py``)."""

from weighin.roster.models import Entry


def keep_fees(entry: Entry, paid: bool, big_fish_pot: bool) -> None:
    """Set on an entry that is about to be saved whether its entry fee and its stake in the big fish pot are paid."""
    entry.paid, entry.big_fish_pot = paid, big_fish_pot
