"""The desk: a team after the other, by keyboard."""

import json
from typing import Any

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import flight_names
from weighin.registration.forms.desk import TeamAtDeskForm
from weighin.registration.pages.desk import filled_from, kept_said, looked_at
from weighin.registration.parsing.desk import at_desk, typed_team
from weighin.registration.queries.draws import entries_closed
from weighin.registration.queries.earlier import earlier_team, names_before
from weighin.registration.queries.remembered import boat_offered, last_taken
from weighin.registration.queries.till import fees_of, side_pots_of
from weighin.registration.services.desk import enter_at_desk
from weighin.roster.models import Entry
from weighin.roster.queries import looks_of_teams, roster_count
from weighin.rules.faults import Faults


@allow(Can.MANAGE_TEAMS)
@require_http_methods(["GET", "HEAD", "POST"])
def desk(request: HttpRequest, event: Event) -> HttpResponse:
    """Enter a team with what it pays; the page comes again for the next one."""
    form, by, filled = _form(request, event, request.POST or None), request.user.get_username(), ""
    if request.method == "POST":
        known = None if form.texts["anglers"].strip() else earlier_team(event, form.texts["name"])
        if known is not None and known.anglers:
            form, filled = _form(request, event, filled_from(known, request.POST)), known.event.name
        elif form.attempt(lambda data: _enter(event, form, data, by)):
            return redirect(f"{reverse('registration:desk', args=[event.slug])}?kept={form.kept.number}")
    kept = _kept(event, request.GET.get("kept", ""))
    context = {
        "event": event,
        "form": form,
        "filled": filled,
        "kept": kept_said(event, kept) if kept and request.method != "POST" else None,
        "count": roster_count(event),
        "closed": entries_closed(event),
        "earlier": names_before(event),
        "fees": json.dumps({place: f"{fee:.2f}" for place, fee in enumerate(_fees(event).values())}),
    }
    return render(request, "registration/desk.html", context)


@allow(Can.MANAGE_TEAMS)
@require_POST
def look(request: HttpRequest, event: Event) -> HttpResponse:
    """What is wrong with a team as far as it is typed, and the earlier teams and anglers that it may be."""
    form = _form(request, event, request.POST)
    return JsonResponse(looked_at(event, form, request.POST.get("at", "")), headers={"Cache-Control": "no-store"})


def _fees(event: Event) -> dict[Any, Any]:
    return fees_of(event, side_pots_of(event))


def _form(request: HttpRequest, event: Event, data: Any) -> TeamAtDeskForm:
    ticked, means = last_taken(event, request.user.get_username())
    fees = _fees(event)
    return TeamAtDeskForm(
        data,
        event=event,
        fees=fees,
        flights=flight_names(event),
        late=entries_closed(event) is not None,
        ticked=[what for what in ticked if what in fees],
        initial={"boat": boat_offered(event) or "", "means": means},
    )


def _enter(event: Event, form: TeamAtDeskForm, data: dict[str, Any], by: str) -> Entry:
    try:
        row, contact = typed_team(form.texts, looks_of_teams(event))
        return enter_at_desk(
            event, row, contact, form.ticked(data), data["means"], by, form.sender_key, data.get("late", "")
        )
    except Faults as found:
        raise Faults([at_desk(fault) for fault in found.faults]) from None


def _kept(event: Event, number: str) -> Entry | None:
    if not (number.isascii() and number.isdigit() and len(number) < 10):
        return None
    return Entry.everyone.filter(event=event, number=int(number)).first()
