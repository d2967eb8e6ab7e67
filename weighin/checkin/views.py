"""The roll of boats still out: the list by flight, one tap to check a boat in, words, corrections, a tow, a notice."""

import json
from datetime import datetime, timedelta
from hashlib import sha256
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.templatetags.static import static
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.translation import get_language, gettext, ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from weighin.accounts.domain.roles import Can
from weighin.checkin.forms import CorrectWordForm, NoticeForm, SettleTimeForm, TowForm, WordForm, read_key
from weighin.checkin.models import CheckIn
from weighin.checkin.pages.roll import day_to_show, row, shown
from weighin.checkin.pages.words import WHERE, in_doubt_said, left
from weighin.checkin.queries.roll import BoatOnRoll, boat_on_roll, lines_of, roll_of
from weighin.checkin.services import roll as services
from weighin.checkin.services.check_ins import void_check_in
from weighin.checkin.services.notices import move_due, seen_as
from weighin.clubs.access import can_in, require
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.records.forms.written import ReasonForm
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.queries import contacts_of
from weighin.rules.faults import Faults
from weighin.ui import catalogue
from weighin.ui.forms.service import sentence
from weighin.ui.modules import files_of, module

MODULES = ("roll/page", "roll/check-ins", "site/live")
ACTS = ("GET", "HEAD", "POST")
MOST = 2_000_000_000


@require_safe
@allow(Can.VIEW_EVENT)
def roll(request: HttpRequest, event: Event) -> HttpResponse:
    """Who is still out, by flight."""
    now = timezone.now()
    day = _day(request, event, now)
    context = {
        "event": event,
        "roll": shown(event, roll_of(event, day), now, _contacts(request, event)),
        "etag": _tag(request, event, day, now),
        "days": sorted(calendar_of(event).days),
        "as_of": now,
        "may_move": can_in(request.user, event.club, Can.MANAGE_EVENT) and not event.closed_at,
        **_rights(request, event),
    }
    return render(request, "checkin/roll.html", context)


@require_safe
@allow(Can.VIEW_EVENT)
def roll_part(request: HttpRequest, event: Event) -> HttpResponse:
    """The list alone, for a page that asks again by itself; 304 while nothing changed, counted by the minute."""
    now = timezone.now()
    day = _day(request, event, now)
    tag = _tag(request, event, day, now)
    unchanged = get_conditional_response(request, etag=tag)
    if isinstance(unchanged, HttpResponse):
        return unchanged
    page = shown(event, roll_of(event, day), now, _contacts(request, event))
    response = render(request, "checkin/roll_part.html", {"event": event, "roll": page, **_rights(request, event)})
    response["ETag"], response["Cache-Control"] = tag, "private, no-cache"
    return response


@require_safe
@allow(Can.RECORD_SLIP)
def roll_worker(request: HttpRequest, event: Event) -> HttpResponse:
    """The worker that keeps the last copy of the roll on the device."""
    page = json.dumps(reverse("checkin:roll", args=[event.slug]))
    files = [*(static(file) for file in files_of(*MODULES)), *filter(None, [catalogue.address()])]
    script = (
        f"const PAGE = {page};\nconst FILES = {json.dumps(files)};\n"
        f"importScripts({json.dumps(static(module('roll/worker')))});\n"
    )
    headers = {"Cache-Control": "no-cache"}
    return HttpResponse(script, content_type="text/javascript; charset=utf-8", headers=headers)


@require_POST
@allow(Can.RECORD_SLIP)
def roll_in(request: HttpRequest, event: Event) -> HttpResponse:
    """One tap: the boat is in, now."""
    day, boat = (_whole(request.POST.get(name, "")) for name in ("day", "boat"))
    if not boat:
        messages.error(request, gettext("Write the number of the boat that is in."))
        return _to_roll(event, day)
    key, pressed = read_key(request.POST.get("id", "")), _moment(request.POST.get("pressed", ""))
    by = request.user.get_username()
    try:
        line = services.check_in_now(event, day, boat, by, str(request.user), key, pressed)
    except Faults as found:
        for fault in found.faults:
            messages.error(request, sentence(fault.message))
        return _to_roll(event, day)
    found_boat = boat_on_roll(event, line.day, line.entry.boat)
    if found_boat is not None:
        said = row(found_boat)
        late = f", {said.late}" if said.late else ""
        messages.info(
            request,
            gettext("Boat %(boat)s, %(team)s, is in at %(came)s%(late)s.")
            % {"boat": boat, "team": said.team, "came": said.came, "late": late},
        )
    return _to_roll(event, day)


