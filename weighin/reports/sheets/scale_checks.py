"""An event's scale checks as a sheet."""

from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.words import error_in_words
from weighin.scales.queries import checks_of
from weighin.ui import figures

COLUMNS = (
    SheetColumn(gettext_lazy("Scale"), width=1.2),
    SheetColumn(gettext_lazy("When"), width=1.5),
    SheetColumn(gettext_lazy("Moment"), width=1.5),
    SheetColumn(gettext_lazy("Test weight"), figures=True),
    SheetColumn(gettext_lazy("Shown"), figures=True),
    SheetColumn(gettext_lazy("Finding"), width=3),
    SheetColumn(gettext_lazy("By"), width=1.5),
)


def _basis() -> str:
    return gettext(
        "Judged by NIST Handbook 44, section 2.20, table 6, class III: maintenance tolerance 1 division to 500 "
        "divisions, 2 to 2,000, 3 to 4,000, 5 above; acceptance half. No seal and no certificate: whether a scale may be "
        "used where money hangs on it is the word of the state’s weights and measures office."
    )


def scale_checks_sheet(event: Event) -> Sheet:
    """Every check, those that were taken out with the reason."""
    zone = calendar_of(event).zone
    rows = []
    for check in checks_of(event):
        void = getattr(check, "replaced_by", None)
        finding = (
            gettext("voided: %(reason)s") % {"reason": void.reason}
            if void
            else error_in_words(verdict_of(check), check.unit)
        )
        finding += f"; {check.note}" if check.note else ""
        when = figures.moment(check.at, zone)
        moment = check.get_moment_display().removesuffix(" the weigh-in")
        shown = (f"{check.test_weight} {check.unit}", check.shown)
        rows.append((check.scale.name, when, moment, *shown, finding, check.tested_by))
    return Sheet(gettext("Scale checks"), COLUMNS, rows, after=(_basis(),))
