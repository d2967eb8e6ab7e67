"""Pens under way, looks into them and finished rows, through the door: from a page, from a workbook."""

from django.db.models import QuerySet
from django.utils.translation import gettext_lazy

from weighin.holding.domain import faults, fields
from weighin.holding.models import HoldingPen, PenCheck, StudyPen
from weighin.records.parsing.reader import Reader
from weighin.roster.services.event_rows import EventRow
from weighin.rules.faults import Faults


class PenRecord(EventRow[StudyPen]):
    """Fish put into a pen."""

    model = StudyPen
    noun = gettext_lazy("holding pen")
    act = "study_pen"
    fields = fields.PEN
    after_closing = True

    def check(self, reader: Reader, old: StudyPen | None) -> None:
        same = StudyPen.objects.filter(
            event=reader.context.event_id, group__iexact=reader["group"], pen__iexact=reader["pen"]
        )
        if old is not None:
            _require_open(old)
            _check_looks(reader, old)
            same = same.exclude(pk=old.pk)
        if same.exists():
            reader.fault("pen", faults.PEN_TAKEN, pen=reader["pen"])


class CheckRecord(EventRow[PenCheck]):
    """A look into a pen: what was found since the look before."""

    model = PenCheck
    noun = gettext_lazy("pen check")
    act = "pen_check"
    fields = fields.CHECK
    holder = "pen__event"
    after_closing = True

    def rows(self) -> QuerySet[PenCheck]:
        return PenCheck.objects.select_related("pen__event")

    def check(self, reader: Reader, old: PenCheck | None) -> None:
        pen: StudyPen | None = reader["pen"]
        if pen is None:
            return
        _require_open(pen)
        if reader["at"] and reader["at"] < pen.started:
            reader.fault("at_time", faults.LOOK_BEFORE_START, "at_date")
        others = pen.checks.exclude(pk=old.pk) if old else pen.checks.all()
        left = pen.held - sum(other.dead + other.missing + other.escaped for other in others)
        here = sum(reader[name] or 0 for name in ("dead", "missing", "escaped"))
        if here > left:
            reader.fault("dead", faults.MORE_THAN_IN_PEN, "missing", here=here, left=left)


class FinishedRecord(EventRow[HoldingPen]):
    """A finished pen as a whole, as from a paper sheet."""

    model = HoldingPen
    noun = gettext_lazy("finished pen")
    act = "holding"
    fields = fields.FINISHED
    key = "sent_id"
    after_closing = True

    def check(self, reader: Reader, old: HoldingPen | None) -> None:
        if reader.sure("held", "dead", "missing") and reader["dead"] + reader["missing"] > reader["held"]:
            larger, other = ("dead", "missing") if reader["dead"] >= reader["missing"] else ("missing", "dead")
            said = {name: reader[name] for name in ("dead", "missing", "held")}
            reader.fault(larger, faults.MORE_GONE_THAN_HELD, other, "held", **said)
        if reader.asked and reader["hours"] and float(reader["hours"]) == 0:
            reader.fault("hours", faults.HELD_NO_TIME)


STUDY_PEN = PenRecord()
PEN_CHECK = CheckRecord()
FINISHED_PEN = FinishedRecord()


def _require_open(pen: StudyPen) -> None:
    if pen.record_id:
        raise Faults([faults.PEN_IS_ENDED.at("")])


def _check_looks(reader: Reader, pen: StudyPen) -> None:
    """What the looks into a pen say already."""
    looks = list(pen.checks.all())
    gone = sum(look.dead + look.missing + look.escaped for look in looks)
    if reader["held"] and gone > reader["held"]:
        reader.fault("held", faults.FEWER_HELD_THAN_GONE, gone=gone)
    if reader["started"] and looks and reader["started"] > min(look.at for look in looks):
        reader.fault("started_time", faults.LOOK_BEFORE_PEN, "started_date")
