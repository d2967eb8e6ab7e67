"""A catch report as CSV, XLSX or PDF."""

from dataclasses import replace

from django.utils.translation import gettext

from weighin.agency.pages.layouts import Layout, report_sheet
from weighin.agency.queries.catch import CatchFigures
from weighin.reports.domain.sheet import Sheet
from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.xlsx_file import write_xlsx
from weighin.ui.figures import FILED, written_as

FORMS = ("csv", "xlsx", "pdf")


def catch_file(figures: CatchFigures, layout: Layout, form: str) -> bytes:
    """The report as ``csv``, ``xlsx`` or ``pdf``. Raises KeyError for another form."""
    return {"csv": _csv, "xlsx": _xlsx, "pdf": _pdf}[form](figures, layout)


def _csv(figures: CatchFigures, layout: Layout) -> bytes:
    """The notes stand below the figures as rows: a CSV file has no other place for them."""
    sheet = _filed(figures, layout)
    return write_csv(replace(sheet, rows=[*sheet.rows, *((gettext("Note"), words) for words in sheet.after)]))


def _xlsx(figures: CatchFigures, layout: Layout) -> bytes:
    return write_xlsx([_filed(figures, layout)])


def _filed(figures: CatchFigures, layout: Layout) -> Sheet:
    with written_as(FILED):
        return report_sheet(figures, layout)


def _pdf(figures: CatchFigures, layout: Layout) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.agency.writers.catch_pdf import catch_pdf

    return catch_pdf(figures, layout)
