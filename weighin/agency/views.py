"""What agencies ask for: the catch report of an event and of a season, and their fish as open data."""

from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.agency.files.catch import FORMS as CATCH_FORMS
from weighin.agency.files.catch import catch_file
from weighin.agency.files.open_data import TYPE as OPEN_DATA_TYPE
from weighin.agency.files.open_data import season_open_data as write_open_data
from weighin.agency.forms import ForAgencyForm
from weighin.agency.pages.asked import Asked, asked_for
from weighin.agency.pages.layouts import LAYOUTS, notes, report_lines
from weighin.agency.queries.catch import CatchFigures
from weighin.agency.queries.catch import event_catch as event_figures
from weighin.agency.queries.catch import season_catch as season_figures
from weighin.agency.services.for_agency import write_for_agency, written_for_agency
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.reports.files.event import TYPES
from weighin.reports.views.files import download


@require_safe
@allow(Can.EXPORT)
def event_open_data(request: HttpRequest, event: Event) -> HttpResponse:
    """The event's fish as open data, without anybody's name."""
    return download(write_open_data(event.season, event.pk), OPEN_DATA_TYPE, f"{event.slug}-open-data.zip")


@require_safe
@allow_in_club(Can.EXPORT)
def season_open_data(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """The season's fish as open data, without anybody's name."""
    season = club.seasons.filter(slug=season_slug).first()
    if season is None:
        raise Http404(gettext("There is no such season."))
    return download(write_open_data(season), OPEN_DATA_TYPE, f"{club.slug}-{season.slug}-open-data.zip")


@require_safe
@allow(Can.EXPORT)
def event_catch(request: HttpRequest, event: Event, form: str = "") -> HttpResponse:
    """The event's catch report in an agency's layout, as a page or a file."""
    asked = asked_for(request.GET)
    figures = event_figures(event, asked.large) if event.slips.exists() else None
    if form:
        return _catch_file(figures, asked, form, event.slug)
    files = {kind: reverse("agency:event_catch_file", args=[event.slug, kind]) for kind in CATCH_FORMS}
    return render(request, "agency/catch_report.html", {"event": event, **_catch_context(figures, asked, files)})


@allow(Can.MANAGE_EVENT)
@require_http_methods(["GET", "HEAD", "POST"])
def catch_details(request: HttpRequest, event: Event) -> HttpResponse:
    """What the agency asks for beside the slips."""
    form = ForAgencyForm(request.POST or None, initial=written_for_agency(event))
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: write_for_agency(event, data, by)):
        messages.info(request, gettext("The report’s details are saved."))
        return redirect("agency:event_catch", event.slug)
    return render(request, "agency/catch_details.html", {"event": event, "form": form})


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def season_catch(request: HttpRequest, club: Club, season_slug: str, form: str = "") -> HttpResponse:
    """A season's catch report in an agency's layout, as a page or a file."""
    season = club.seasons.filter(slug=season_slug).first()
    if season is None:
        raise Http404(gettext("There is no such season."))
    asked = asked_for(request.GET)
    figures = season_figures(season, asked.large)
    if form:
        return _catch_file(figures, asked, form, f"{club.slug}-{season.slug}")
    files = {kind: reverse("agency:season_catch_file", args=[club.slug, season.slug, kind]) for kind in CATCH_FORMS}
    context = {"club": club, "season": season, **_catch_context(figures, asked, files)}
    return render(request, "agency/catch_report.html", context)


def _catch_file(figures: CatchFigures | None, asked: Asked, form: str, name: str) -> HttpResponse:
    if figures is None or form not in CATCH_FORMS:
        raise Http404(gettext("There is no such file: the report needs a slip, and comes as csv, xlsx or pdf."))
    return download(catch_file(figures, asked.layout, form), TYPES[form], f"{name}-catch-report.{form}")


def _catch_context(figures: CatchFigures | None, asked: Asked, files: dict[str, str]) -> dict[str, Any]:
    words = f"?{urlencode({'layout': asked.layout.key, 'large': asked.written})}"
    return {
        "figures": figures,
        "asked": asked,
        "layouts": LAYOUTS,
        "lines": report_lines(figures, asked.layout) if figures else [],
        "notes": notes(figures) if figures else (),
        "due": asked.layout.due(figures.last_day) if figures else None,
        "files": {kind: address + words for kind, address in files.items()},
    }
