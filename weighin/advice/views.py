"""A season's dead fish: what was seen, what it gives reason to decide, and what another sheet or plan would have meant."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string
from django.utils.translation import get_language, gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.advice.forms import WhatIfForm
from weighin.advice.pages.season import season_context
from weighin.advice.pages.what_if import what_if as what_if_context
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club, Season
from weighin.mortality.queries.season import season_mortality, season_stamp
from weighin.ui.kept import KEEPER, State


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def season(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """A season's dead fish: one number, its events, what went with it, and what that does not tell."""
    found = _season(club, season_slug)
    context = {"club": club, "season": found, "body": _season_body(found)}
    return render(request, "advice/season.html", context)


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def what_if(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """A season under another rule sheet, and its dead fish under another plan."""
    found = season_mortality(_season(club, season_slug))
    form = WhatIfForm(request.GET.dict(), [line.event for line in found.events])
    return render(request, "advice/what_if.html", what_if_context(found, form))


def _season(club: Club, season_slug: str) -> Season:
    found = club.seasons.filter(slug=season_slug).first()
    if found is None:
        raise Http404(gettext("%(name)s has no such season.") % {"name": club.name})
    found.club = club
    return found


def _season_body(season: Season) -> str:
    """Opening and sections, rendered once a language until an event of the season changes; nothing else depends on the reader."""
    state = State((season.name, season.club.name, season_stamp(season)))

    def body() -> str:
        return render_to_string("advice/season_body.html", season_context(season_mortality(season)))

    shown: str = KEEPER.shown(("season", get_language(), season.pk), lambda: state, body)
    return shown
