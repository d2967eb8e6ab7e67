"""Settle a care note of a phone that contradicts the one that stands: an official says which holds."""

from datetime import datetime

from django.utils.translation import gettext as _

from weighin.audit.services import writing
from weighin.care.domain import faults
from weighin.care.models import CareNote, SentNote
from weighin.care.queries.care import waiting_notes
from weighin.care.services.notes import SentNoteRecord, plain_note, texts_of, write_care_note
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Faults

MOST_SIGNS = 300


class Settled(SentNoteRecord):
    """The row that closes a waiting note; ``holds``: its word, else what stood."""

    def __init__(self, holds: bool):
        self.holds = holds

    def history(self, row: SentNote, old: SentNote | None, done: str) -> Noted:
        assert old is not None
        said = {"number": old.number, "boat": row.entry.boat, "day": row.day, "reason": row.reason}
        if self.holds:
            sentence = _("Care note %(number)s for boat %(boat)s, day %(day)s, settled: it is right: %(reason)s")
        else:
            sentence = _(
                "Care note %(number)s for boat %(boat)s, day %(day)s, settled: the first note is right: %(reason)s"
            )
        return Noted("care.settled", sentence % said, _("boat %(boat)s, day %(day)s") % said)


def settle_note(event: Event, number: int, choice: str, reason: str, by: str) -> SentNote:
    """Let the waiting note ``number`` hold (``choice`` sent) or what stands (``kept``); the row that closes it.

    What it says is put over what stands, and all else that stands stays. Raises Faults with field names.
    """
    why = reason.strip()
    if choice not in ("sent", "kept"):
        raise Faults([faults.NEITHER_HOLDS.at("")])
    if not why:
        raise Faults([faults.NO_REASON_TO_SETTLE.at("reason")])
    if len(why) > MOST_SIGNS:
        raise Faults([faults.REASON_TO_SETTLE_TOO_LONG.at("reason", most=MOST_SIGNS)])
    with writing():
        EVENT.open(event.pk)
        waiting = waiting_notes(event.pk).filter(number=number).first()
        if waiting is None:
            raise Faults([faults.SETTLED_MEANWHILE.at("")])
        of_a_day = {"boat": str(waiting.entry.boat), "day": str(waiting.day)}
        if choice == "sent":
            standing = CareNote.objects.filter(entry=waiting.entry, day=waiting.day).first()
            whole = {**(plain_note(vars(standing)) if standing else {}), **waiting.said}
            write_care_note(event, {**texts_of(whole), **of_a_day}, by)
        draft = Draft({**of_a_day, "reason": why}, replaces=number, void=True)
        return write(Settled(choice == "sent"), event.pk, draft, Sender(by, frozenset({"care"}), asked=True)).kept()


def as_note(sent: SentNote) -> CareNote:
    """What a sent note says, as a care note that is not kept."""
    said = dict(sent.said)
    for name in ("launched", "first_fish"):
        if name in said:
            said[name] = datetime.fromisoformat(said[name])
    return CareNote(event=sent.event, entry=sent.entry, day=sent.day, **said)
