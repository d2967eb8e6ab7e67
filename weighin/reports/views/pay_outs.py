"""The list of prizes, to print."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.reports.views.files import download


@require_safe
@allow(Can.TAKE_MONEY)
def pay_out_list(request: HttpRequest, event: Event) -> HttpResponse:
    """The list as PDF."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.pay_outs_pdf import pay_outs_pdf

    return download(pay_outs_pdf(event), "application/pdf", f"{event.slug}-pay-outs.pdf")