@require_POST
@allow(Can.RECORD_SLIP)
def roll_launch(request: HttpRequest, event: Event) -> HttpResponse:
    """Every boat of a flight of which there is no word has launched."""
    day, flight = _whole(request.POST.get("day", "")), request.POST.get("flight", "")[:40]
    if day not in calendar_of(event).days:
        raise Http404(gettext("This event has no such day."))
    try:
        boats = services.launch(event, day, flight, request.user.get_username(), str(request.user))
    except Faults as found:
        messages.error(request, "; ".join(fault.message for fault in found.faults))
    else:
        said = gettext("Every boat was heard from already.")
        if len(boats) == 1:
            said = gettext("Boat %(boat)s noted as launched.") % {"boat": boats[0]}
        elif boats:
            noted = ngettext("%(n)s boat noted as launched.", "%(n)s boats noted as launched.", len(boats))
            said = noted % {"n": len(boats)}
        messages.info(request, said)
    return _to_roll(event, day)


@require_http_methods(ACTS)
@allow(Can.VIEW_EVENT)
def roll_boat(request: HttpRequest, event: Event, day: int, boat: int) -> HttpResponse:
    """One boat: every line of its day, and the form for the next word."""
    found = boat_of(event, day, boat)
    form = WordForm(request.POST or None, initial={"official": str(request.user)})
    if request.method == "POST":
        require(request.user, event.club, Can.RECORD_SLIP)
        by = request.user.get_username()
        if form.attempt(lambda data: services.take_word(event, day, boat, data, by, form.key)):
            kept: CheckIn = form.kept
            messages.info(
                request,
                gettext("Boat %(boat)s: %(where)s. Saved as entry %(number)s.")
                % {"boat": boat, "where": WHERE[kept.whereabouts].lower(), "number": kept.number},
            )
            return _to_roll(event, day)
    return render(request, "checkin/roll_boat.html", boat_context(request, event, found, form))


@require_http_methods(ACTS)
@allow(Can.RECORD_SLIP)
def roll_correct(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Write a line again, with the reason."""
    line = _line(event, number)
    found = boat_of(event, line.day, line.entry.boat)
    form = CorrectWordForm(request.POST or None, old=line, calendar=found.table.calendar, official=str(request.user))
    by = request.user.get_username()
    day, boat = line.day, line.entry.boat
    if request.method == "POST" and form.attempt(
        lambda data: services.take_word(event, day, boat, data, by, form.key, line)
    ):
        messages.info(
            request,
            gettext("Entry %(number)s of boat %(boat)s is corrected. Both stay readable.")
            % {"number": number, "boat": boat},
        )
        return redirect("checkin:roll_boat", event.slug, day, boat)
    return render(request, "checkin/roll_correct.html", {**boat_context(request, event, found, form), "line": line})


@require_http_methods(ACTS)
@allow(Can.RECORD_SLIP)
def roll_void(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Take a line out, with the reason."""
    line = _line(event, number)
    found = boat_of(event, line.day, line.entry.boat)
    form = ReasonForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: void_check_in(line, data["reason"], by, str(request.user))
    ):
        messages.info(
            request,
            gettext("Entry %(number)s of boat %(boat)s is void. It stays readable.")
            % {"number": number, "boat": line.entry.boat},
        )
        return _to_roll(event, line.day)
    return render(request, "checkin/roll_void.html", {**boat_context(request, event, found, form), "line": line})


@require_http_methods(ACTS)
@allow(Can.RECORD_SLIP)
def roll_tow(request: HttpRequest, event: Event) -> HttpResponse:
    """A boat towed another in: who is excused how many minutes."""
    day = _day(request, event, timezone.now())
    first = {"official": str(request.user), "towing": request.GET.get("boat", "")[:9], "excuse": "towing"}
    form = TowForm(request.POST or None, initial=first)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: services.record_tow(event, day, data, by, form.key)):
        lines: list[CheckIn] = form.kept
        boats = [line.entry.boat for line in lines]
        excused = gettext("Boat %(boat)s excused %(minutes)s minutes.")
        if len(boats) == 2:
            excused = gettext("Boat %(boat)s and boat %(other)s excused %(minutes)s minutes.")
        messages.info(request, excused % {"boat": boats[0], "other": boats[-1], "minutes": lines[0].excused_minutes})
        for boat, slip in filter(None, (_slip_to_mend(event, line) for line in lines)):
            messages.warning(
                request,
                gettext("Slip %(slip)s of boat %(boat)s counts other minutes: correct it.")
                % {"slip": slip, "boat": boat},
            )
        return _to_roll(event, day)
    return render(
        request, "checkin/roll_tow.html", {"event": event, "form": form, "day": day, "entries": event.entries.all()}
    )


