"""Files to take away."""

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.reports.files.event import TYPES
from weighin.reports.files.event import event_file as write_event_file
from weighin.reports.files.season import season_file as write_season_file
from weighin.ui.codes import opens_only_here


@require_safe
@allow(Can.EXPORT)
def event_file(request: HttpRequest, event: Event, form: str) -> HttpResponse:
    """The event as JSON, CSV, XLSX or PDF."""
    if form not in TYPES:
        raise Http404(gettext("There is no such file: choose json, csv, xlsx or pdf."))
    host = request.get_host()
    # A code that opens on this machine alone is none on paper
    site = "" if opens_only_here(host) else f"{request.scheme}://{host}"
    return download(write_event_file(event, form, site), TYPES[form], f"{event.slug}.{form}")


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def season_file(request: HttpRequest, club: Club, season_slug: str, form: str) -> HttpResponse:
    """The season's summary as JSON, XLSX or PDF."""
    season = club.seasons.filter(slug=season_slug).first()
    if season is None or form not in ("json", "xlsx", "pdf"):
        raise Http404(gettext("There is no such file: choose json, xlsx or pdf."))
    content, content_type = write_season_file(season, form)
    return download(content, content_type, f"{club.slug}-{season.slug}-summary.{form}")


def download(content: bytes, content_type: str, name: str) -> HttpResponse:
    """A file to keep; PDFs open in the reader's own window."""
    how = "inline" if name.endswith(".pdf") else "attachment"
    return HttpResponse(
        content, content_type=content_type, headers={"Content-Disposition": f'{how}; filename="{name}"'}
    )
