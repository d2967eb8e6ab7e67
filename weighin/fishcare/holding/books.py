"""How pens, checks and finished rows are kept and named in the history."""

from weighin.fishcare.desk import Desk, of_event
from weighin.fishcare.holding.forms import CheckForm, PenForm, RecordForm
from weighin.fishcare.holding.reading import (
    CHECK_FIELDS,
    RECORD_FIELDS,
    STUDY_PEN_FIELDS,
    read_check,
    read_record,
    read_study_pen,
)
from weighin.fishcare.keeping import Book
from weighin.fishcare.models import HoldingPen, PenCheck, StudyPen
from weighin.fishcare.scene import scene_of

BACK = "fishcare:holding"
PENS = Book(StudyPen, "study_pen", "Holding pen", STUDY_PEN_FIELDS, after_closing=True)
CHECKS = Book(PenCheck, "pen_check", "Pen check", CHECK_FIELDS, after_closing=True, event="pen__event")
RECORDS = Book(HoldingPen, "holding", "Finished pen", RECORD_FIELDS, after_closing=True, key="sent_id")

RECORD_DESK = Desk(RECORDS, RecordForm, of_event(read_record), "fishcare/holding/record.html", BACK)


def pen_desk(pen: StudyPen | None = None) -> Desk:
    """Where a new pen, or a change of ``pen``, is written."""
    return Desk(
        PENS,
        PenForm,
        lambda event, written: read_study_pen(written, scene_of(event), pen),
        "fishcare/holding/pen_form.html",
        BACK,
    )


def check_desk(pen: StudyPen, check: PenCheck | None = None) -> Desk:
    """Where a new look into ``pen``, or a change of one, is written."""
    return Desk(
        CHECKS,
        CheckForm,
        lambda event, written: read_check(written, scene_of(event), pen, check),
        "fishcare/holding/check.html",
        BACK,
    )
