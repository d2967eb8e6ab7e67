"""A season's standings, those of its series, and a team's season."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club, require
from weighin.clubs.models import Club, Season
from weighin.reports.files.event import TYPES
from weighin.reports.views.files import download
from weighin.seasons.files.standings import FORMS, standings_file
from weighin.seasons.forms import ClassesForm
from weighin.seasons.models import Series
from weighin.seasons.pages.standings import TEAMS, list_context, team_context
from weighin.seasons.queries.standings import entries_in, season_standings, series_of, team_season
from weighin.seasons.services.classes import keep_classes


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def standings(
    request: HttpRequest, club: Club, season_slug: str, series_slug: str = "", which: str = TEAMS
) -> HttpResponse:
    """One list of the season or of a series: teams, a class, anglers."""
    season = season_at(club, season_slug)
    series = series_at(season, series_slug) if series_slug else None
    try:
        shown = list_context(season_standings(season, series), which)
    except KeyError:
        raise Http404(gettext("There is no such list: choose teams, anglers or youth.")) from None
    context = {"club": club, "season": season, "series": series, "others": series_of(season), "forms": FORMS, **shown}
    return render(request, "seasons/standings.html", context)


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def standings_files(
    request: HttpRequest, club: Club, season_slug: str, form: str, series_slug: str = ""
) -> HttpResponse:
    """The standings as JSON, CSV, XLSX or PDF."""
    season = season_at(club, season_slug)
    series = series_at(season, series_slug) if series_slug else None
    if form not in FORMS:
        raise Http404(gettext("There is no such file: choose json, csv, xlsx or pdf."))
    name = "-".join(filter(None, (club.slug, season.slug, series_slug, f"standings.{form}")))
    return download(standings_file(season_standings(season, series), form), TYPES[form], name)


@require_http_methods(["GET", "HEAD", "POST"])
@allow_in_club(Can.VIEW_SEASON)
def team(request: HttpRequest, club: Club, season_slug: str, team_pk: int) -> HttpResponse:
    """A team's season: its events, places, points and big fish; who enters teams says in which classes it is."""
    season = season_at(club, season_slug)
    entries = entries_in(season, team_pk)
    form = ClassesForm(request.POST if request.method == "POST" else None, entries=entries)
    if request.method == "POST":
        require(request.user, club, Can.MANAGE_TEAMS)
        by = request.user.get_username()
        if form.attempt(lambda data: keep_classes(entries, data, by)):
            messages.info(request, gettext("The classes are saved."))
            return redirect("seasons:team", club.slug, season.slug, team_pk)
    found = season_standings(season)
    mine = team_season(found, team_pk)
    if mine is None:
        raise Http404(gettext("There is no such team in this season."))
    context = {"club": club, "season": season, "form": form, **team_context(found, mine)}
    return render(request, "seasons/team.html", context)


def season_at(club: Club, slug: str) -> Season:
    """The season of the club at an address. Raises Http404."""
    season = club.seasons.filter(slug=slug).first()
    if season is None:
        raise Http404(gettext("%(name)s has no such season.") % {"name": club.name})
    season.club = club
    return season


def series_at(season: Season, slug: str) -> Series:
    """The series of the season at an address. Raises Http404."""
    series = season.series.filter(slug=slug).first()
    if series is None:
        raise Http404(gettext("There is no such series in this season."))
    series.season = season
    return series
