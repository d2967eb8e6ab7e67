"""The desk's boats: what was seen of each and what is missing; substitutes and withdrawals of one."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.domain.roles import Can
from weighin.checkin.pages.roll import day_to_show
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.registration.domain.words import called
from weighin.registration.forms.boats import AsksForm, SubstituteForm, WithdrawForm
from weighin.registration.pages.boats import SAFETY, cell, heads, line_of
from weighin.registration.queries.boats import BoatAtDesk, asked_of, boats_at_desk
from weighin.registration.queries.till import paid_by
from weighin.registration.services.withdrawing import withdraw
from weighin.roster.models import Seen
from weighin.roster.services.seen import ask_for, mark_seen, undo_seen
from weighin.roster.services.substitutes import substitute
from weighin.rules.faults import Faults
from weighin.ui import figures
from weighin.ui.forms.service import sentence

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow(Can.MANAGE_TEAMS)
@form_page
def boats(request: HttpRequest, event: Event) -> HttpResponse:
    """Every boat with what was seen, or only those of which something is missing; one press says that it was seen."""
    day, only = _day(request, event), request.GET.get("show") == "missing"
    if request.method == "POST":
        team = _press(request, event, day)
        query = f"?day={day or ''}" + ("&show=missing" if only else "")
        return redirect(f"{reverse('registration:desk_boats', args=[event.slug])}{query}#boat-{team}")
    found, asked = boats_at_desk(event, day), asked_of(event)
    shown = [boat for boat in found if boat.lacks or not only]
    context = {
        "event": event,
        "lines": [line_of(event, boat, asked) for boat in shown],
        "heads": heads(event),
        "boats": len([boat for boat in found if boat.fishes]),
        "lacking": len([boat for boat in found if boat.lacks]),
        "only": only,
        "day": day,
        "days": calendar_of(event).fished,
        "asks": AsksForm(asked=asked),
        "sign": event.club.currency,
    }
    return render(request, "registration/boats.html", context)


@allow(Can.MANAGE_TEAMS)
@require_POST
def asks(request: HttpRequest, event: Event) -> HttpResponse:
    """Say what the desk asks every team for."""
    form, by = AsksForm(request.POST), request.user.get_username()
    if form.attempt(lambda data: ask_for(event, data["asked"], by)):
        messages.info(request, gettext("What the desk asks for is saved."))
    else:
        messages.error(request, gettext("Nothing was saved: choose from the list."))
    return redirect("registration:desk_boats", event.slug)


@allow(Can.MANAGE_TEAMS)
@form_page
def boat(request: HttpRequest, event: Event, team: str) -> HttpResponse:
    """One boat at the desk."""
    day, by, act = _day(request, event), request.user.get_username(), request.POST.get("act", "")
    found = next((one for one in boats_at_desk(event, day) if line_of(event, one, ()).team == team), None)
    if found is None:
        raise Http404(gettext("There is no such team in this event."))
    entry, paid = found.entry, paid_by(event, found.entry)
    substitute_form = SubstituteForm(request.POST if act == "substitute" else None, entry=entry)
    withdraw_form = WithdrawForm(request.POST if act == "withdraw" else None, paid=paid, sign=event.club.currency)
    if act == "substitute" and substitute_form.attempt(
        lambda data: substitute(entry, substitute_form.place(data), data["name"], data["reason"], by)
    ):
        messages.info(request, gettext("%(team)s: the substitute is in the team.") % {"team": called(entry)})
        return redirect(request.get_full_path())
    if act == "withdraw" and withdraw_form.attempt(
        lambda data: withdraw(
            event, entry, withdraw_form.back(data), data.get("means", ""), data["reason"], by, withdraw_form.sender_key
        )
    ):
        back = sum(-row.amount for row in withdraw_form.kept)
        said = {"team": called(entry), "amount": figures.money(back)}
        words = gettext("%(team)s is withdrawn; %(amount)s refunded.") if back else gettext("%(team)s is withdrawn.")
        messages.info(request, words % said)
        return redirect(request.get_full_path())
    if act in ("seen", "undo"):
        _press(request, event, day)
        return redirect(request.get_full_path())
    return render(
        request,
        "registration/boat.html",
        {**_of_boat(event, found, day), "substitute": substitute_form, "withdraw": withdraw_form},
    )


def _of_boat(event: Event, found: BoatAtDesk, day: int | None) -> dict[str, Any]:
    names = [what.value for what in Seen.What]
    return {
        "event": event,
        "boat": found,
        "line": line_of(event, found, asked_of(event)),
        "cells": [cell(found, name) for name in names],
        "day": day,
        "days": calendar_of(event).fished,
        "sign": event.club.currency,
    }


def _press(request: HttpRequest, event: Event, day: int | None) -> str:
    """What a button says: something was seen of a team, or not after all; the team."""
    by = request.user.get_username()
    team, _, what = request.POST.get("seen", "").partition("|")
    try:
        if what:
            parts = [part for part in asked_of(event) if part in Seen.SAFETY]
            mark_seen(event, team, parts if what == SAFETY else [what], day, by)
        else:
            _undo(event, request.POST.get("undo", ""), by)
    except Faults as found:
        for fault in found.faults:
            messages.error(request, sentence(fault.message))
    return team


def _undo(event: Event, number: str, by: str) -> None:
    known = number.isascii() and number.isdigit() and len(number) < 10
    row = Seen.objects.current().filter(event=event, number=int(number)).first() if known else None
    if row is not None:  # else somebody undid it meanwhile
        undo_seen(row, by)


def _day(request: HttpRequest, event: Event) -> int | None:
    return day_to_show(calendar_of(event), request.GET.get("day", ""), timezone.now())
