"""The account of a day's fish; hand a boat's fish over, take that back, let a batch go."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.domain.care_context import CareContext
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.rules.faults import Faults
from weighin.tanks.forms.releases import ReleaseForm
from weighin.tanks.pages.bag_words import headline, lines, remarks
from weighin.tanks.queries.bags import account_of
from weighin.tanks.queries.releases import place_names
from weighin.tanks.services.bags import hand_over, let_go, take_back


@require_safe
@allow(Can.VIEW_EVENT)
def account(request: HttpRequest, event: Event) -> HttpResponse:
    """Where each live fish of the day went."""
    care_context = care_context_of(event)
    found = account_of(event, _day(request, care_context))
    context = {
        "event": event,
        "scene": care_context,
        "found": found,
        "headline": headline(found),
        "lines": lines(found),
        "remarks": remarks(found),
        "done": [boat for boat in found.boats if boat.back and (boat.bag or boat.to_release)],
        "may_write": can_in(request.user, event.club, Can.RECORD_CARE) and not event.closed_at,
    }
    return render(request, "tanks/account.html", context)


@require_POST
@allow(Can.RECORD_CARE)
def bag_handed(request: HttpRequest, event: Event, day: int, boat: int) -> HttpResponse:
    """One tap: this boat's fish are in the release tank."""
    try:
        bag = hand_over(event, day, boat, request.user.get_username())
        messages.info(
            request,
            gettext("%(fish)s fish of boat %(boat)s are in the release tank.") % {"fish": bag.fish, "boat": boat},
        )
    except Faults as faults:
        messages.warning(request, _said(faults))
    return _back(event, day)


@require_POST
@allow(Can.RECORD_CARE)
def bag_taken_back(request: HttpRequest, event: Event, bag_pk: int) -> HttpResponse:
    """That tap was a mistake."""
    day = event.handed_bags.filter(pk=bag_pk).values_list("day", flat=True).first() or 1
    try:
        bag = take_back(event, bag_pk, request.user.get_username())
        messages.info(request, gettext("Boat %(boat)s is not in the tank anymore.") % {"boat": bag.entry.boat})
    except Faults as faults:
        messages.warning(request, _said(faults))
    return _back(event, day)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.RECORD_CARE)
def bags_let_go(request: HttpRequest, event: Event, day: int) -> HttpResponse:
    """Let the bags of the tank go as one batch: its time, place and the fish found dead."""
    care_context = care_context_of(event)
    if day not in care_context.calendar.days:
        raise Http404(gettext("The event has no such day."))
    found = account_of(event, day)
    chosen = request.POST if request.method == "POST" else request.GET
    asked = {int(pk) for pk in chosen.getlist("bag") if pk.isascii() and pk.isdigit() and len(pk) < 19}
    bags = [bag for bag in found.in_tank if bag.pk in asked] if asked else list(found.in_tank)
    first = {"day": str(day), "fish": str(sum(bag.fish for bag in bags)), "by": "batch"}
    form = ReleaseForm(request.POST or None, care_context=care_context, initial=first)
    if request.method == "POST" and form.attempt(
        lambda data: let_go(event, asked, form.draft(data).texts, request.user.get_username(), form.sender_key)
    ):
        release = form.__dict__["kept"]
        messages.info(request, gettext("Back in the water: %(release)s.") % {"release": release})
        return _back(event, day)
    context: dict[str, Any] = {
        "event": event,
        "scene": care_context,
        "rules": care_context.rules,
        "form": form,
        "what": gettext("Release"),
        "closed": event.closed_at is not None,
        "back": f"{reverse('tanks:account', args=[event.slug])}?day={day}",
        "places": place_names(event),
        "bags": bags,
        "asked": sorted(asked) if asked else [bag.pk for bag in bags],
    }
    return render(request, "tanks/let_go.html", context)


def _day(request: HttpRequest, care_context: CareContext) -> int:
    asked = request.GET.get("day", "")
    if not asked:
        return care_context.likely_day
    day = next((day for day in care_context.calendar.days if str(day) == asked), None)
    if day is None:
        raise Http404(gettext("The event has no such day."))
    return day


def _back(event: Event, day: int) -> HttpResponse:
    return redirect(f"{reverse('tanks:account', args=[event.slug])}?day={day}")


def _said(faults: Faults) -> str:
    message = faults.faults[0].message
    return f"{message[:1].upper()}{message[1:]}."
