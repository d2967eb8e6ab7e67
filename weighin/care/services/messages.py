"""Care notes as stations send them: found by id, compared, and written into the boat's care note.

A note says only what was seen when it was sent: at the ramp the pump and the ice, at the table the water and the
fish. So a later one of the same boat and day fills in what the earlier left blank; where it contradicts, nothing is
overwritten, and both stay until an official decides.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import Max, QuerySet

from weighin.audit.database.statements import add
from weighin.audit.services import note as note_history
from weighin.care.domain.message import NOTE
from weighin.care.models import CareNote, SentNote
from weighin.care.parsing import NOTE_FIELDS, read_note
from weighin.care.services.notes import slip_times, write_care_note
from weighin.events.services.revision import raise_revision
from weighin.records.parsing.wire import Message
from weighin.records.queries.desk import Desk, moved_on
from weighin.records.services.receiving import Kind, Sender
from weighin.rules.faults import Fault, Faults
from weighin.rules.values import decimal

ABOUT = ("official", "reason")

Values = dict[str, Any]


class NoteMessages(Kind):
    """Care notes."""

    noun = "care note"
    fields = NOTE
    of_a_void = ("id", "day", "boat")
    corrects = "care"

    def rows(self) -> QuerySet[SentNote]:
        return SentNote.objects.select_related("entry", "replaces")

    def same(self, row: SentNote, message: Message, desk: Desk) -> bool:
        try:
            found = _read(message, desk)
        except Faults:
            return False
        kept = {name: getattr(row, name) for name in ("day", "void", *ABOUT)} | {"boat": row.entry.boat}
        return kept == {name: found[name] for name in kept} and _agree(row.said, found["said"])

    def read(self, message: Message, desk: Desk, old: SentNote | None) -> Values:
        found = _read(message, desk, {} if message.void else slip_times(desk.event, message.texts))
        faults = _correction_faults(found, old) if old is not None else []
        if faults:
            raise Faults(faults)
        return found

    def write(
        self, values: Values, id: UUID, desk: Desk, old: SentNote | None, sender: Sender, look: Any
    ) -> tuple[SentNote, bool]:
        entry = desk.entries[values["boat"]]
        note = CareNote.objects.filter(entry=entry, day=values["day"]).first()
        stands = not values["void"] and _written(values, desk, note, old, sender)
        last = SentNote.objects.filter(event=desk.event).aggregate(most=Max("number"))["most"] or 0
        row = SentNote(
            id=id,
            event=desk.event,
            entry=entry,
            number=last + 1,
            stands=stands,
            replaces=old,
            sent_at=sender.sent_at,
            recorded_by=sender.name,
            **{name: values[name] for name in ("day", "said", "void", *ABOUT)},
        )
        add(row)
        if not stands:
            raise_revision(desk.event)
            _note_waiting(desk, row, sender.name)
        moved_on(desk, desk.revision + 1)
        return row, not row.void and (not stands if old else note is not None)


def _read(message: Message, desk: Desk, times: Mapping[str, datetime] | None = None) -> Values:
    """``boat``, ``day``, ``void``, the words about it, and ``said``: what it says of the boat's fish care."""
    found = read_note(message.texts, desk.table, times)
    words = {name: message.texts.get(name, "").strip() for name in ABOUT}
    return {"boat": found["boat"], "day": found["day"], "void": message.void, "said": plain_note(found), **words}


def _written(values: Values, desk: Desk, note: CareNote | None, old: SentNote | None, sender: Sender) -> bool:
    """Write what the message says into the boat's care note. False when it contradicts what else stands there.

    Raises Faults when the note that it corrects was changed on the page since.
    """
    before = plain_note(vars(note)) if note else {}
    corrected = old.said if old and old.stands else {}
    if not _agree({name: before.get(name) for name in corrected}, corrected):
        raise Faults([Fault("replaces", "the boat's care note was changed on the page since: correct it there")])
    others = {name: value for name, value in before.items() if name not in corrected}
    said = values["said"]
    if not _agree({**others, **said}, {**said, **others}):
        return False
    whole = {"boat": values["boat"], "day": values["day"], **others, **said}
    try:
        write_care_note(desk.event, {name: text_of(value) for name, value in whole.items()}, sender.name)
    except Faults:
        # It is sound by itself: what does not fit is what stands there, such as a launch after the first fish.
        if not others:
            raise
        return False
    return True


def _correction_faults(values: Values, old: SentNote) -> list[Fault]:
    faults = []
    if not values["reason"]:
        faults.append(Fault("reason", "a correction needs a reason: write why, in a few words"))
    if (values["boat"], values["day"]) != (old.entry.boat, old.day):
        whose = f"care note {old.number} is of boat {old.entry.boat}, day {old.day}: correct boat, day or number"
        faults.append(Fault("replaces", whose))
    elif values["void"] and old.stands:
        faults.append(Fault("void", f"care note {old.number} stands in the boat's care note: correct it instead"))
    return faults


def plain_note(found: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a care note that say something, as plain JSON; moments in UTC."""
    said = {name: found[name] for name in NOTE_FIELDS if found[name] not in (None, "")}
    return {name: value.isoformat() if isinstance(value, datetime) else value for name, value in said.items()}


def _agree(one: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """Whether two notes say the same; 20 and 20.0 are one figure."""
    return {name: _figure(value) for name, value in one.items()} == {n: _figure(v) for n, v in other.items()}


def _figure(value: Any) -> Any:
    try:
        return decimal(value) if isinstance(value, str) else value
    except ValueError:
        return value


def text_of(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _note_waiting(desk: Desk, row: SentNote, by: str) -> None:
    boat = f"boat {row.entry.boat}, day {row.day}"
    what = f"taken out: {row.reason}" if row.void else "waits: it contradicts the one that stands"
    note_history(
        by,
        "care.taken_out" if row.void else "care.waits",
        f"Another care note for {boat} {what}",
        club_id=desk.event.season.club_id,
        event_id=desk.event.pk,
        subject=boat,
        details={"id": str(row.pk), "said": row.said},
    )
