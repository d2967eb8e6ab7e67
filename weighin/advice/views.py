"""A season's dead fish, what another sheet or plan would have meant, and its points rules."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils.translation import get_language, gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.advice.forms.season_rules import ClearForm, SeasonRulesForm
from weighin.advice.forms.what_if import WhatIfForm
from weighin.advice.pages.season import season_context
from weighin.advice.pages.what_if import what_if as what_if_context
from weighin.advice.services.season_rules import change_season_rules, clear_season_rules
from weighin.clubs.access import allow_in_club, can_in, require
from weighin.clubs.models import Club, Season
from weighin.mortality.queries.season import season_mortality, season_stamp
from weighin.rules import rulebook
from weighin.rules.sheet.keys import POINTS
from weighin.rules.words.sheet import sheet_in_words
from weighin.standings.queries.season_rules import counted_events, season_rules
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


@require_http_methods(["GET", "HEAD", "POST"])
@allow_in_club(Can.VIEW_SEASON)
def points_rules(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """By which rules a season's points are added up, in words; a director sets them."""
    found = _season(club, season_slug)
    act, by = request.POST.get("act", ""), request.user.get_username()
    if request.method == "POST":
        require(request.user, club, Can.MANAGE_CLUB)
    counts = bool(counted_events(found))
    rules = season_rules(found) or rulebook.defaults("lb")
    form = SeasonRulesForm(request.POST if act == "set" else None, written=rules.written(), counts=counts)
    clear = ClearForm(request.POST if act == "clear" else None)
    if form.attempt(lambda data: change_season_rules(found, form.said(), by, data["reason"])) or clear.attempt(
        lambda data: clear_season_rules(found, by, data["reason"])
    ):
        messages.info(request, gettext("The season’s points rules are saved."))
        return redirect("advice:points_rules", club.slug, found.slug)
    context = {
        "club": club,
        "season": found,
        "form": form,
        "clear": clear,
        "counts": counts,
        "words": dict(sheet_in_words(rules))[gettext(POINTS)],
        "may": can_in(request.user, club, Can.MANAGE_CLUB),
    }
    return render(request, "advice/points_rules.html", context)


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
