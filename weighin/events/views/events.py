"""A person's clubs, a club's events, and the setting up of an event."""

from typing import Any
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can, Role
from weighin.clubs.access import allow_in_club, can_in
from weighin.clubs.domain.wanted import wanted_of
from weighin.clubs.models import Club
from weighin.clubs.queries import clubs_of, invitations_for
from weighin.events.access import allow
from weighin.events.domain import entered
from weighin.events.domain.fees import is_paid
from weighin.events.forms.events import DayForm, EventForm, FlightForm, NewEventForm, RemoveForm
from weighin.events.models import Event
from weighin.events.queries.events import club_events, events_in, first_slip, flight_names, listed
from weighin.events.services import events, flights
from weighin.events.tables.events import EventsTable

form_page = require_http_methods(["GET", "HEAD", "POST"])
FROM_THE_LAST = ("season", "water", "start_time", "due_time", "time_zone", "weight_unit", "handling", "entry_fee")


@require_safe
@login_required
def mine(request: HttpRequest) -> HttpResponse:
    """The person's clubs with what is next in each."""
    memberships = clubs_of(request.user)
    rows = listed(events_in([membership.club_id for membership in memberships]))
    clubs = [(m, [row for row in rows if row.event.club.pk == m.club_id]) for m in memberships]
    ahead = sorted((row for row in rows if row.ahead), key=lambda row: (row.over, row.event.date))
    today = timezone.now().astimezone(ZoneInfo(ahead[0].event.time_zone)).date() if ahead else None
    context = {
        "clubs": clubs,
        "next": ahead[0] if ahead else None,
        "today": today,
        "invitations": list(invitations_for(request.user)),
        "has_past": any(row.begun and not row.ahead for row in rows),
        "directs": any(one.role == Role.DIRECTOR for one in memberships),
    }
    return render(request, "events/mine.html", context)


@allow_in_club(Can.VIEW_EVENT)
@require_safe
def club(request: HttpRequest, club: Club) -> HttpResponse:
    """The club's events by season."""
    rows = listed(club_events(club))
    seasons = list(club.seasons.all())
    tables = []
    for season in seasons:
        of_season = [row for row in rows if row.event.season_id == season.pk]
        table = EventsTable(
            of_season, prefix=f"{season.slug}-", empty_text=gettext("No event in %(season)s yet.") % {"season": season}
        )
        RequestConfig(request, paginate=False).configure(table)
        tables.append((season, table, len(of_season)))
    context = {
        "club": club,
        "tables": tables,
        "waters": list(club.waters.all()),
        "events": len(rows),
        "ahead": sorted((row for row in rows if row.ahead), key=lambda row: (row.over, row.event.date)),
        "over": any(row.begun and not row.ahead for row in rows),
        "wanted": wanted_of(club) if can_in(request.user, club, Can.MANAGE_CLUB) else [],
    }
    return render(request, "events/club.html", context)


@allow_in_club(Can.MANAGE_EVENT)
@form_page
def new(request: HttpRequest, club: Club) -> HttpResponse:
    """Make an event."""
    last = club_events(club).first()
    initial = {name: getattr(last, name) for name in FROM_THE_LAST} if last else _only_ones(club)
    form = NewEventForm(request.POST or None, club=club, initial=initial | ({"rules_from": last} if last else {}))
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: events.make_event(club, data, by, rules_from=data.get("rules_from"))
    ):
        event: Event = form.kept
        messages.info(
            request, gettext("%(name)s is added. Now its rules, its flights and its teams.") % {"name": event.name}
        )
        return redirect("events:setup", event.slug)
    ready = club.seasons.exists() and club.waters.exists()
    return render(request, "events/new.html", {"club": club, "form": form, "ready": ready})


@allow(Can.MANAGE_EVENT)
@require_safe
def setup(request: HttpRequest, event: Event) -> HttpResponse:
    """What is set up of the event, and what is still to do."""
    context = {
        "event": event,
        "days": list(event.event_days.all()),
        "flights": list(event.flights.all()),
        "flight_count": len(flight_names(event)),
        "teams": entered.count(event),
        "locked": first_slip(event),
    }
    return render(request, "events/setup.html", context)


@allow(Can.MANAGE_EVENT)
@form_page
def edit(request: HttpRequest, event: Event) -> HttpResponse:
    """Edit the event's own fields."""
    initial = {name: getattr(event, name) for name in events.FIELDS} | {"days": event.event_days.count()}
    paid = is_paid(event, "entry_fee")
    form = EventForm(request.POST or None, club=event.club, initial=initial, fee_is_paid=paid)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: events.change_event(event, data, by)):
        messages.info(request, gettext("%(name)s is saved.") % {"name": form.cleaned_data["name"]})
        return redirect("events:setup", event.slug)
    return render(request, "events/edit.html", {"event": event, "form": form})


@allow(Can.MANAGE_EVENT)
@form_page
def day(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Change one day."""
    found = event.event_days.filter(number=number).first()
    if found is None:
        raise Http404(gettext("There is no day %(number)s in this event.") % {"number": number})
    initial = {name: getattr(found, name) for name in events.DAY_FIELDS}
    form = DayForm(request.POST or None, event=event, initial=initial)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: events.change_day(event, number, data, by)):
        messages.info(request, gettext("Day %(number)s is saved.") % {"number": number})
        return redirect("events:setup", event.slug)
    return render(request, "events/day.html", {"event": event, "day": found, "form": form})


@allow(Can.MANAGE_EVENT)
@form_page
def flights_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Add a flight."""
    form = FlightForm(request.POST or None, days=_days(event), initial={"due_time": event.due_time})
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: flights.add_flight(event, data, by)):
        messages.info(request, gettext("Flight %(name)s is added.") % {"name": form.kept.name})
        return redirect("events:setup", event.slug)
    return render(request, "events/flight.html", {"event": event, "form": form})


@allow(Can.MANAGE_EVENT)
@form_page
def flight(request: HttpRequest, event: Event, flight_pk: int) -> HttpResponse:
    """Change or remove a flight's row."""
    found = event.flights.filter(pk=flight_pk).first()
    if found is None:
        raise Http404(gettext("There is no such flight in this event."))
    by, act, name = request.user.get_username(), request.POST.get("act", ""), found.name
    form = FlightForm(request.POST if act == "change" else None, days=_days(event), initial=FlightForm.written(found))
    remove = RemoveForm(request.POST if act == "remove" else None)
    if act == "change" and form.attempt(lambda data: flights.change_flight(found, data, by)):
        messages.info(request, gettext("Flight %(name)s is saved.") % {"name": form.cleaned_data["name"]})
        return redirect("events:setup", event.slug)
    if act == "remove" and remove.attempt(lambda data: flights.remove_flight(found, by)):
        messages.info(request, gettext("Flight %(name)s is removed.") % {"name": name})
        return redirect("events:setup", event.slug)
    return render(request, "events/flight.html", {"event": event, "form": form, "remove": remove, "name": name})


def _days(event: Event) -> list[int]:
    return list(event.event_days.values_list("number", flat=True))


def _only_ones(club: Club) -> dict[str, Any]:
    """A season or water that leaves no choice is chosen already."""
    seasons, waters = list(club.seasons.all()[:2]), list(club.waters.all()[:2])
    chosen: dict[str, Any] = {"season": seasons[0]} if len(seasons) == 1 else {}
    return chosen | ({"water": waters[0]} if len(waters) == 1 else {})
