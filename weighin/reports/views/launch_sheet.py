"""The launch sheet as a file, for members."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.registration.pages.draws import LaunchSheet
from weighin.registration.pages.draws import launch_sheet as sheet_of
from weighin.reports.views.files import download


@require_safe
@allow(Can.VIEW_EVENT)
def launch_sheet(request: HttpRequest, event: Event) -> HttpResponse:
    """The launch order and every draw as PDF."""
    return launch_file(event, sheet_of(event))


def launch_file(event: Event, sheet: LaunchSheet | None, crowd: bool = False) -> HttpResponse:
    """The PDF of a launch sheet, or of the sentence that it is not shown."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.launch_pdf import launch_pdf

    return download(launch_pdf(event, sheet, crowd), "application/pdf", f"{event.slug}-launch-sheet.pdf")
