"""Side pots: declared, changed with a reason once somebody paid, removed while nobody has."""

from collections.abc import Mapping

from django.db.models import Model
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.registration.domain import cash, faults
from weighin.registration.domain.fields import SIDE_POT
from weighin.registration.models import SidePot
from weighin.registration.queries.till import has_payments
from weighin.roster.services.event_rows import EventRow
from weighin.rules.faults import Faults
from weighin.rules.look_alikes import folded_name
from weighin.ui import figures


class SidePotRecord(EventRow[SidePot]):
    """A side pot; what teams paid holds its name, and a reason its fee."""

    model = SidePot
    noun = gettext_lazy("side pot")
    act = "side_pot"
    fields = SIDE_POT
    key = ""
    says_why = False

    def check(self, reader: Reader, old: SidePot | None) -> None:
        if folded_name(reader["name"]) == cash.BIG_FISH_POT:
            reader.fault("name", faults.POT_OF_THE_SHEET, pot=reader["name"])
        others = SidePot.objects.filter(event=reader.context.event_id)
        for pot in others.exclude(pk=old.pk) if old else others:
            if folded_name(pot.name) == folded_name(reader["name"]):
                reader.fault("name", faults.POT_TAKEN, pot=pot.name)
        if old is None or not has_payments(old.event, cash.side_pot(old.name)):
            return
        if reader["name"] != old.name:
            reader.fault("name", faults.POT_HAS_PAYMENTS)
        if reader["fee"] != old.fee and not reader["reason"]:
            reader.fault("reason", faults.POT_FEE_WITHOUT_REASON)

    def may_take_out(self, row: SidePot) -> None:
        if has_payments(row.event, cash.side_pot(row.name)):
            raise Faults([faults.POT_HAS_PAYMENTS.at("")])

    def history(self, row: SidePot, old: Model | None, done: str) -> Noted:
        said = {"pot": row.name, "fee": figures.money(row.fee), "wins": row.get_wins_display()}
        if done == "taken_out":
            return Noted("side_pot.removed", _("Side pot %(pot)s removed") % said, f"side pot {row.name}")
        sentence = _("Side pot %(pot)s: fee %(fee)s, wins: %(wins)s") % said
        why = f" ({row.reason})" if row.reason else ""
        return Noted(f"side_pot.{'changed' if done == 'changed' else 'added'}", sentence + why, f"side pot {row.name}")


SIDE_POT_RECORD = SidePotRecord()


def declare_side_pot(event: Event, said: Mapping[str, str], by: str, old: SidePot | None = None) -> SidePot:
    """Declare a side pot, or change ``old``. Raises Faults with field names."""
    texts = {name: text for name, text in said.items() if text}
    return write(SIDE_POT_RECORD, event.pk, Draft(texts, replaces=old and old.pk), Sender(by, asked=True)).kept()


def remove_side_pot(pot: SidePot, by: str) -> None:
    """Remove a side pot that nobody has paid. Raises Faults."""
    write(SIDE_POT_RECORD, pot.event_id, Draft({}, replaces=pot.pk, void=True), Sender(by, asked=True)).kept()


def named_pot(event: Event, name: str) -> SidePot | None:
    """The side pot of a name, without regard to case and spaces."""
    return next(
        (pot for pot in SidePot.objects.filter(event=event) if folded_name(pot.name) == folded_name(name)), None
    )
