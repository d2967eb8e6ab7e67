"""The launch sheet as a document: the launch order, and each draw with its seed, its recipe and the recipe worked out."""

from django.utils import timezone
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.registration.pages.draws import LaunchSheet
from weighin.reports.sheets.draws import draw_sheet, launch_order_sheet
from weighin.reports.writers.pdf.document import PdfDocument
from weighin.ui import figures


def launch_pdf(event: Event, sheet: LaunchSheet | None, crowd: bool = False) -> bytes:
    """The document; without a sheet it says that the draws are not shown. For the ``crowd`` nobody's name stands in it."""
    zone = calendar_of(event).zone
    printed = timezone.now().astimezone(zone)
    document = PdfDocument(
        title=gettext("Launch sheet of %(name)s") % {"name": event.name},
        subject=f"{event.club.name}, {event.water.name}, {figures.day(event.date)}",
        foot=gettext("%(name)s, launch sheet; printed %(printed)s")
        % {"name": event.name, "printed": figures.zoned(printed)},
    )
    document.small(gettext("%(club)s, season %(season)s") % {"club": event.club.name, "season": event.season.name})
    document.heading(gettext("%(name)s: launch sheet") % {"name": event.name}, first=True)
    if sheet is None:
        document.says(gettext("The draws of this event are not shown."))
        return document.build()
    if not sheet.drawn:
        document.says(gettext("No launch order is drawn: these are the entered teams by boat number."))
    document.sheet(launch_order_sheet(sheet))
    for shown in sheet.draws:
        document.heading(str(shown.draw.get_purpose_display()))
        if shown.draw.seed:
            document.says(gettext("Seed: %(seed)s") % {"seed": shown.draw.seed})
        at = shown.draw.received_at.astimezone(zone)
        told = gettext("Draw %(number)s, %(at)s.") if crowd else gettext("Draw %(number)s, %(at)s, by %(by)s.")
        said = {"number": shown.draw.number, "at": figures.moment(at), "by": shown.draw.recorded_by}
        document.text(told % said)
        document.text(gettext("How anyone can check it: %(recipe)s") % {"recipe": shown.recipe})
        document.sheet(draw_sheet(shown))
    return document.build()
