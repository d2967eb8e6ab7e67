"""Who has paid follows the rows of payments: the one place that writes it beside a team."""

from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from django.db.models import QuerySet

from weighin.events.models import Event
from weighin.registration.domain.cash import FEE, POT, What, adds_up
from weighin.registration.models import Payment
from weighin.registration.queries.till import fees_of, rows_that_count
from weighin.roster.models import Entry


def follow_payments(event: Event, entries: Iterable[int] | None = None) -> set[int]:
    """Let ``paid`` and ``big_fish_pot`` of teams say what their rows come to; the boats of those that changed.

    Of all teams, or of these ``entries``. Call it inside the write; whoever calls it binds the teams in the history.
    """
    fees = fees_of(event, ())
    asked = Entry.everyone.filter(event=event)
    if entries is not None:
        entries = list(entries)
        asked = asked.filter(pk__in=entries)
    amounts: dict[tuple[int, What], list[Decimal]] = defaultdict(list)
    for row in rows_that_count(event, entries):
        amounts[row.entry, row.what].append(row.amount)
    changed = []
    for entry in asked:
        now = adds_up(amounts[entry.pk, FEE], fees[FEE]), adds_up(amounts[entry.pk, POT], fees[POT])
        if now != (entry.paid, entry.big_fish_pot):
            entry.paid, entry.big_fish_pot = now
            changed.append(entry)
    Entry.everyone.bulk_update(changed, ["paid", "big_fish_pot"], batch_size=500)
    return {entry.boat for entry in changed if not entry.waits}


def go_with_team(sender: object, instance: Entry, using: str, **kwargs: Any) -> None:
    """Signal handler of an entry's deletion: what a list said that it paid goes too; all else has protected it."""
    # Straight to the table: rows of payments refuse to be deleted, and their triggers allow it only now
    rows: Any = QuerySet(model=Payment, using=using).filter(entry_id=instance.pk)
    rows._raw_delete(using)
