"""A season's calendar at once."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.schedule.forms import SeasonEventsForm
from weighin.schedule.services.season import make_season_events
from weighin.ui.nouns import counted


@allow_in_club(Can.MANAGE_EVENT)
@require_http_methods(["GET", "HEAD", "POST"])
def season_events(request: HttpRequest, club: Club) -> HttpResponse:
    """Add several events from a list."""
    form = SeasonEventsForm(request.POST or None, club=club)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: make_season_events(club, data, by)):
        messages.info(request, gettext("%(events)s added.") % {"events": counted(len(form.kept), "event")})
        return redirect("events:club", club.slug)
    return render(request, "schedule/season_events.html", {"club": club, "form": form})