@require_http_methods(ACTS)
@allow(Can.MANAGE_EVENT)
def roll_notice(request: HttpRequest, event: Event) -> HttpResponse:
    """Move every due time of the day, and keep the notice."""
    now = timezone.now()
    day = _day(request, event, now)
    form = NoticeForm(request.POST or None, initial={"seen": seen_as(event, day), "given_by": str(request.user)})
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: move_due(event, day, data, by, form.key)):
        messages.info(
            request,
            gettext("Every due time of day %(day)s is moved. The notice is on the check-in page.") % {"day": day},
        )
        return _to_roll(event, day)
    page = shown(event, roll_of(event, day), now)
    return render(request, "checkin/roll_notice.html", {"event": event, "form": form, "roll": page, "now": now})


def _rights(request: HttpRequest, event: Event) -> dict[str, Any]:
    return {
        "may_write": can_in(request.user, event.club, Can.RECORD_SLIP) and not event.closed_at,
        "may_call": any(can_in(request.user, event.club, can) for can in (Can.SEE_CONTACTS, Can.RECORD_SLIP)),
    }


def _contacts(request: HttpRequest, event: Event) -> dict[int, ContactValues]:
    """How teams are reached, for those who call boats that are out: who checks boats in, the desk and directors."""
    return contacts_of(event) if _rights(request, event)["may_call"] else {}


def _tag(request: HttpRequest, event: Event, day: int, now: datetime) -> str:
    """Changes with the event, and with the minute, since the page counts the minutes; weak, as its ids are fresh."""
    parts = (
        event.pk,
        event.revision,
        day,
        int(now.timestamp()) // 60,
        request.user.pk,
        _rights(request, event),
        get_language(),
    )
    return f'W/"{sha256(repr(parts).encode()).hexdigest()[:24]}"'


def _day(request: HttpRequest, event: Event, now: datetime) -> int:
    asked = request.POST.get("day", "") or request.GET.get("day", "")
    day = day_to_show(calendar_of(event), asked, now)
    if day is None:
        raise Http404(gettext("This event has no such day."))
    return day


def boat_of(event: Event, day: int, boat: int) -> BoatOnRoll:
    found = boat_on_roll(event, day, boat)
    if found is None:
        raise Http404(gettext("There is no boat %(boat)s on day %(day)s of this event.") % {"boat": boat, "day": day})
    return found


def _line(event: Event, number: int) -> CheckIn:
    rows = CheckIn.objects.select_related("entry", "replaces", "replaced_by").filter(event=event, void=False)
    found: CheckIn | None = rows.filter(number=number).first() if number < MOST else None
    if found is None:
        raise Http404(gettext("This event’s check-in has no entry %(number)s.") % {"number": number})
    found.event = event
    return found


def boat_context(request: HttpRequest, event: Event, found: BoatOnRoll, form: Any) -> dict[str, Any]:
    calendar, now = found.table.calendar, timezone.now()
    due = calendar.due(found.day, found.entry.flight_name)
    return {
        "event": event,
        "boat": found,
        "row": row(found, _contacts(request, event).get(found.entry.pk)),
        "lines": lines_of(event, found.day, found.entry),
        "current": {line.pk for line in found.lines},
        "zone": event.time_zone,
        "due": due,
        "left": left(due, now),
        "form": form,
        "doubt": in_doubt_said(found) if found.slip_differs else "",
        "settle": SettleTimeForm(),
        **_rights(request, event),
    }


def _slip_to_mend(event: Event, line: CheckIn) -> tuple[int, int] | None:
    """Boat and number of a slip that does not know of what was excused."""
    found = boat_on_roll(event, line.day, line.entry.boat)
    slip = found.slip_differs if found else None
    return (line.entry.boat, slip.number) if slip else None


def _to_roll(event: Event, day: int) -> HttpResponse:
    """Back to the roll; a day that there is not shows the one going on."""
    query = f"?day={day}" if day in calendar_of(event).days else ""
    return redirect(f"{reverse('checkin:roll', args=[event.slug])}{query}")


def _whole(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) <= 9 else 0


def _moment(text: str) -> datetime | None:
    try:
        found = datetime.fromisoformat(text[:40])
    except ValueError:
        return None
    return found if found.tzinfo is not None and abs(found - timezone.now()) < timedelta(days=1) else None
