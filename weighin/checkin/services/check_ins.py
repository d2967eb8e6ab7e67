"""Lines of the roll through the door: from a tablet, from a person at the table, from a workbook."""

from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

from django.db.models import Q, QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.checkin.domain import faults
from weighin.checkin.domain.fields import FIELDS
from weighin.checkin.domain.lateness import check_lateness
from weighin.checkin.models import CheckIn
from weighin.events.domain.clock import CLOCK_MAY_DIFFER, clock
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.roster.services.boat_records import BoatRecord
from weighin.roster.services.event_scope import EventContext
from weighin.rules.faults import Choices, Fault, FieldName

MAY_CHECK_IN = frozenset({"checkin"})
SAYS_SOMETHING = ("checked_in", "minutes_late", "excused_minutes", "whereabouts", "word")


class CheckInRecord(BoatRecord[CheckIn]):
    """A line of the check-in table's roll. Lines add up: only a further time is a second one."""

    model = CheckIn
    noun = gettext_lazy("check-in")
    fields = FIELDS
    corrects = "checkin"

    def rows(self) -> QuerySet[CheckIn]:
        return CheckIn.objects.select_related("entry", "replaces")

    def check(self, reader: Reader, old: CheckIn | None) -> None:
        if reader.faults:
            return
        check_lateness(reader)
        if all(reader[name] in (None, "") for name in SAYS_SOMETHING):
            named = Choices(tuple(map(FieldName, SAYS_SOMETHING)))
            reader.fault("checked_in", faults.SAYS_NOTHING, boat=reader["boat"], fields=named)

    def check_asked(self, reader: Reader, old: CheckIn | None) -> None:
        """A tablet's line is kept and marked where its clock is doubtful; a person is told and writes it again."""
        _check_clocks(reader)
        _check_in_already(reader, old)

    def is_second(self, row: CheckIn, old: CheckIn | None, context: EventContext, known: Any) -> bool:
        if row.checked_in is None and row.minutes_late is None:
            return False
        gives_time = Q(checked_in__isnull=False) | Q(minutes_late__isnull=False)
        came = CheckIn.objects.current().filter(gives_time, event=context.event, entry=row.entry, day=row.day)
        return bool((came.exclude(pk=old.pk) if old else came).exists())

    def differs(self, row: CheckIn, asked: bool) -> Fault:
        return faults.LINE_KEPT_OTHERWISE.at("", number=row.number) if asked else super().differs(row, asked)

    def history(self, row: CheckIn, old: CheckIn | None, done: str) -> Noted:
        said = {"boat": row.entry.boat, "day": row.day, "reason": row.reason}
        if done == "voided":
            sentence = _("Check-in of boat %(boat)s, day %(day)s voided: %(reason)s") % said
        elif done == "corrected":
            sentence = _("Check-in of boat %(boat)s, day %(day)s corrected: %(reason)s") % said
        elif row.checked_in:
            sentence = _("Checked in: boat %(boat)s, day %(day)s") % said
        else:
            told = row.get_whereabouts_display() or row.word or _("lateness noted")
            sentence = _("Report on boat %(boat)s, day %(day)s: %(told)s") % {**said, "told": told}
        return Noted(f"checkin.{done}", sentence, f"check-in {row.number}")


CHECK_IN = CheckInRecord()


def record_check_in(
    event: Event, said: dict[str, str], by: str, id: UUID, old: CheckIn | None = None, asked: bool = True
) -> CheckIn:
    """Keep a line of the roll, or a correction of ``old``; ``said`` maps its fields to texts. Raises Faults."""
    draft = Draft(said, id, old.number if old else None)
    return write(CHECK_IN, event.pk, draft, Sender(by, MAY_CHECK_IN, asked=asked)).kept()


def void_check_in(line: CheckIn, reason: str, by: str, official: str) -> CheckIn:
    """Take a line out. Raises Faults, also when it was replaced or taken out already."""
    said = {"boat": str(line.entry.boat), "day": str(line.day), "reason": reason, "official": official}
    draft = Draft(said, uuid4(), line.number, void=True)
    return write(CHECK_IN, line.event_id, draft, Sender(by, MAY_CHECK_IN, asked=True)).kept()


def _check_clocks(reader: Reader) -> None:
    now, calendar, day = timezone.now(), reader.context.calendar, reader["day"]
    for name in ("checked_in", "told_at"):
        moment: datetime | None = reader[name]
        if moment is None:
            continue
        shown = clock(moment, calendar, day)
        if moment > now + CLOCK_MAY_DIFFER:
            reader.fault(name, faults.NOT_COME_YET, time=shown, now=clock(now, calendar, day))
        elif name == "checked_in" and moment < calendar.start(day):
            start = clock(calendar.start(day), calendar, day)
            reader.fault(name, faults.BEFORE_THE_START, time=shown, start=start)


def _check_in_already(reader: Reader, old: CheckIn | None) -> None:
    if reader["checked_in"] is None and reader["minutes_late"] is None:
        return
    mine = CheckIn.objects.current().filter(event=reader.context.event, entry__boat=reader["boat"], day=reader["day"])
    others = mine.exclude(pk=old.pk) if old else mine
    came = next((line for line in others.order_by("number") if line.checked_in or line.minutes_late is not None), None)
    if came is None:
        return
    by = came.official or came.recorded_by
    if came.checked_in is None:
        reader.fault("checked_in", faults.IN_ALREADY, boat=reader["boat"], by=by)
    else:
        at = clock(came.checked_in, reader.context.calendar, came.day)
        reader.fault("checked_in", faults.IN_ALREADY_AT, boat=reader["boat"], by=by, time=at)
