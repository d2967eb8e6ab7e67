"""The record of an event's scale checks, to print and file."""

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy
from django.views.decorators.http import require_safe

from weighin.accounts.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries import calendar_of
from weighin.reports.sheet import Sheet, SheetColumn
from weighin.reports.views import download
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.words import error_in_words
from weighin.scales.pages import failure_in_words
from weighin.scales.queries import checks_of, scales_of
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.slips.queries.slips import current_slips

COLUMNS = (
    SheetColumn(gettext_lazy("Scale"), width=1.2),
    SheetColumn(gettext_lazy("When"), width=1.5),
    SheetColumn(gettext_lazy("Moment"), width=1.5),
    SheetColumn(gettext_lazy("Test weight"), figures=True),
    SheetColumn(gettext_lazy("Shown"), figures=True),
    SheetColumn(gettext_lazy("Finding"), width=3),
    SheetColumn(gettext_lazy("By"), width=1.5),
)


@require_safe
@allow(Can.EXPORT)
def scale_checks(request: HttpRequest, event: Event) -> HttpResponse:
    """The record as PDF."""
    return download(scale_checks_pdf(event), "application/pdf", f"{event.slug}-scale-checks.pdf")


def _basis() -> str:
    return gettext(
        "Judged by NIST Handbook 44, section 2.20, table 6, class III: maintenance tolerance 1 division to 500 "
        "divisions, 2 to 2,000, 3 to 4,000, 5 above; acceptance half. No seal and no certificate: whether a scale may be "
        "used where money hangs on it is the word of the state's weights and measures office."
    )


def scale_checks_sheet(event: Event) -> Sheet:
    """Every check, those that were taken out with the reason."""
    zone = calendar_of(event).zone
    rows = []
    for check in checks_of(event):
        void = getattr(check, "replaced_by", None)
        finding = (
            gettext("taken out: %(reason)s") % {"reason": void.reason}
            if void
            else error_in_words(verdict_of(check), check.unit)
        )
        finding += f"; {check.note}" if check.note else ""
        when = f"{check.at.astimezone(zone):%Y-%m-%d %H:%M}"
        moment = check.get_moment_display().removesuffix(" the weigh-in")
        shown = (f"{check.test_weight} {check.unit}", check.shown)
        rows.append((check.scale.name, when, moment, *shown, finding, check.tested_by))
    return Sheet(gettext("Scale checks"), COLUMNS, rows, after=(_basis(),))


def scale_checks_pdf(event: Event) -> bytes:
    """The record with the scales, what failed, and how many slips that marks."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.pdf.document import PdfDocument

    zone = calendar_of(event).zone
    printed = timezone.now().astimezone(zone)
    document = PdfDocument(
        title=gettext("Scale checks of %(name)s") % {"name": event.name},
        subject=f"{event.club.name}, {event.water.name}, {event.date.isoformat()}",
        foot=gettext("%(name)s, scale checks; printed %(printed)s")
        % {"name": event.name, "printed": f"{printed:%Y-%m-%d %H:%M}"},
    )
    document.small(gettext("%(name)s, season %(name_2)s") % {"name": event.club.name, "name_2": event.season.name})
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
