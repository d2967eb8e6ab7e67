"""Call an event off, and tell the teams."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled
from weighin.letters.queries import mail_is_set
from weighin.schedule.domain.words import letter_to_teams
from weighin.schedule.forms import CallOffForm
from weighin.schedule.models import Notice
from weighin.schedule.pages.notices import reached
from weighin.schedule.queries.notices import last_notices, standing_notice, waits_for_date
from weighin.schedule.services.calling_off import cancel_event, postpone_event, take_back


@allow(Can.MANAGE_EVENT)
@require_http_methods(["GET", "HEAD", "POST"])
def call_off(request: HttpRequest, event: Event) -> HttpResponse:
    """Cancel or postpone the event, or take that back."""
    cancelled = is_cancelled(event)
    form = CallOffForm(
        request.POST or None,
        cancelled=cancelled,
        called_off=cancelled or waits_for_date(standing_notice(event)),
    )
    by = request.user.get_username()

    def act(data: dict[str, Any]) -> Notice:
        if data["kind"] == Notice.Kind.CANCELLED:
            return cancel_event(event, data["reason"], by)
        if data["kind"] == Notice.Kind.POSTPONED:
            return postpone_event(event, data["to"], data["reason"], by)
        return take_back(event, data["reason"], by)

    if request.method == "POST" and form.attempt(act):
        messages.info(request, gettext("Saved. Now message the teams."))
        return redirect("schedule:notice", event.slug)
    return render(request, "schedule/call_off.html", {"event": event, "form": form, "cancelled": cancelled})


@allow(Can.SEE_CONTACTS)
@require_safe
def notice(request: HttpRequest, event: Event) -> HttpResponse:
    """The text for the teams, and how each is reached."""
    found = last_notices([event.pk]).get(event.pk)
    teams = reached(event)
    context = {
        "event": event,
        "notice": found,
        "text": letter_to_teams(event, found)[1] if found else "",
        "teams": teams,
        "phones": [team.phone for team in teams if team.phone],
        "emails": [team.email for team in teams if team.email],
        "mailed": mail_is_set(),
        "without": [team for team in teams if not team.phone and not team.email],
    }
    return render(request, "schedule/notice.html", context)
