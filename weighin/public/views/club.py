"""A club's page for everybody, and its calendar as a feed; members keep their own page at the same address."""

from collections.abc import Callable
from functools import partial
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.clubs.access import role_in
from weighin.clubs.models import Club
from weighin.clubs.queries import clock_of
from weighin.events.views.events import club as members_page
from weighin.public.access import MINUTE, QUARTER, shown
from weighin.public.pages.structured import data_block
from weighin.schedule.pages.calendar import about, by_time, feed
from weighin.schedule.queries.calendar import open_club_of, public_calendar
from weighin.standings.queries.shown import state_of_club

Page = Callable[[HttpRequest, Club], HttpResponse]


@require_safe
def club(request: HttpRequest, club_slug: str) -> HttpResponse:
    """Members see their club's events as before, everybody else what the club has opened; nothing where it has not."""
    found = open_club_of(club_slug)
    if found is None or role_in(request.user, found) is not None:
        return members_page(request, club_slug=club_slug)
    return _shown(request, found, _club, MINUTE)


@require_safe
def calendar(request: HttpRequest, club_slug: str) -> HttpResponse:
    """The calendar of an open club; of any other there is none."""
    found = open_club_of(club_slug)
    if found is None:
        raise Http404(gettext("There is no open club at this address."))
    return _shown(request, found, _calendar, QUARTER)


def _shown(request: HttpRequest, club: Club, page: Page, seconds: int) -> HttpResponse:
    def view(request: HttpRequest, **more: Any) -> HttpResponse:
        with timezone.override(clock_of(club)):
            return page(request, club)

    return shown(request, partial(state_of_club, club.slug, seconds), view)


def _club(request: HttpRequest, club: Club) -> HttpResponse:
    events = public_calendar(club)
    ahead, over = by_time(events)
    said = data_block([about(one) for one in ahead]) if ahead else ""
    to_come = next((one for one in ahead if not all(map(one.is_off, one.days))), None)
    context = {"of": club, "club": club, "next": to_come, "ahead": ahead, "over": over, "about": said}
    return render(request, "public/club.html", context)


def _calendar(request: HttpRequest, club: Club) -> HttpResponse:
    text = feed(club, public_calendar(club))
    return HttpResponse(text.encode(), content_type="text/calendar; charset=utf-8")
