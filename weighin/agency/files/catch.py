"""A catch report as CSV, XLSX or PDF."""

from dataclasses import replace

from django.utils.translation import gettext

from weighin.agency.pages.layouts import Layout, report_sheet
from weighin.agency.queries.catch import CatchFigures
from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.xlsx_file import write_xlsx

FORMS = ("csv", "xlsx", "pdf")


def catch_file(figures: CatchFigures, layout: Layout, form: str) -> bytes:
    """The report as ``csv``, ``xlsx`` or ``pdf``. Raises KeyError for another form."""
    return {"csv": _csv, "xlsx": _xlsx, "pdf": _pdf}[form](figures, layout)


def _csv(figures: CatchFigures, layout: Layout) -> bytes:
    """The notes stand below the figures as rows: a CSV file has no other place for them."""
    sheet = report_sheet(figures, layout)
    return write_csv(replace(sheet, rows=[*sheet.rows, *((gettext("Note"), words) for words in sheet.after)]))


def _xlsx(figures: CatchFigures, layout: Layout) -> bytes:
    return write_xlsx([report_sheet(figures, layout)])


def _pdf(figures: CatchFigures, layout: Layout) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.document import PdfDocument

    sheet = report_sheet(figures, layout)
    document = PdfDocument(
        title=sheet.title,
        subject=str(layout.name),
        foot=gettext("%(title)s; layout: %(name)s") % {"title": sheet.title, "name": layout.name},
    )
    document.small(figures.club)
    document.heading(sheet.title, first=True)
    due = layout.due(figures.last_day)
    document.says(
        gettext("Layout: %(name)s.") % {"name": layout.name}
        + (
            " " + gettext("Due within %(due_days)s days, by %(due)s.") % {"due_days": layout.due_days, "due": due}
            if due
            else ""
        )
    )
    document.sheet(sheet)
    document.to_sign(gettext("The figures above are right to the best of my knowledge."))
    return document.build()
