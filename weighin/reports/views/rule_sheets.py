"""Rule sheets in words to hand out, for members."""

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.club_sheets import read_version, titled
from weighin.events.queries.events import rules_said
from weighin.events.views.sheets import version_asked
from weighin.reports.views.files import download
from weighin.rules.rulebook import Rulebook
from weighin.ui import figures


@require_safe
@allow(Can.VIEW_EVENT)
def rules_pdf(request: HttpRequest, event: Event) -> HttpResponse:
    """The event's rules on one page."""
    of = {
        "event": event.name,
        "water": event.water.name,
        "date": figures.day(event.date),
        "club": event.club,
    }
    about = gettext("%(event)s. %(water)s, %(date)s. %(club)s.") % of
    return _hand_out(
        rules_said(event), gettext("Rules of %(event)s") % of, about, f"{event.slug}-rules.pdf", event.permit
    )


@require_safe
@allow_in_club(Can.VIEW_EVENT)
def sheet_pdf(request: HttpRequest, club: Club, sheet_slug: str) -> HttpResponse:
    """A club's sheet on one page; ``?version=`` prints an earlier version."""
    version = version_asked(request, club, sheet_slug)
    of = {"sheet": titled(version), "date": figures.day(version.kept_at), "club": club}
    about = gettext("%(sheet)s, saved %(date)s. %(club)s.") % of
    name = f"{club.slug}-{version.sheet.slug}-{version.number}.pdf"
    return _hand_out(read_version(version), gettext("Rules: %(sheet)s") % of, about, name)


def _hand_out(rules: Rulebook, title: str, about: str, name: str, permit: str = "") -> HttpResponse:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.rule_sheet_pdf import rule_sheet_pdf

    return download(rule_sheet_pdf(rules, title, about, permit), "application/pdf", name)
