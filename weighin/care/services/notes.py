"""Write care notes, each with its history entry."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db.models import F

from weighin.audit.services import note as note_history
from weighin.audit.services import writing
from weighin.care.models import CareNote
from weighin.care.parsing import NOTE_FIELDS, read_note
from weighin.care.queries.care import fingerprint
from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.records.parsing.fields import boat_and_day
from weighin.roster.models import Entry
from weighin.rules.faults import Fault, Faults
from weighin.slips.models import WeighSlip

CHANGED = (
    "somebody else kept this note meanwhile: what it says now stands above, what you wrote stands below; "
    "send yours again to keep it instead"
)


def write_care_note(event: Event, written: Mapping[str, str | None], by: str, seen: str | None = None) -> CareNote:
    """Write a boat's care note of a day, or change the one that is there.

    ``seen`` is the ``fingerprint`` of the note that the writer had before them: when another was kept meanwhile
    nothing is written. None = whatever is there. Raises Faults with field names.
    """
    with writing():
        locked = Event.objects.select_for_update(of=("self",)).select_related("season", "rule_sheet").get(pk=event.pk)
        if locked.closed_at is not None:
            raise Faults(
                [
                    Fault(
                        "",
                        f"{locked.name} is closed: a director must open it again before notes can be written",
                    )
                ]
            )
        table = table_of(locked)
        values = read_note(written, table, slip_times(locked, written))
        entry = Entry.objects.get(event=locked, boat=values["boat"])
        note = CareNote.objects.filter(entry=entry, day=values["day"]).first()
        if seen is not None and seen != fingerprint(note):
            raise Faults([Fault("seen", CHANGED)])
        before = {name: _plain(getattr(note, name)) for name in NOTE_FIELDS} if note else {}
        note = note or CareNote(event=locked, entry=entry, day=values["day"])
        for name in NOTE_FIELDS:
            setattr(note, name, values[name])
        note.save()
        Event.objects.filter(pk=locked.pk).update(revision=F("revision") + 1)
        note_history(
            by,
            "care.changed" if before else "care.written",
            f"Care note {'changed' if before else 'written'} for boat {entry.boat}, day {note.day}",
            club_id=locked.season.club_id,
            event_id=locked.pk,
            subject=f"boat {entry.boat}, day {note.day}",
            details={"before": before, "after": {name: _plain(values[name]) for name in NOTE_FIELDS}},
        )
    return note


def slip_times(event: Event, written: Mapping[str, str | None]) -> dict[str, datetime]:
    """The times of the boat's slip that day, against which a care note's are held."""
    known = boat_and_day(written)
    if known is None:
        return {}
    boat, day = known
    slips = WeighSlip.objects.current().filter(event=event, entry__boat=boat, day=day)
    times = slips.values("checked_in", "weighed", "released").first() or {}
    return {name: moment for name, moment in times.items() if moment}


def _plain(value: Any) -> Any:
    return value.isoformat() if isinstance(value, datetime) else value
