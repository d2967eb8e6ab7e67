"""Make, edit and remove a series."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.seasons.forms import SeriesForm
from weighin.seasons.services.series import keep_series, remove_series
from weighin.seasons.views.standings import season_at, series_at


@allow_in_club(Can.MANAGE_CLUB)
@require_http_methods(["GET", "HEAD", "POST"])
def series_form(request: HttpRequest, club: Club, season_slug: str, series_slug: str = "") -> HttpResponse:
    """A new series, or one that is edited."""
    season = season_at(club, season_slug)
    old = series_at(season, series_slug) if series_slug else None
    form = SeriesForm(request.POST if request.method == "POST" else None, season=season, old=old)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: keep_series(season, data["name"], data["events"], data["count_best"], data["ties"], by, old)
    ):
        messages.info(request, gettext("%(series)s is saved.") % {"series": form.kept.name})
        return redirect("seasons:series", club.slug, season.slug, form.kept.slug)
    return render(request, "seasons/series.html", {"club": club, "season": season, "series": old, "form": form})


@allow_in_club(Can.MANAGE_CLUB)
@require_POST
def series_remove(request: HttpRequest, club: Club, season_slug: str, series_slug: str) -> HttpResponse:
    """Remove a series; its events stay."""
    season = season_at(club, season_slug)
    series = series_at(season, series_slug)
    remove_series(series, request.user.get_username())
    messages.info(request, gettext("%(series)s is removed.") % {"series": series.name})
    return redirect("seasons:standings", club.slug, season.slug)
