"""The list of prizes to read out and sign, as a document."""

from django.utils import timezone
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.registration.queries.cash_up import cash_up_of
from weighin.reports.sheets.pay_outs import pay_out_sheet
from weighin.reports.writers.pdf.document import PdfDocument
from weighin.ui import figures


def pay_outs_pdf(event: Event) -> bytes:
    """The list, which says so while the result is not official."""
    found = cash_up_of(event)
    printed = timezone.now().astimezone(calendar_of(event).zone)
    document = PdfDocument(
        title=gettext("Pay-outs of %(name)s") % {"name": event.name},
        subject=f"{event.club.name}, {event.water.name}, {figures.day(event.date)}",
        foot=gettext("%(name)s, pay-outs; printed %(printed)s")
        % {"name": event.name, "printed": figures.zoned(printed)},
    )
    document.small(gettext("%(club)s, season %(season)s") % {"club": event.club.name, "season": event.season.name})
    document.heading(gettext("%(name)s: pay-outs") % {"name": event.name}, first=True)
    if found.state != "official":
        document.says(gettext("The result is not official: these are the prizes if it ended now."))
    document.sheet(pay_out_sheet(found))
    if found.unclaimed:
        amount = figures.money(found.unclaimed)
        document.text(gettext("Unclaimed: %(amount)s. It is carried to a later event by hand.") % {"amount": amount})
    document.to_sign(gettext("Paid out for the club:"))
    return document.build()
