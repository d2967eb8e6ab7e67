"""Settle a care note of a phone that contradicts the one that stands: an official says which holds."""

from datetime import datetime
from uuid import uuid4

from django.db.models import Max

from weighin.audit.database.statements import add
from weighin.audit.services import note as note_history
from weighin.audit.services import writing
from weighin.care.models import CareNote, SentNote
from weighin.care.queries.care import waiting_notes
from weighin.care.services.messages import plain_note, text_of
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.events.services.revision import locked, raise_revision
from weighin.rules.faults import Fault, Faults

GONE = "this note waits no longer: somebody else has settled it meanwhile"
MOST_SIGNS = 300


def settle_note(event: Event, number: int, choice: str, reason: str, by: str) -> SentNote:
    """Let the waiting note ``number`` hold (``choice`` sent) or what stands (``kept``); the row that closes it.

    What it says is put over what stands, and all else that stands stays. Raises Faults with field names.
    """
    why = reason.strip()
    if choice not in ("sent", "kept"):
        raise Faults([Fault("", "say which of the two holds: use one of the two buttons")])
    if not why or len(why) > MOST_SIGNS:
        said = f"write {MOST_SIGNS} characters or fewer" if why else "write why, in a few words: the history keeps it"
        raise Faults([Fault("reason", said)])
    with writing():
        held = locked(event)
        waiting = waiting_notes(held.pk).filter(number=number).first()
        if waiting is None:
            raise Faults([Fault("", GONE)])
        boat = waiting.entry.boat
        if choice == "sent":
            standing = CareNote.objects.filter(entry=waiting.entry, day=waiting.day).first()
            whole = {**(plain_note(vars(standing)) if standing else {}), **waiting.said}
            written = {name: text_of(value) for name, value in whole.items()}
            write_care_note(held, {**written, "boat": str(boat), "day": str(waiting.day)}, by)
        row = _closing(held, waiting, why, by)
        raise_revision(held)
        held_words = "its word holds" if choice == "sent" else "what stood holds"
        note_history(
            by,
            "care.settled",
            f"Care note {number} for boat {boat}, day {waiting.day}, settled: {held_words}: {why}",
            club_id=held.season.club_id,
            event_id=held.pk,
            subject=f"boat {boat}, day {waiting.day}",
            details={"id": str(waiting.pk), "said": waiting.said, "holds": choice},
        )
    return row


def as_note(sent: SentNote) -> CareNote:
    """What a sent note says, as a care note that is not kept."""
    said = dict(sent.said)
    for name in ("launched", "first_fish"):
        if name in said:
            said[name] = datetime.fromisoformat(said[name])
    return CareNote(event=sent.event, entry=sent.entry, day=sent.day, **said)


def _closing(event: Event, waiting: SentNote, why: str, by: str) -> SentNote:
    last = SentNote.objects.filter(event=event).aggregate(most=Max("number"))["most"] or 0
    row = SentNote(
        id=uuid4(),
        event=event,
        entry=waiting.entry,
        number=last + 1,
        day=waiting.day,
        said={},
        stands=False,
        replaces=waiting,
        void=True,
        reason=why,
        recorded_by=by,
    )
    add(row)
    return row
