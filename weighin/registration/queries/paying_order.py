"""The order in which teams paid, for clubs that give boat numbers or launch places so."""

from collections.abc import Sequence

from weighin.events.models import Event
from weighin.registration.models import Payment
from weighin.roster.models import Entry


def in_order_of_payment(event: Event, entries: Sequence[Entry]) -> list[Entry]:
    """The entries that have paid, by their first entry-fee payment, then the others in the order of entry.

    A payment that was corrected keeps the place of the row that it corrects.
    """
    rows = {row.pk: row for row in Payment.objects.filter(event=event, kind=Payment.Kind.ENTRY_FEE)}
    replaced = {row.replaces_id for row in rows.values()}
    first: dict[int, int] = {}
    for row in rows.values():
        if row.void or row.pk in replaced or row.amount < 0:
            continue
        origin = row
        while origin.replaces_id is not None and origin.replaces_id in rows:
            origin = rows[origin.replaces_id]
        first[row.entry_id] = min(origin.number, first.get(row.entry_id, origin.number))
    return sorted(entries, key=lambda e: (not e.paid, first.get(e.pk, len(rows) + 1), e.number))
