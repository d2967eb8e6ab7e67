"""A club's pages for everybody, its calendar and its results as feeds; members keep their own page at the club's address."""

import json
from collections.abc import Callable
from functools import partial
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.clubs.access import role_in
from weighin.clubs.domain.clock import shown_by
from weighin.clubs.models import Club
from weighin.clubs.queries import clock_of
from weighin.events.views.events import club as members_page
from weighin.public.access import MINUTE, QUARTER, shown
from weighin.public.pages.club_site import club_context, season_context
from weighin.public.pages.feed import club_feed
from weighin.public.pages.structured import data_block
from weighin.public.queries.club_site import (
    club_calendar,
    club_seasons,
    latest_season,
    public_season,
    published_results,
)
from weighin.schedule.pages.calendar import about
from weighin.schedule.pages.calendar import feed as calendar_feed
from weighin.schedule.queries.calendar import open_club_of, public_calendar
from weighin.standings.queries.shown import state_of_club

Page = Callable[[HttpRequest, Club], HttpResponse]


@require_safe
def club(request: HttpRequest, club_slug: str) -> HttpResponse:
    """Members see their club's events as before, everybody else what the club has opened; nothing where it has not."""
    found = open_club_of(club_slug)
    if found is None or role_in(request.user, found) is not None:
        return members_page(request, club_slug=club_slug)
    return _shown(request, found, _club, MINUTE, request.build_absolute_uri("/"))


@require_safe
def calendar(request: HttpRequest, club_slug: str) -> HttpResponse:
    """The calendar of an open club; of any other there is none."""
    found = open_club_of(club_slug)
    if found is None:
        return _nothing()
    return _shown(request, found, _calendar, QUARTER)


@require_safe
def season(request: HttpRequest, club_slug: str, season_slug: str) -> HttpResponse:
    """A season of an open club; of any other, members are led to theirs."""
    found = open_club_of(club_slug)
    if found is None:
        return redirect("seasons:standings", club_slug, season_slug) if _is_member(request, club_slug) else _nothing()
    return _shown(request, found, partial(_season, slug=season_slug), MINUTE, request.build_absolute_uri("/"))


@require_safe
def feed(request: HttpRequest, club_slug: str) -> HttpResponse:
    """The results of an open club for feed readers; of any other there are none."""
    found = open_club_of(club_slug)
    return _nothing() if found is None else _shown(request, found, _feed, MINUTE, request.build_absolute_uri("/"))


def _nothing() -> HttpResponse:
    raise Http404(gettext("There is no open club at this address."))


def _is_member(request: HttpRequest, slug: str) -> bool:
    club = Club.objects.filter(slug=slug).first()
    return club is not None and role_in(request.user, club) is not None


def _shown(request: HttpRequest, club: Club, page: Page, seconds: int, host: str = "") -> HttpResponse:
    def view(request: HttpRequest, **more: Any) -> HttpResponse:
        with shown_by(club, clock_of(club)):
            return page(request, club)

    return shown(request, partial(state_of_club, club.slug, seconds), view, host)


def _club(request: HttpRequest, club: Club) -> HttpResponse:
    events, seasons = club_calendar(club), club_seasons(club)
    latest = latest_season(seasons, events)
    context = club_context(club, events, public_season(latest) if latest else None)
    said = data_block([about(one) for one in context["ahead"]]) if context["ahead"] else ""
    return render(request, "public/club/page.html", {**context, "seasons": seasons, "about": said})


def _season(request: HttpRequest, club: Club, slug: str) -> HttpResponse:
    found = next((one for one in club_seasons(club) if one.slug == slug), None)
    if found is None:
        raise Http404(gettext("%(name)s has no such season.") % {"name": club.name})
    return render(request, "public/club/season.html", season_context(club, public_season(found)))


def _feed(request: HttpRequest, club: Club) -> HttpResponse:
    told = club_feed(club, published_results(club), request.build_absolute_uri)
    return HttpResponse(json.dumps(told, ensure_ascii=False).encode(), content_type="application/feed+json")


def _calendar(request: HttpRequest, club: Club) -> HttpResponse:
    text = calendar_feed(club, public_calendar(club))
    return HttpResponse(text.encode(), content_type="text/calendar; charset=utf-8")
