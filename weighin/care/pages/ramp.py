"""What a phone at the ramp needs to work alone: the boats that fish, their care notes, and what these came from."""

from typing import Any

from weighin.care.models import SentNote
from weighin.care.queries.care import care_part, care_rows, fishing, waiting_notes
from weighin.care.services.notes import CARE_NOTE
from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.records.domain.messages import Sender
from weighin.stations.queries.document import event_document


def ramp_document(event: Event, sender: Sender) -> dict[str, Any]:
    """In plain JSON values: the event, and of its boats ``fishing`` by day, ``notes``, ``sent``, ``waiting``, ``care``.

    ``notes`` stand; ``sent`` are the messages they came from, as far as none replaces them: a change of what one of
    them says is a correction that names it. ``waiting`` are the ids of those that contradict a note. ``care`` is what the project's export contract says of fish care.
    """
    calendar = calendar_of(event)
    entries = list(event.entries.all())
    table = table_of(event, entries)
    rows = care_rows(event, table)
    sent = SentNote.objects.filter(event=event, stands=True, replaced_by=None).select_related("entry")
    return {
        **event_document(event, sender, calendar),
        "fishing": [
            {"day": day, "boats": [entry.boat for entry in boats]}
            for day, boats in fishing(event, entries, table).items()
        ],
        "notes": [CARE_NOTE.values_as_sent(row.note, table) for row in rows if row.note is not None],
        "sent": [
            {"id": str(row.pk), "number": row.number, "day": row.day, "boat": row.entry.boat, "said": row.said}
            for row in sent
        ],
        "waiting": [str(key) for key in waiting_notes(event.pk).values_list("pk", flat=True)],
        "care": care_part(rows),
    }
