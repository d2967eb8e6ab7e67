"""What teams paid and owe: the rows that count, added up beside the fees."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.registration.domain.cash import FEE, NONE, POT, Cash, Paid, What, cash_of, side_pot
from weighin.registration.domain.kinds import shares_of
from weighin.registration.models import Means, Payment, SidePot
from weighin.roster.models import Entry
from weighin.rules.side_pots import SidePot as Pot


@dataclass(frozen=True)
class Till:
    """The money of an event: its fees, its side pots, its teams by key, and what the rows come to."""

    event: Event
    fees: Mapping[What, Decimal]
    pots: tuple[Pot, ...]
    entries: Mapping[int, Entry]
    cash: Cash


def till_of(event: Event) -> Till:
    """The till as it stands now; the same number of queries whatever its size."""
    pots = side_pots_of(event)
    fees = fees_of(event, pots)
    entries = {entry.pk: entry for entry in teams_of(event)}
    withdrawn = {pk for pk, entry in entries.items() if entry.status == Entry.Status.WITHDRAWN}
    return Till(event, fees, pots, entries, cash_of(fees, entries, withdrawn, rows_that_count(event)))


def teams_of(event: Event) -> list[Entry]:
    """Every team of the event, by boat number; those that wait for one last."""
    return sorted(Entry.everyone.filter(event=event), key=lambda entry: (entry.waits, entry.boat or entry.number))


def side_pots_of(event: Event) -> tuple[Pot, ...]:
    """The side pots, by name."""
    rows = SidePot.objects.filter(event=event)
    return tuple(Pot(row.name, row.fee, row.wins, shares_of(row.shares)) for row in rows)


def fees_of(event: Event, pots: Iterable[Pot]) -> dict[What, Decimal]:
    """What a team pays for each thing."""
    own = {FEE: Decimal(event.entry_fee), POT: rules_of(event).big_fish_pot_fee}
    return own | {side_pot(pot.name): pot.fee for pot in pots}


def rows_that_count(event: Event, entries: Iterable[int] | None = None) -> list[Paid]:
    """The rows that nothing replaces and that are no voids; of all teams or of these ``entries``."""
    rows = Payment.objects.current().filter(event=event)
    if entries is not None:
        rows = rows.filter(entry__in=list(entries))
    found = rows.order_by("number").values_list("entry", "kind", "pot", "amount", "means")
    return [Paid(entry, (kind, pot), amount, means) for entry, kind, pot, amount, means in found]


def paid_by(event: Event, entry: Entry) -> dict[What, Decimal]:
    """What the rows of a team come to for each thing, where that is above 0."""
    sums: dict[What, Decimal] = {}
    for row in rows_that_count(event, [entry.pk]):
        sums[row.what] = sums.get(row.what, NONE) + row.amount
    return {what: amount for what, amount in sums.items() if amount > 0}


def has_payments(event: Event, what: What) -> bool:
    """Whether anybody has paid this: a row of it counts."""
    kind, pot = what
    return bool(Payment.objects.current().filter(event=event, kind=kind, pot=pot).exists())


def has_money(event: Event) -> bool:
    """Whether money changed hands: a row that says more than a list of teams, which says only that they paid."""
    return bool(Payment.objects.filter(event=event).exclude(means=Means.NOT_RECORDED).exists())
