"""The permit checklist of an event: begun, changed line by line, ticked off, copied to the next event undone."""

from collections.abc import Mapping
from datetime import date

from django.utils.translation import gettext, gettext_lazy

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.roster.services.event_rows import EventRow
from weighin.schedule.domain import faults
from weighin.schedule.domain.checklist import STARTING
from weighin.schedule.domain.fields import PERMIT_LINE
from weighin.schedule.models import PermitLine

UNDONE = {"done_on": "", "done_by": ""}


class PermitLineRecord(EventRow[PermitLine]):
    """A line of the permit checklist; done is a date and a person."""

    model = PermitLine
    noun = gettext_lazy("line of the permit checklist")
    act = "permit_line"
    fields = PERMIT_LINE
    key = ""
    says_why = False

    def check(self, reader: Reader, old: PermitLine | None) -> None:
        if reader["done_on"] and not reader["done_by"]:
            reader.fault("done_by", faults.DONE_WITHOUT_WHOM)
        if reader["done_by"] and not reader["done_on"]:
            reader.fault("done_on", faults.DONE_WITHOUT_DATE)


PERMIT_LINE_RECORD = PermitLineRecord()


def keep_line(event: Event, said: Mapping[str, str], by: str, old: PermitLine | None = None) -> PermitLine:
    """Add a line, or change ``old``. Raises Faults with field names."""
    texts = {name: text for name, text in said.items() if text}
    return write(PERMIT_LINE_RECORD, event.pk, Draft(texts, replaces=old and old.pk), Sender(by, asked=True)).kept()


def remove_line(line: PermitLine, by: str) -> None:
    """Take a line out. Raises Faults."""
    write(PERMIT_LINE_RECORD, line.event_id, Draft({}, replaces=line.pk, void=True), Sender(by, asked=True)).kept()


def tick(line: PermitLine, on: date | None, by: str) -> None:
    """Mark a line as done on a date by whoever says so; None opens it again. Raises Faults."""
    done = UNDONE if on is None else {"done_on": on.isoformat(), "done_by": by}
    keep_line(line.event, PERMIT_LINE_RECORD.texts(line) | done, by, line)


def begin_checklist(event: Event, by: str) -> None:
    """Begin an empty checklist with what most events need; nothing where lines are there already. Raises Faults."""
    with writing():
        if PermitLine.objects.filter(event=event).exists():
            return
        for line in STARTING:
            note = gettext(line.note) if line.note else ""
            keep_line(event, {"what": gettext(line.what), "days_before": str(line.days_before), "note": note}, by)


def copy_checklist(source: Event, to: Event, by: str) -> None:
    """Copy every line of an event to another one, undone. Raises Faults."""
    for line in PermitLine.objects.filter(event=source).order_by("pk"):
        keep_line(to, PERMIT_LINE_RECORD.texts(line) | UNDONE, by)
