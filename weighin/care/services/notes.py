"""Care notes through the door: one a boat and day, changed in place; and what phones and tablets sent of them.

A note that is sent says only what was seen then: at the ramp the pump and the ice, at the table the water and the
fish. So a later one of the same boat and day fills in what the earlier left blank; where it contradicts, nothing is
overwritten, and both stay until an official decides.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.services import writing
from weighin.care.domain import faults
from weighin.care.domain.fields import NOTE, NOTED, SENT
from weighin.care.models import CareNote, SentNote
from weighin.care.parsing import check_note
from weighin.events.domain.kinds import Clock
from weighin.events.models import Event
from weighin.records.domain.fields import Field
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.domain.rows import value_of
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.roster.services.boat_records import BoatRecord
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Fault, Faults
from weighin.rules.values import decimal
from weighin.slips.models import WeighSlip


class CareNoteRecord(BoatRecord[CareNote]):
    """How a team kept its fish on one day."""

    model = CareNote
    noun = gettext_lazy("care note")
    fields = NOTE
    edited = True
    numbered = False

    def check(self, reader: Reader, old: CareNote | None) -> None:
        check_note(reader, slip_times(reader))

    def changed_meanwhile(self) -> Any:
        return faults.NOTE_CHANGED_MEANWHILE.says()

    def history(self, row: CareNote, old: CareNote | None, done: str) -> Noted:
        said = {"boat": row.entry.boat, "day": row.day}
        if done == "changed":
            sentence = _("Care note edited for boat %(boat)s, day %(day)s") % said
        else:
            sentence = _("Care note added for boat %(boat)s, day %(day)s") % said
        act = "care.changed" if done == "changed" else "care.written"
        return Noted(act, sentence, _("boat %(boat)s, day %(day)s") % said)


class SentNoteRecord(BoatRecord[SentNote]):
    """A care note as a phone or tablet sent it."""

    model = SentNote
    noun = gettext_lazy("care note")
    fields = SENT
    corrects = "care"

    def rows(self) -> QuerySet[SentNote]:
        return SentNote.objects.select_related("entry", "replaces")

    def check(self, reader: Reader, old: SentNote | None) -> None:
        check_note(reader, slip_times(reader))

    def check_correction(self, reader: Reader, old: SentNote, draft: Draft, asked: bool) -> list[Fault]:
        found = super().check_correction(reader, old, draft, asked)
        if draft.void and old.stands and not any(fault.field == "replaces" for fault in found):
            found.append(faults.NOTE_STANDS.at("void", number=old.number))
        return found

    def attributes(self, values: Values, context: EventContext) -> Values:
        own = {name: value for name, value in values.items() if name not in NOTED}
        return {**super().attributes(own, context), "said": plain_note(values), "stands": False}

    def value_of(self, row: SentNote, field: Field) -> Any:
        if field.name not in NOTED:
            return value_of(row, field.name)
        said = row.said.get(field.name, field.blank)
        return datetime.fromisoformat(said) if said and isinstance(field.kind, Clock) else said

    def before(self, row: SentNote, old: SentNote | None, context: EventContext) -> Any:
        """Write what it says into the boat's care note, unless it contradicts what else stands there."""
        note = CareNote.objects.filter(entry=row.entry, day=row.day).first()
        row.stands = not row.void and _written(row, note, old, context)
        return note is not None

    def is_second(self, row: SentNote, old: SentNote | None, context: EventContext, known: Any) -> bool:
        return not row.void and bool(not row.stands if old else known)

    def history(self, row: SentNote, old: SentNote | None, done: str) -> Noted | None:
        if row.stands:  # the care note's own entry says it
            return None
        said = {"boat": row.entry.boat, "day": row.day, "reason": row.reason}
        subject = _("boat %(boat)s, day %(day)s") % said
        if row.void:
            sentence = _("Another care note for boat %(boat)s, day %(day)s void: %(reason)s") % said
            return Noted("care.taken_out", sentence, subject)
        sentence = _("Another care note for boat %(boat)s, day %(day)s waits: it contradicts the first one") % said
        return Noted("care.waits", sentence, subject)


CARE_NOTE = CareNoteRecord()
SENT_NOTE = SentNoteRecord()


def write_care_note(event: Event, written: Mapping[str, str | None], by: str, seen: str | None = None) -> CareNote:
    """Write a boat's care note of a day, or change the one that is there.

    ``seen`` is the ``fingerprint`` of the note that the writer had before them: when another was kept meanwhile
    nothing is written. None = whatever is there. Raises Faults with field names.
    """
    texts = {name: text for name, text in written.items() if text}
    with writing():
        context = EVENT.open(event.pk)
        values = CARE_NOTE.values(texts, context)
        note = CareNote.objects.filter(entry__event=event, entry__boat=values["boat"], day=values["day"]).first()
        if note is None and seen:
            raise Faults([Fault("seen", CARE_NOTE.changed_meanwhile())])
        draft = Draft(texts, replaces=note.pk if note else None, seen=seen)
        return write(CARE_NOTE, event.pk, draft, Sender(by, asked=True)).kept()


def slip_times(reader: Reader) -> dict[str, datetime]:
    """The times of the boat's slip that day, against which a care note's are held."""
    slips = WeighSlip.objects.current().filter(
        event=reader.context.event, entry__boat=reader["boat"], day=reader["day"]
    )
    times = slips.values("checked_in", "weighed", "released").first() or {}
    return {name: moment for name, moment in times.items() if moment}


def plain_note(found: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a care note that say something, as plain JSON; moments in UTC."""
    said = {name: found[name] for name in NOTED if found[name] not in (None, "")}
    return {name: value.isoformat() if isinstance(value, datetime) else value for name, value in said.items()}


def texts_of(said: Mapping[str, Any]) -> dict[str, str]:
    """What a note says, in plain JSON, as texts that are read again."""
    return {name: _text(value) for name, value in said.items()}


def _written(row: SentNote, note: CareNote | None, old: SentNote | None, context: EventContext) -> bool:
    """Write what the row says into the boat's care note. False when it contradicts what else stands there.

    Raises Faults when the note that it corrects was changed on the page since.
    """
    before = plain_note(vars(note)) if note else {}
    corrected = old.said if old and old.stands else {}
    if not _agree({name: before.get(name) for name in corrected}, corrected):
        raise Faults([faults.CHANGED_ON_THE_PAGE.at("replaces")])
    others = {name: value for name, value in before.items() if name not in corrected}
    if not _agree({**others, **row.said}, {**row.said, **others}):
        return False
    try:
        whole = {"boat": row.entry.boat, "day": row.day, **others, **row.said}
        write_care_note(context.event, texts_of(whole), row.recorded_by)
    except Faults:
        # It is sound by itself: what does not fit is what stands there, such as a launch after the first fish.
        if not others:
            raise
        return False
    return True


def _agree(one: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """Whether two notes say the same; 20 and 20.0 are one figure."""
    return {name: _figure(value) for name, value in one.items()} == {n: _figure(v) for n, v in other.items()}


def _figure(value: Any) -> Any:
    try:
        return decimal(value) if isinstance(value, str) else value
    except ValueError:
        return value


def _text(value: Any) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)
