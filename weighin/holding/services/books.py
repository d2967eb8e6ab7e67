"""How pens, checks and finished rows are kept and named in the history."""

from weighin.events.services.rows import Book
from weighin.holding.models import HoldingPen, PenCheck, StudyPen
from weighin.holding.parsing import CHECK_FIELDS, RECORD_FIELDS, STUDY_PEN_FIELDS

PENS = Book(StudyPen, "study_pen", "Holding pen", STUDY_PEN_FIELDS, after_closing=True)
CHECKS = Book(PenCheck, "pen_check", "Pen check", CHECK_FIELDS, after_closing=True, event="pen__event")
RECORDS = Book(HoldingPen, "holding", "Finished pen", RECORD_FIELDS, after_closing=True, key="sent_id")
