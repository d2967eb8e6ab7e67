"""What the pages of money show: rows of payments, what teams owe, the cash-up in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.timezone import localtime
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.registration.domain.cash import SIDE_POT, Owed
from weighin.registration.domain.words import called
from weighin.registration.forms.money import named
from weighin.registration.models import Means, Payment, SidePot
from weighin.registration.queries.cash_up import CashUp
from weighin.registration.queries.till import Till
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.models import Entry
from weighin.ui import figures

# A line of a sheet: what, and how much
Line = tuple[str, Decimal]


@dataclass(frozen=True)
class PaymentRow:
    """A payment as the list shows it; ``out`` says what became of one that counts no longer."""

    payment: Payment
    what: str
    when: str
    out: str

    @property
    def called(self) -> str:
        """The team in words."""
        return called(self.payment.entry)

    @property
    def team(self) -> str:
        """The team in an address."""
        return named_in_forms(self.payment.entry)


def payment_rows(event: Event) -> list[PaymentRow]:
    """Every row, the newest first; the same number of queries for any number."""
    rows = Payment.objects.filter(event=event).select_related("entry", "replaced_by", "replaces").order_by("-number")
    return [PaymentRow(row, named((row.kind, row.pot)), when_of(row), _out(row)) for row in rows]


def when_of(row: Payment) -> str:
    """When a payment was written, by the event's clock."""
    return figures.moment(localtime(row.received_at))


def _out(row: Payment) -> str:
    after = getattr(row, "replaced_by", None)
    if row.void and row.replaces is not None:
        return gettext("voids payment %(number)s: %(reason)s") % {"number": row.replaces.number, "reason": row.reason}
    if after is None:
        return ""
    if after.void:
        return gettext("voided: %(reason)s") % {"reason": after.reason}
    return gettext("corrected by payment %(number)s: %(reason)s") % {"number": after.number, "reason": after.reason}


@dataclass(frozen=True)
class OwedRow:
    """What a team owes, or has paid too much."""

    entry: Entry
    what: str
    amount: Decimal

    @property
    def called(self) -> str:
        """The team in words."""
        return called(self.entry)

    @property
    def team(self) -> str:
        """The team as a form takes it."""
        return named_in_forms(self.entry)

    @property
    def too_much(self) -> Decimal:
        """What it has paid too much; 0 when it owes."""
        return max(-self.amount, Decimal(0))


def owed_rows(till: Till) -> list[OwedRow]:
    """What is owed, by boat."""

    def row(owed: Owed) -> OwedRow:
        return OwedRow(till.entries[owed.entry], named(owed.what), owed.amount)

    return [row(owed) for owed in till.cash.owed]


def pot_rows(till: Till, pots: Sequence[SidePot]) -> list[tuple[SidePot, int]]:
    """Each side pot with how many teams have paid it."""
    return [(pot, len(till.cash.in_on[SIDE_POT, pot.name])) for pot in pots]


def expected_lines(till: Till) -> list[Line]:
    """What was expected of each fee."""
    return [(named(what), amount) for what, amount in till.cash.expected.items() if amount or not what[1]]


def received_lines(till: Till) -> list[Line]:
    """What was received by each means, in their order."""
    return [(str(means.label), till.cash.received[means]) for means in Means if means in till.cash.received]


def received_in_all(till: Till) -> Decimal:
    """What was taken in by all means."""
    return sum(till.cash.received.values(), Decimal(0))


def purse_lines(cash_up: CashUp) -> list[Line]:
    """Where the money goes."""
    purse = cash_up.standings.outcome.purse
    pots = [(name, split.amount) for name, split in cash_up.pots.items()]
    return [
        (gettext("Purse"), cash_up.purse),
        (gettext("Added money in the purse"), cash_up.added_money),
        (gettext("Big fish pot"), purse.big_fish_pot),
        *pots,
        (gettext("Entry fees kept by the club"), cash_up.kept_by_club),
        (gettext("Paid out so far"), cash_up.paid_out),
        (gettext("Unclaimed: nobody wins it"), cash_up.unclaimed),
    ]
