"""Where pens, checks and finished rows are written."""

from weighin.events.pages import Desk, of_event
from weighin.events.queries.care_context import care_context_of
from weighin.holding.forms import CheckForm, PenForm, RecordForm
from weighin.holding.models import PenCheck, StudyPen
from weighin.holding.parsing import (
    read_check,
    read_record,
    read_study_pen,
)
from weighin.holding.services.books import CHECKS, PENS, RECORDS

BACK = "holding:holding"

RECORD_DESK = Desk(RECORDS, RecordForm, of_event(read_record), "holding/record.html", BACK)


def pen_desk(pen: StudyPen | None = None) -> Desk:
    """Where a new pen, or a change of ``pen``, is written."""
    return Desk(
        PENS,
        PenForm,
        lambda event, written: read_study_pen(written, care_context_of(event), pen),
        "holding/pen_form.html",
        BACK,
    )


def check_desk(pen: StudyPen, check: PenCheck | None = None) -> Desk:
    """Where a new look into ``pen``, or a change of one, is written."""
    return Desk(
        CHECKS,
        CheckForm,
        lambda event, written: read_check(written, care_context_of(event), pen, check),
        "holding/check.html",
        BACK,
    )
