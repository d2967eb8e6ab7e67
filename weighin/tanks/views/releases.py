"""Write releases, walks for floaters and fish that did not go back; and the season's places of release."""

import uuid

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.views.rows import edit_row, new_row
from weighin.tanks.forms.releases import KeptForm, ReleaseForm, WalkForm
from weighin.tanks.pages.release_words import sites_said
from weighin.tanks.queries.releases import place_names, season_sites
from weighin.tanks.tables.releases import SitesTable

PER_PAGE = 50
ACTS = ("GET", "HEAD", "POST")


@require_safe
@allow(Can.VIEW_EVENT)
def crappie(request: HttpRequest, event: Event) -> HttpResponse:
    """Which crappie it is: spines and pattern."""
    return render(request, "tanks/crappie.html", {"event": event})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def release_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a batch or boat trip."""
    return new_row(request, event, ReleaseForm, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def release(request: HttpRequest, event: Event, release_pk: uuid.UUID) -> HttpResponse:
    """Change a release or take it out."""
    return edit_row(request, event, ReleaseForm, release_pk, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def walk_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a walk for floaters; it may come days after the event was closed."""
    return new_row(request, event, WalkForm, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def walk(request: HttpRequest, event: Event, walk_pk: uuid.UUID) -> HttpResponse:
    """Change a walk or take it out."""
    return edit_row(request, event, WalkForm, walk_pk, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def kept_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write what became of fish that did not go back."""
    return new_row(request, event, KeptForm)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def kept_fish(request: HttpRequest, event: Event, kept_pk: uuid.UUID) -> HttpResponse:
    """Change what became of fish, or take it out."""
    return edit_row(request, event, KeptForm, kept_pk)


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def release_sites(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """How a season's fish were spread over places of release."""
    season = club.seasons.filter(slug=season_slug).first()
    if season is None:
        raise Http404(gettext("%(name)s has no such season.") % {"name": club.name})
    found = season_sites(season)
    table = SitesTable(found, of_event=False)
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    context = {"club": club, "season": season, "said": sites_said(found), "sites": found, "table": table}
    return render(request, "tanks/sites.html", context)
