"""The record of an event's scale checks as a document."""

from django.utils import timezone
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.reports.sheets.scale_checks import scale_checks_sheet
from weighin.reports.writers.pdf.document import PdfDocument
from weighin.scales.pages import failure_in_words
from weighin.scales.queries import scales_of
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.slips.queries.slips import current_slips
from weighin.ui import figures


def scale_checks_pdf(event: Event) -> bytes:
    """The record with the scales, what failed, and how many slips that marks."""
    zone = calendar_of(event).zone
    printed = timezone.now().astimezone(zone)
    document = PdfDocument(
        title=gettext("Scale checks of %(name)s") % {"name": event.name},
        subject=f"{event.club.name}, {event.water.name}, {figures.day(event.date)}",
        foot=gettext("%(name)s, scale checks; printed %(printed)s")
        % {"name": event.name, "printed": figures.zoned(printed)},
    )
    document.small(gettext("%(club)s, season %(season)s") % {"club": event.club.name, "season": event.season.name})
    document.heading(gettext("%(name)s: scale checks") % {"name": event.name}, first=True)
    slips = current_slips(event)
    doubts = doubts_of(event, slips)
    for failure in doubts.failures:
        document.says(" ".join(failure_in_words(failure, event.weight_unit, zone)))
    if doubts.failures:
        document.says(
            gettext("%(marks)s of %(slips)s slips are marked by it.")
            % {"marks": len(doubts.marks), "slips": len(slips)}
        )
    for scale in scales_of(event):
        made = f", {scale.made_by}" if scale.made_by else ""
        document.text(
            gettext("Scale %(name)s%(made)s: division %(division)s %(unit)s.")
            % {"name": scale.name, "made": made, "division": scale.division, "unit": scale.unit}
        )
    document.sheet(scale_checks_sheet(event))
    document.space(24)
    document.text(gettext("Signed by the director: ______________________________   Date: ________________"))
    return document.build()
