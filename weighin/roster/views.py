"""Teams of an event: the list, one team's form, and taking a team out."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import flight_names
from weighin.roster.forms import RemoveTeamForm, TeamForm, contact_values, entry_values
from weighin.roster.models import Entry
from weighin.roster.queries import entries_of, next_boat, roster_count
from weighin.roster.services import teams as services
from weighin.roster.tables import TeamsTable


@allow(Can.VIEW_EVENT)
@require_safe
def teams(request: HttpRequest, event: Event) -> HttpResponse:
    """Who is entered, paid or not, in which flight."""
    search, unpaid = request.GET.get("q", "")[:60].strip(), request.GET.get("show") == "unpaid"
    may_change = can_in(request.user, event.club, Can.MANAGE_TEAMS)
    table = TeamsTable(
        entries_of(event, search, unpaid),
        exclude=() if may_change else ("change",),
        empty_text=_nothing_found(search, unpaid),
    )
    RequestConfig(request, paginate={"per_page": 50}).configure(table)
    context = {"event": event, "table": table, "count": roster_count(event), "search": search, "unpaid": unpaid}
    return render(request, "roster/teams.html", context)


@allow(Can.MANAGE_TEAMS)
@require_http_methods(["GET", "HEAD", "POST"])
def teams_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Enter a team; the form comes again for the next one."""
    flights = flight_names(event)
    form = TeamForm(request.POST or None, event=event, flights=flights, initial={"boat": next_boat(event)})
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: services.enter_team(event, entry_values(data), by, contact_values(data))
    ):
        messages.info(request, _said("entered", form.kept))
        return redirect("roster:teams_new", event.slug)
    return render(request, "roster/team_new.html", {"event": event, "form": form, "count": roster_count(event)})


@allow(Can.MANAGE_TEAMS)
@require_http_methods(["GET", "HEAD", "POST"])
def team(request: HttpRequest, event: Event, **which: int) -> HttpResponse:
    """Change a team, or take it out while nothing is written of it; by its ``boat``, or by its key while it has none."""
    entry = Entry.everyone.prefetch_related("anglers").filter(event=event, **which).first()
    if entry is None:
        raise Http404(gettext("There is no such team in this event: search its list of teams."))
    by, act = request.user.get_username(), request.POST.get("act", "")
    form = TeamForm(
        request.POST if act == "change" else None,
        event=event,
        flights=flight_names(event),
        initial=TeamForm.written(entry),
    )
    remove = RemoveTeamForm(request.POST if act == "remove" else None)
    if act == "change" and form.attempt(
        lambda data: services.change_entry(entry, entry_values(data), by, contact_values(data))
    ):
        entry.boat, entry.name = form.cleaned_data["boat"], form.cleaned_data["name"]
        messages.info(request, _said("changed", entry))
        return redirect("roster:teams", event.slug)
    if act == "remove" and remove.attempt(lambda data: services.remove_entry(entry, by)):
        messages.info(request, _said("taken out", entry))
        return redirect("roster:teams", event.slug)
    return render(request, "roster/team.html", {"event": event, "entry": entry, "form": form, "remove": remove})


def _said(done: str, entry: Entry) -> str:
    """What is said of a team that was entered, changed or taken out."""
    words = {
        ("entered", False): gettext("Boat %(boat)s, %(name)s, is added."),
        ("entered", True): gettext("%(name)s is added and waits for a boat number."),
        ("changed", False): gettext("Boat %(boat)s, %(name)s, is saved."),
        ("changed", True): gettext("%(name)s is saved and waits for a boat number."),
        ("taken out", False): gettext("Boat %(boat)s, %(name)s, is removed."),
        ("taken out", True): gettext("%(name)s is removed."),
    }
    return words[done, entry.waits] % {"boat": entry.boat, "name": entry.name}


def _nothing_found(search: str, unpaid: bool) -> str:
    if search:
        return gettext("No boat, team, angler or flight matches '%(search)s'. Search for less.") % {"search": search}
    if unpaid:
        return gettext("Every entered team has paid.")
    return gettext("No team is entered yet.")
