"""The record of an event's scale checks, to print and file."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.reports.views.files import download


@require_safe
@allow(Can.EXPORT)
def scale_checks(request: HttpRequest, event: Event) -> HttpResponse:
    """The record as PDF."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.scale_checks_pdf import scale_checks_pdf

    return download(scale_checks_pdf(event), "application/pdf", f"{event.slug}-scale-checks.pdf")
