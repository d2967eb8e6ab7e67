"""Prizes handed over, through the door; they may come after the event is closed."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, ClassVar
from uuid import UUID, uuid4

from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.registration.domain import faults
from weighin.registration.domain.cash import NONE, SIDE_POT
from weighin.registration.domain.fields import PAY_OUT
from weighin.registration.domain.kinds import amount_of, pots_listed
from weighin.registration.domain.words import called
from weighin.registration.models import PayeeNotice, PayOut, SidePot
from weighin.registration.queries.cash_up import cash_up_of
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Faults, Together, Wrong
from weighin.ui import figures


class PayOutRecord(RecordType[PayOut]):
    """What is due by the standings as they are when it is paid, less what was paid of it already."""

    model = PayOut
    noun = gettext_lazy("pay-out")
    fields = PAY_OUT
    scope: ClassVar[Scope] = EVENT
    of_a_void = ()
    after_closing = True

    def rows(self) -> QuerySet[PayOut]:
        return PayOut.objects.select_related("entry", "replaces__entry")

    def check(self, reader: Reader, old: PayOut | None) -> None:
        if reader["kind"] == SIDE_POT and not reader["pot"] and reader.sure("pot"):
            names = list(SidePot.objects.filter(event=reader.context.event_id).values_list("name", flat=True))
            reader.fault("pot", faults.POT_MISSING, pots=pots_listed(names))
        elif reader["kind"] and reader["kind"] != SIDE_POT and reader["pot"]:
            reader.fault("pot", faults.POT_OF_ANOTHER_KIND)

    def before(self, row: PayOut, old: PayOut | None, context: Any) -> None:
        if row.void:
            return
        due, waits, numbers = _due(context.event, row)
        if due <= 0 and numbers:
            given = sum(PayOut.objects.filter(event=context.event, number__in=numbers).values_list("amount", flat=True))
            said = {"boat": row.entry.boat, "amount": figures.money(given), "numbers": ", ".join(map(str, numbers))}
            raise Faults([faults.PAID_OUT_ALREADY.at("entry", **said)])
        if due <= 0:
            raise Faults([faults.NOTHING_DUE.at("entry", boat=row.entry.boat)])
        if waits and not row.reason.strip():
            said = {"boat": row.entry.boat, "protests": Together(waits)}
            raise Faults([faults.WAITS_FOR_PROTEST.at("reason", **said)])
        row.amount = due

    def history(self, row: PayOut, old: PayOut | None, done: str) -> Noted:
        said = {
            "team": called(row.entry),
            "what": row.pot or row.get_kind_display(),
            "amount": figures.money(row.amount),
            "means": row.get_means_display(),
            "old": old.number if old else "",
            "reason": row.reason,
        }
        if done == "voided":
            return Noted("pay_out.voided", _("Pay-out %(old)s to %(team)s voided: %(reason)s") % said, str(row))
        sentence = _("Paid out to %(team)s: %(amount)s for %(what)s, %(means)s") % said
        return Noted("pay_out.recorded", f"{sentence} ({row.reason})" if row.reason else sentence, str(row))


PAY_OUT_RECORD = PayOutRecord()


def pay_out(event: Event, said: Mapping[str, str], by: str, id: UUID | None = None) -> PayOut:
    """Keep that a prize was handed over: all of it that is left to pay. ``said`` holds entry, kind, pot, means,
    received_by, and as ``reason`` why it is paid although a protest can change it. Raises Faults with field names, also
    where nothing is due."""
    texts = {name: text for name, text in said.items() if text} | {"amount": "0"}
    return write(PAY_OUT_RECORD, event.pk, Draft(texts, id or uuid4()), Sender(by)).kept()


def void_pay_out(row: PayOut, reason: str, by: str) -> PayOut:
    """Let a pay-out count no longer. Raises Faults."""
    draft = Draft({"reason": reason}, replaces=row.number, void=True, names={"replaces": ""})
    return write(PAY_OUT_RECORD, row.event_id, draft, Sender(by, asked=True)).kept()


def list_payees_above(club: Club, sum_said: str, by: str) -> None:
    """Have those listed whom the club pays prizes of more than this in a calendar year; blank: nobody. Raises Faults for
    ``above``."""
    try:
        above = amount_of(sum_said) if sum_said.strip() else None
    except Wrong as wrong:
        raise Faults([wrong.at("above")]) from None
    with writing():
        PayeeNotice.objects.create(club=club, above=above, recorded_by=by)
        sentence = (
            _("No payees are listed anymore")
            if above is None
            else _("Payees above %(sum)s are listed") % {"sum": figures.money(above)}
        )
        log_history(by, "payees.listed", sentence, club_id=club.pk, details={"above": above and f"{above:.2f}"})


def _due(event: Event, row: PayOut) -> tuple[Decimal, tuple[int, ...], list[int]]:
    """What is left to pay of this, the protests that it waits for, and the numbers of what was paid."""
    mine = PayOut.objects.current().filter(event=event, entry=row.entry, kind=row.kind, pot=row.pot)
    numbers = list(mine.values_list("number", flat=True))
    for one in cash_up_of(event).due:
        if (one.boat, one.kind, one.pot) == (row.entry.boat, row.kind, row.pot):
            return one.left, one.waits, numbers
    return NONE, (), numbers
