"""A catch report as a PDF to sign and send."""

from django.utils.translation import gettext

from weighin.agency.pages.layouts import Layout, report_sheet
from weighin.agency.queries.catch import CatchFigures
from weighin.reports.writers.pdf.document import PdfDocument
from weighin.ui.figures import day


def catch_pdf(figures: CatchFigures, layout: Layout) -> bytes:
    """The report in an agency's layout, with lines to sign on."""
    sheet = report_sheet(figures, layout)
    document = PdfDocument(
        title=sheet.title,
        subject=str(layout.name),
        foot=gettext("%(title)s; layout: %(name)s") % {"title": sheet.title, "name": layout.name},
    )
    document.small(figures.club)
    write_catch(document, figures, layout)
    document.to_sign(gettext("The figures above are right to the best of my knowledge."))
    return document.build()


def write_catch(document: PdfDocument, figures: CatchFigures, layout: Layout) -> None:
    """The report with its layout and the day it is due."""
    sheet = report_sheet(figures, layout)
    document.heading(sheet.title, first=True)
    due = layout.due(figures.last_day)
    document.says(
        gettext("Layout: %(name)s.") % {"name": layout.name}
        + (
            " " + gettext("Due within %(due_days)s days, by %(due)s.") % {"due_days": layout.due_days, "due": day(due)}
            if due
            else ""
        )
    )
    document.sheet(sheet)
