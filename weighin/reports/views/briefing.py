"""The briefing as a file, for members."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.planning.views.briefing import briefing_asked
from weighin.reports.views.files import download


@require_safe
@allow(Can.VIEW_EVENT)
def briefing(request: HttpRequest, event: Event) -> HttpResponse:
    """The briefing of a day as PDF, with the permit."""
    return briefing_file(request, event, event.permit)


def briefing_file(request: HttpRequest, event: Event, permit: str = "") -> HttpResponse:
    """The PDF of the day in ``?day=``. Raises Http404 when there is no such day to brief for."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.briefing_pdf import briefing_pdf

    asked = briefing_asked(request, event)
    name = f"{event.slug}-briefing-{asked.day.number}.pdf"
    return download(briefing_pdf(asked, permit), "application/pdf", name)
