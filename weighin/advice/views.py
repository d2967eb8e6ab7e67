"""A season's dead fish, what another sheet or plan would have meant, its points rules, and rules changed after slips."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.translation import get_language, gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.advice.forms.rule_change import RuleChangeForm
from weighin.advice.forms.season_rules import ClearForm, SeasonRulesForm
from weighin.advice.forms.what_if import WhatIfForm
from weighin.advice.pages.rule_change import preview_shown
from weighin.advice.pages.season import season_context
from weighin.advice.pages.what_if import what_if as what_if_context
from weighin.advice.queries.rule_change import has_begun
from weighin.advice.services.rule_change import change_rules_after_slips, look_at_change
from weighin.advice.services.season_rules import change_season_rules, clear_season_rules
from weighin.clubs.access import allow_in_club, can_in, require
from weighin.clubs.models import Club, Season
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import first_slip, rules_of
from weighin.mortality.queries.season import season_mortality, season_stamp
from weighin.rules import rulebook
from weighin.rules.sheet.keys import OF_SEASON_ALONE, POINTS
from weighin.rules.words.sheet import sheet_in_words
from weighin.standings.queries.days import days_of, fished
from weighin.standings.queries.season_rules import counted_events, season_rules
from weighin.standings.queries.standings import standings_of
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


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def rule_change(request: HttpRequest, event: Event) -> HttpResponse:
    """Change an event's rules after its first slip: looked at first, with whom it would move, then saved with a reason."""
    if first_slip(event) is None:
        return redirect("events:rules_edit", event.slug)
    by, rules = request.user.get_username(), rules_of(event)
    days = fished(days_of(standings_of(event)))
    form = RuleChangeForm(
        request.POST or None,
        written=rules.written(),
        unit=event.weight_unit,
        left_out=OF_SEASON_ALONE if event.season.rules else (),
        may_wait=any(not has_begun(day, timezone.now()) for day in days),
    )
    context: dict[str, Any] = {"event": event, "form": form}
    if request.method == "POST" and form.attempt(lambda data: look_at_change(event, form.rules())):
        context |= preview_shown(rules, *form.kept)
        if request.POST.get("act") == "save" and form.attempt(
            lambda data: change_rules_after_slips(
                event, form.rules(), by, data["reason"], form.whole, seen=data["seen"] or 0
            )
        ):
            messages.info(request, gettext("The rules are changed."))
            return redirect("events:rules", event.slug)
    return render(request, "advice/rule_change.html", context)


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
