"""The care record of a season: every team, the honours, and one team's days."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext
from django.views.decorators.http import require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.care.domain.honours import METHOD
from weighin.care.pages import season_words as words
from weighin.care.queries.season import TeamRecord, care_record, failed_checks
from weighin.care.tables import season_words
from weighin.care.tables.season import DaysTable, TeamsTable
from weighin.care.tables.words import NAMES
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club, Season

PER_PAGE = 50


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def season_record(request: HttpRequest, club: Club, season_slug: str) -> HttpResponse:
    """A season's teams by share of dead fish adjusted for small numbers, with live shares, times and who is named."""
    season = _season(club, season_slug)
    record = care_record(season)
    table = TeamsTable(record)
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    found = record.honours
    context = {
        "club": club,
        "season": season,
        "record": record,
        "honours": found,
        "headline": words.headline(record),
        "honours_said": words.honours_said(record, found) if found else "",
        "method": METHOD,
        "table": table,
    }
    return render(request, "care/season_record.html", context)


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def team(request: HttpRequest, club: Club, season_slug: str, entry_pk: int) -> HttpResponse:
    """One team's season, day by day."""
    season = _season(club, season_slug)
    record = care_record(season)
    found = next((team for team in record.teams if any(day.entry_pk == entry_pk for day in team.days)), None)
    if found is None:
        raise Http404(gettext("There is no such team with a slip in this season."))
    return render(request, "care/season_team.html", {"club": club, "season": season, **_team(found)})


def _team(found: TeamRecord) -> dict[str, Any]:
    return {
        "team": found,
        "alive": season_words.live_share(found.rate),
        "alive_range": season_words.live_range(found.rate),
        "held": season_words.time_said(found.held),
        "held_range": season_words.time_range(found.held),
        "in_bag": season_words.time_said(found.in_bag),
        "in_bag_range": season_words.time_range(found.in_bag),
        "failed": [(gettext(NAMES[name]), days) for name, days in failed_checks(found.days)],
        "table": DaysTable(found),
    }


def _season(club: Club, slug: str) -> Season:
    season = club.seasons.filter(slug=slug).first()
    if season is None:
        raise Http404(gettext("%(name)s has no such season.") % {"name": club.name})
    season.club = club
    return season
