"""Pages about fish that died: of one event, and of a season."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.mortality.pages.event_report import members_report_context
from weighin.mortality.pages.figures import seasons_figure
from weighin.mortality.queries.trend import club_trend, trend_rows


@require_safe
@allow(Can.VIEW_EVENT)
def event(request: HttpRequest, event: Event) -> HttpResponse:
    """How many fish of an event died, how sure that is, and what is not known."""
    return render(request, "mortality/event.html", {"event": event, **members_report_context(event)})


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def trend(request: HttpRequest, club: Club) -> HttpResponse:
    """A club's dead fish over its seasons."""
    found = club_trend(club)
    figure = seasons_figure(found)
    context = {"club": club, "found": found, "rows": trend_rows(found), "chart": figure.drawn() if figure else None}
    return render(request, "mortality/trend.html", context)
