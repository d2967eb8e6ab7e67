"""Check-ins as stations send them: read, found by id, compared, and added to the roll."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Max, Q, QuerySet

from weighin.audit.database.statements import add
from weighin.audit.services import note
from weighin.checkin.domain.message import CHECKIN
from weighin.checkin.models import CheckIn
from weighin.checkin.parsing import read_checkin
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision
from weighin.records.parsing.wire import Message
from weighin.records.queries.desk import Desk, moved_on
from weighin.records.services.receiving import Kind, Sender
from weighin.roster.models import Entry
from weighin.rules.faults import Fault, Faults


class CheckInMessages(Kind):
    """Lines of the check-in table's roll."""

    noun = "check-in"
    fields = CHECKIN
    of_a_void = ("id", "day", "boat")
    corrects = "checkin"

    def rows(self) -> QuerySet[CheckIn]:
        return CheckIn.objects.select_related("entry", "replaces")

    def same(self, row: CheckIn, message: Message, desk: Desk) -> bool:
        try:
            said = read_checkin(message.texts, desk.table, whole=False)
        except Faults:
            return False
        kept = {name: row.entry.boat if name == "boat" else getattr(row, name) for name in said}
        return _plain(kept) == _plain(said)

    def read(self, message: Message, desk: Desk, old: CheckIn | None) -> dict[str, Any]:
        said = read_checkin(message.texts, desk.table, whole=not message.faults)
        faults = _correction_faults(said, old) if old is not None else []
        if faults:
            raise Faults(faults)
        return said

    def write(
        self, values: dict[str, Any], id: UUID, desk: Desk, old: CheckIn | None, sender: Sender, look: Any
    ) -> tuple[CheckIn, bool]:
        said = dict(values)
        rows = CheckIn.objects.filter(event=desk.event)
        entry = desk.entries[said.pop("boat")]
        line = CheckIn(
            id=id,
            event=desk.event,
            entry=entry,
            number=(rows.aggregate(most=Max("number"))["most"] or 0) + 1,
            replaces=old,
            sent_at=sender.sent_at,
            recorded_by=sender.name,
            **said,
        )
        gives_time = Q(checked_in__isnull=False) | Q(minutes_late__isnull=False)
        came = rows.filter(gives_time, entry=entry, day=line.day, replaced_by=None, void=False)
        gives = line.checked_in is not None or line.minutes_late is not None
        second = gives and (came.exclude(pk=old.pk) if old else came).exists()
        add(line)
        raise_revision(desk.event)
        _note(desk, line, sender.name)
        moved_on(desk, desk.revision + 1)
        return line, second


def keep_checkins(event: Event, lines: Iterable[Mapping[str, Any]], by: str, entries: Mapping[int, Entry]) -> None:
    """Keep the lines of a new event's roll in the order given; each holds what ``read_checkin`` gives."""
    CheckIn.objects.bulk_create(
        (
            CheckIn(
                event=event,
                entry=entries[line["boat"]],
                number=number,
                recorded_by=by,
                **{name: value for name, value in line.items() if name != "boat"},
            )
            for number, line in enumerate(lines, start=1)
        ),
        batch_size=500,
    )


def _correction_faults(said: Mapping[str, Any], old: CheckIn) -> list[Fault]:
    faults = []
    if not said["reason"].strip():
        faults.append(Fault("reason", "a correction needs a reason: write why, in a few words"))
    if (said["boat"], said["day"]) != (old.entry.boat, old.day):
        message = f"check-in {old.number} is of boat {old.entry.boat}, day {old.day}: correct boat, day or number"
        faults.append(Fault("replaces", message))
    return faults


def _plain(values: Mapping[str, Any]) -> dict[str, Any]:
    return {**values, "excused_minutes": Decimal(values["excused_minutes"] or 0)}


def _note(desk: Desk, line: CheckIn, by: str) -> None:
    boat = f"boat {line.entry.boat}, day {line.day}"
    if line.void:
        act, sentence = "checkin.voided", f"Check-in of {boat} taken out: {line.reason}"
    elif line.replaces_id:
        act, sentence = "checkin.corrected", f"Check-in of {boat} corrected: {line.reason}"
    elif line.checked_in:
        act, sentence = "checkin.recorded", f"Checked in: {boat}"
    else:
        told = line.get_whereabouts_display() or line.word or "lateness noted"
        act, sentence = "checkin.recorded", f"Word of {boat}: {told}"
    note(
        by,
        act,
        sentence,
        club_id=desk.event.season.club_id,
        event_id=desk.event.pk,
        subject=f"check-in {line.number}",
        details={"id": str(line.pk), "whereabouts": line.whereabouts, "word": line.word, "note": line.note},
    )
