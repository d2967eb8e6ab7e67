"""Protests, rulings on them, and the time in which they are taken, through the door; also after the event is closed."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar, TypeVar
from uuid import UUID, uuid4

from django.db.models import Max, Model, QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.events.models import Event
from weighin.records.domain.fields import Field
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.slips.models import WeighSlip
from weighin.standings.domain import faults
from weighin.standings.domain.fields import PROTEST, PROTEST_TIME, RULING
from weighin.standings.models import Protest, ProtestTime, Ruling

Row = TypeVar("Row", bound=Model)


class Written(RecordType[Row]):
    """A row with a moment that is now where nothing is written."""

    scope: ClassVar[Scope] = EVENT
    of_a_void = ()
    after_closing = True
    moment: ClassVar[str]

    def attributes(self, values: Values, context: EventContext) -> Values:
        return {**values, "event": context.event, self.moment: values[self.moment] or timezone.now()}

    def same(self, row: Row, draft: Draft, context: Any) -> bool:
        at = draft.texts.get(self.moment) or getattr(row, self.moment).isoformat()
        return super().same(row, replace(draft, texts={**draft.texts, self.moment: at}), context)


class ProtestRecord(Written[Protest]):
    """A protest; one about a slip is about its boat. A correction keeps its number."""

    model = Protest
    noun = gettext_lazy("protest")
    fields = PROTEST
    moment = "handed_in"

    def rows(self) -> QuerySet[Protest]:
        return Protest.objects.select_related("entry", "replaces__entry")

    def value_of(self, row: Protest, one: Field) -> Any:
        if one.name == "boat":
            return row.entry.boat if row.entry else None
        return super().value_of(row, one)

    def check(self, reader: Reader, old: Protest | None) -> None:
        if not reader["slip"]:
            return
        slip = WeighSlip.objects.filter(event=reader.context.event_id, number=reader["slip"]).first()
        if slip is None:
            reader.fault("slip", faults.NO_SUCH_SLIP, slip=reader["slip"])
        elif reader["boat"] and slip.entry.boat != reader["boat"]:
            reader.fault("slip", faults.SLIP_OF_ANOTHER, slip=reader["slip"], boat=slip.entry.boat)

    def same(self, row: Protest, draft: Draft, context: Any) -> bool:
        # One about a slip holds the slip's boat, whether that was written or not
        boat = draft.texts.get("boat") or (str(row.entry.boat) if row.slip and row.entry else "")
        return super().same(row, replace(draft, texts={**draft.texts, "boat": boat}), context)

    def attributes(self, values: Values, context: EventContext) -> Values:
        found = super().attributes(values, context)
        boat = found.pop("boat")
        if not boat and found["slip"]:
            slip = WeighSlip.objects.filter(event=context.event, number=found["slip"]).select_related("entry").first()
            boat = slip and slip.entry.boat
        return {**found, "entry": context.entries[boat] if boat else None}

    def before(self, row: Protest, old: Protest | None, context: EventContext) -> None:
        most = Protest.objects.filter(event=context.event).aggregate(most=Max("case"))["most"] or 0
        row.case = old.case if old else most + 1

    def history(self, row: Protest, old: Protest | None, done: str) -> Noted:
        said = {"case": row.case, "boat": row.entry.boat if row.entry else "", "reason": row.reason}
        if done == "voided":
            sentence = _("Protest %(case)s voided: %(reason)s") % said
        elif done == "corrected":
            sentence = _("Protest %(case)s corrected: %(reason)s") % said
        elif row.entry:
            sentence = _("Protest %(case)s handed in, about boat %(boat)s") % said
        else:
            sentence = _("Protest %(case)s handed in, about the whole result") % said
        return Noted(f"protest.{done}", sentence, f"protest {row.case}")


class RulingRecord(Written[Ruling]):
    """A ruling; a protest has one that counts."""

    model = Ruling
    noun = gettext_lazy("ruling")
    fields = RULING
    moment = "ruled_at"

    def check(self, reader: Reader, old: Ruling | None) -> None:
        event, case = reader.context.event_id, reader["case"]
        if not Protest.objects.current().filter(event=event, case=case).exists():
            reader.fault("", faults.NO_SUCH_PROTEST, case=case)
        elif old is None and Ruling.objects.current().filter(event=event, case=case).exists():
            reader.fault("", faults.RULED_ALREADY, case=case)

    def history(self, row: Ruling, old: Ruling | None, done: str) -> Noted:
        said = {"case": row.case, "outcome": str(row.get_outcome_display()).lower(), "reason": row.reason}
        if done == "voided":
            sentence = _("Ruling on protest %(case)s voided: %(reason)s") % said
        elif done == "corrected":
            sentence = _("Ruling on protest %(case)s corrected: %(outcome)s (%(reason)s)") % said
        else:
            sentence = _("Protest %(case)s ruled on: %(outcome)s") % said
        return Noted(f"ruling.{done}", sentence, f"protest {row.case}")


class ProtestTimeRecord(RecordType[ProtestTime]):
    """For how long protests are taken; the last row counts, from the next posting on."""

    model = ProtestTime
    noun = gettext_lazy("time for protests")
    fields = PROTEST_TIME
    scope: ClassVar[Scope] = EVENT
    numbered = False
    key = ""
    after_closing = True

    def unchanged(self, reader: Reader, context: EventContext) -> ProtestTime | None:
        last = ProtestTime.objects.filter(event=context.event).order_by("-id").first()
        return last if last is not None and last.minutes == reader["minutes"] else None

    def history(self, row: ProtestTime, old: ProtestTime | None, done: str) -> Noted:
        sentence = _("Protests are taken for %(minutes)s minutes after the posting") % {"minutes": row.minutes}
        return Noted("protest.time", sentence, _("time for protests"))


PROTESTS, RULINGS, PROTEST_TIMES = ProtestRecord(), RulingRecord(), ProtestTimeRecord()


def set_protest_time(event: Event, minutes: str, by: str) -> ProtestTime:
    """Say for how many minutes after the posting protests are taken; a posting that is out keeps its own. Raises Faults."""
    return write(PROTEST_TIMES, event.pk, Draft({"minutes": minutes}), Sender(by, asked=True)).kept()


def hand_in(
    event: Event, said: Mapping[str, str], by: str, id: UUID | None = None, old: Protest | None = None
) -> Protest:
    """Keep a protest, or a correction of ``old`` with a reason. Raises Faults with field names."""
    return write(PROTESTS, event.pk, _draft(PROTESTS, said, id, old), Sender(by, asked=True)).kept()


def void_protest(old: Protest, reason: str, by: str) -> Protest:
    """Let a protest that was written by mistake count no longer. Raises Faults."""
    draft = Draft({"reason": reason}, replaces=old.number, void=True, names={"replaces": ""})
    return write(PROTESTS, old.event_id, draft, Sender(by, asked=True)).kept()


def rule_on(
    event: Event, case: int, said: Mapping[str, str], by: str, id: UUID | None = None, old: Ruling | None = None
) -> Ruling:
    """Keep what was ruled on a protest, or a correction of that with a reason. Raises Faults with field names."""
    draft = _draft(RULINGS, {**said, "case": str(case)}, id, old)
    return write(RULINGS, event.pk, draft, Sender(by, asked=True)).kept()


def _draft(record: Written[Any], said: Mapping[str, str], id: UUID | None, old: Protest | Ruling | None) -> Draft:
    """What is written. A form that is sent twice finds its own row as the one that counts: it corrects what that one did."""
    texts = {name: text for name, text in said.items() if text}
    if old is not None and old.pk == id:
        old = record.rows().get(pk=id).replaces
    return Draft(texts, id or uuid4(), replaces=old and old.number, names={"replaces": ""})
