"""A catch report as CSV or PDF."""

from weighin.reports.catch.figures import CatchFigures
from weighin.reports.catch.layouts import Layout, report_sheet
from weighin.reports.csv_file import write_csv

FORMS = ("csv", "pdf")


def catch_file(figures: CatchFigures, layout: Layout, form: str) -> bytes:
    """The report as ``csv`` or ``pdf``. Raises KeyError for another form."""
    return {"csv": _csv, "pdf": _pdf}[form](figures, layout)


def _csv(figures: CatchFigures, layout: Layout) -> bytes:
    return write_csv(report_sheet(figures, layout))


def _pdf(figures: CatchFigures, layout: Layout) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.pdf.document import PdfDocument

    sheet = report_sheet(figures, layout)
    document = PdfDocument(title=sheet.title, subject=layout.name, foot=f"{sheet.title}; layout: {layout.name}")
    document.small(figures.club)
    document.heading(sheet.title, first=True)
    document.says(f"Layout: {layout.name}.")
    document.sheet(sheet)
    return document.build()
