"""Where fish went: releases, walks for floaters, fish that did not go back, and the season's places of release."""

import uuid

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.roles import Can
from weighin.clubs.access import allow_in_club, can_in
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event, Handling
from weighin.fishcare.desk import edit_row, new_row
from weighin.fishcare.planner.species import fish_of
from weighin.fishcare.queries import deep_boats
from weighin.fishcare.releases.books import KEPT_DESK, RELEASE_DESK, WALK_DESK
from weighin.fishcare.releases.queries import place_names, releases_of, season_sites
from weighin.fishcare.releases.tables import KeptTable, ReleasesTable, SitesTable, WalksTable
from weighin.fishcare.releases.words import against_slips, headline, sites_said
from weighin.fishcare.scene import scene_of

PER_PAGE = 50
ACTS = ("GET", "HEAD", "POST")


@require_safe
@allow(Can.VIEW_EVENT)
def releases(request: HttpRequest, event: Event) -> HttpResponse:
    """What became of the fish after the table, and how it stands to the slips."""
    scene, found = scene_of(event), releases_of(event)
    may_record = can_in(request.user, event.club, Can.RECORD_CARE)
    may_write = may_record and not event.closed_at
    tables = {
        "table": ReleasesTable(found.releases, scene, may_write),
        "walks": WalksTable(found.walks, scene, may_record),
        "kept": KeptTable(found.kept, scene, may_write),
    }
    for table in tables.values():
        RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    context = {
        "event": event,
        "scene": scene,
        "rules": scene.rules,
        "found": found,
        "headline": headline(found),
        "deep": deep_boats(event, scene.rules),
        "fish": fish_of(scene.rules.species),
        "against": against_slips(found),
        "sites": SitesTable(found.sites, of_event=True, orderable=False),
        "places": sites_said(found.sites) if found.releases else "",
        "harvest": event.handling == Handling.HARVEST,
        "may_write": may_write,
        "may_record": may_record,
        **tables,
    }
    return render(request, "fishcare/releases/releases.html", context)


@require_safe
@allow(Can.VIEW_EVENT)
def crappie(request: HttpRequest, event: Event) -> HttpResponse:
    """Which crappie it is: spines and pattern."""
    return render(request, "fishcare/releases/crappie.html", {"event": event})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def release_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a batch or boat trip."""
    return new_row(request, event, RELEASE_DESK, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def release(request: HttpRequest, event: Event, release_pk: uuid.UUID) -> HttpResponse:
    """Change a release or take it out."""
    return edit_row(request, event, RELEASE_DESK, release_pk, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def walk_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a walk for floaters; it may come days after the event was closed."""
    return new_row(request, event, WALK_DESK, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def walk(request: HttpRequest, event: Event, walk_pk: uuid.UUID) -> HttpResponse:
    """Change a walk or take it out."""
    return edit_row(request, event, WALK_DESK, walk_pk, context={"places": place_names(event)})


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def kept_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write what became of fish that did not go back."""
    return new_row(request, event, KEPT_DESK)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def kept_fish(request: HttpRequest, event: Event, kept_pk: uuid.UUID) -> HttpResponse:
    """Change what became of fish, or take it out."""
    return edit_row(request, event, KEPT_DESK, kept_pk)


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def release_sites(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """How a season's fish were spread over places of release."""
    season = club.seasons.filter(slug=season_slug).first()
    if season is None:
        raise Http404(f"{club.name} has no such season.")
    found = season_sites(season)
    table = SitesTable(found, of_event=False)
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    context = {"club": club, "season": season, "said": sites_said(found), "sites": found, "table": table}
    return render(request, "fishcare/releases/sites.html", context)
