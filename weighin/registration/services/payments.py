"""Payments through the door, and what a list says of a team alone: that it has paid."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any, ClassVar
from uuid import UUID, uuid4

from django.db.models import Max, Q, QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.database.statements import add_all
from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write, write_many
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.registration.domain import faults
from weighin.registration.domain.cash import FEE, NONE, POT, SIDE_POT, What, adds_up
from weighin.registration.domain.fields import PAYMENT
from weighin.registration.domain.kinds import pots_listed
from weighin.registration.domain.words import called
from weighin.registration.models import Means, Payment, SidePot
from weighin.registration.queries.till import fees_of, rows_that_count
from weighin.registration.services.following import follow_payments
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.models import Entry
from weighin.roster.queries import roster_seals
from weighin.roster.services.event_scope import EVENT
from weighin.rules import values
from weighin.rules.faults import Faults, Wrong
from weighin.ui import figures


class PaymentRecord(RecordType[Payment]):
    """Money taken in or given back; a correction may be of another team, where the boat was written wrong."""

    model = Payment
    noun = gettext_lazy("payment")
    fields = PAYMENT
    scope: ClassVar[Scope] = EVENT
    of_a_void = ()
    leaves_context = False

    def rows(self) -> QuerySet[Payment]:
        return Payment.objects.select_related("entry", "replaces__entry")

    def check(self, reader: Reader, old: Payment | None) -> None:
        if reader["kind"] == SIDE_POT and not reader["pot"] and reader.sure("pot"):
            names = list(SidePot.objects.filter(event=reader.context.event_id).values_list("name", flat=True))
            reader.fault("pot", faults.POT_MISSING, pots=pots_listed(names))
        elif reader["kind"] and reader["kind"] != SIDE_POT and reader["pot"]:
            reader.fault("pot", faults.POT_OF_ANOTHER_KIND)

    def check_asked(self, reader: Reader, old: Payment | None) -> None:
        """Who gives back more than was paid has another boat before them."""
        if reader["amount"] >= 0:
            return
        mine = Payment.objects.current().filter(entry=reader["entry"], kind=reader["kind"], pot=reader["pot"])
        paid = sum((row.amount for row in (mine.exclude(pk=old.pk) if old else mine)), NONE)
        if paid + reader["amount"] < 0:
            reader.fault("amount", faults.MORE_BACK_THAN_PAID, boat=reader["entry"].boat, paid=figures.money(paid))

    def after(self, row: Payment, old: Payment | None, context: Any, known: Any) -> None:
        follow_payments(context.event, {row.entry_id, *([old.entry_id] if old else [])})

    def history(self, row: Payment, old: Payment | None, done: str) -> Noted:
        said = {
            "number": row.number,
            "team": called(row.entry),
            "what": row.pot or row.get_kind_display(),
            "amount": figures.money(abs(row.amount)),
            "means": row.get_means_display(),
            "reason": row.reason,
            "old": old.number if old else "",
        }
        if done == "voided":
            sentence = _("Payment %(old)s of %(team)s voided: %(reason)s") % said
        elif done == "corrected":
            sentence = _("Payment %(old)s corrected to %(amount)s of %(team)s for %(what)s: %(reason)s") % said
        elif row.amount < 0:
            sentence = _("Refunded to %(team)s: %(amount)s for %(what)s, %(means)s") % said
        else:
            sentence = _("Paid by %(team)s: %(amount)s for %(what)s, %(means)s") % said
        boats = {entry.boat for entry in (row.entry, old.entry if old else row.entry) if not entry.waits}
        return Noted(f"payment.{done}", sentence, f"payment {row.number}", roster_seals(row.event_id, boats))


PAYMENT_RECORD = PaymentRecord()


def take_payment(
    event: Event,
    said: Mapping[str, str],
    by: str,
    corrects: str | int | None = None,
    id: UUID | None = None,
    asked: bool = True,
) -> Payment:
    """Keep a payment, or a correction of the row of the number ``corrects``; ``said`` maps its fields to texts.

    Raises Faults with field names.
    """
    number = None
    if corrects is not None:
        try:
            number = values.whole(str(corrects), least=1)
        except Wrong as wrong:
            raise Faults([wrong.at("replaces")]) from None
    draft = Draft({name: text for name, text in said.items() if text}, id or uuid4(), number)
    return write(PAYMENT_RECORD, event.pk, draft, Sender(by, asked=asked)).kept()


def void_payment(payment: Payment, reason: str, by: str) -> Payment:
    """Let a payment count no longer. Raises Faults, also when it was corrected or voided already."""
    draft = Draft({"reason": reason}, replaces=payment.number, void=True, names={"replaces": ""})
    return write(PAYMENT_RECORD, payment.event_id, draft, Sender(by, asked=True)).kept()


def note_paid(event: Event, entries: Iterable[Entry], by: str) -> bool:
    """Keep a row of no recorded means for each fee that these new teams are said to have paid; inside their write.

    Whether there are any.
    """
    rows = _said_by_lists(event, entries)
    if not rows:
        return False
    write_many(PAYMENT_RECORD, EVENT.lock(event.pk), rows, Sender(by))
    return True


def rows_of_earlier_teams() -> None:
    """Keep the rows of teams that were said to have paid before there were rows of payments; run again it does nothing.

    Nothing that anybody sees changes by them, so no revision is raised.
    """
    without = Entry.everyone.exclude(payments__isnull=False).filter(Q(paid=True) | Q(big_fish_pot=True))
    for event in Event.everyone.filter(pk__in=without.values("event")).select_related("rule_sheet"):
        with writing():
            rows = _said_by_lists(event, without.filter(event=event).order_by("number"))
            first = Payment.objects.filter(event=event).aggregate(most=Max("number"))["most"] or 0
            add_all(
                [
                    Payment(event=event, number=number, recorded_by=_("site"), **values)
                    for number, values in enumerate(rows, start=first + 1)
                ]
            )


def _said_by_lists(event: Event, entries: Iterable[Entry]) -> list[Values]:
    """A row of no recorded means for each fee that a list says teams have paid."""
    said = [(entry, what) for entry in entries for what in _said_paid(entry)]
    if not said:
        return []
    fees, means = fees_of(event, ()), Means.NOT_RECORDED.value
    return [
        {"entry": entry, "kind": what[0], "pot": "", "amount": fees[what], "means": means, "reason": ""}
        for entry, what in said
    ]


def say_paid(event: Event, entry: Entry, before: tuple[bool, bool], by: str) -> None:
    """Let the rows of a team say what its form says now: one of no recorded means, or those voided.

    Raises Faults where money that changed hands says otherwise: a form takes none of it back.
    """
    fees = fees_of(event, ())
    now = entry.paid, entry.big_fish_pot
    for field, what, was, is_now in zip(("paid", "big_fish_pot"), (FEE, POT), before, now, strict=True):
        if is_now == was:
            continue
        if is_now:
            _pay(event, entry, what, fees[what], by)
        else:
            _unpay(event, entry, field, what, by)


def _said_paid(entry: Entry) -> list[What]:
    return [what for what, said in ((FEE, entry.paid), (POT, entry.big_fish_pot)) if said]


def _pay(event: Event, entry: Entry, what: What, fee: Decimal, by: str) -> None:
    amounts = [row.amount for row in rows_that_count(event, [entry.pk]) if row.what == what]
    if adds_up(amounts, fee):
        return
    left = fee - sum(amounts, NONE)
    take_payment(
        event,
        {"entry": named_in_forms(entry), "kind": what[0], "amount": f"{left:.2f}", "means": Means.NOT_RECORDED},
        by,
        asked=False,
    )


def _unpay(event: Event, entry: Entry, field: str, what: What, by: str) -> None:
    rows = list(Payment.objects.current().filter(event=event, entry=entry, kind=what[0]))
    if any(row.means != Means.NOT_RECORDED for row in rows):
        raise Faults([faults.HAS_MONEY.at(field, boat=entry.boat)])
    for row in rows:
        void_payment(row, _("The team’s form says that it has not paid"), by)
