"""Make a station and show its code once; withdraw one."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.cache import add_never_cache_headers
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.stations.forms import StationForm
from weighin.stations.models import Station
from weighin.stations.queries.stations import station_rows
from weighin.stations.services.stations import make_station, withdraw_station
from weighin.ui.codes import code, opens_only_here
from weighin.ui.forms.service import sentence

# What a station that may do this opens; check-ins are for scripts and members, who have the roll
if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

PAGES = {
    "weigh": (gettext_lazy("the scale table"), "stations:paired_table"),
    "care": (gettext_lazy("boat checks and care notes"), "care:paired_ramp"),
}


@dataclass(frozen=True)
class Opened:
    """A page that the new station opens: its address with the token behind the #, and the address as a code."""

    words: "StrOrPromise"
    address: str
    code: SafeString


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
@sensitive_variables("token", "made", "opened", "context")
def stations(request: HttpRequest, event: Event) -> HttpResponse:
    """The event's stations; a post makes one and shows its token, this once and on no other page."""
    form = StationForm(request.POST or None)
    opened: list[Opened] = []
    made, token = None, ""
    if request.method == "POST" and form.attempt(
        lambda given: make_station(event, given["name"], given["can"], request.user.get_username())
    ):
        made, token = form.kept
        opened = [_opened(request, event, one, token) for one in PAGES if one in made.cans]
        form = StationForm()
    rows = station_rows(event)
    context: dict[str, Any] = {
        "event": event,
        "form": form,
        "rows": rows,
        "live": sum(row.live for row in rows),
        "made": made,
        "token": token,
        "opened": opened,
        "plain": not request.is_secure(),
        "only_here": opens_only_here(request.get_host()),
    }
    response = render(request, "stations/stations.html", context)
    add_never_cache_headers(response)
    return response


@require_POST
@allow(Can.MANAGE_EVENT)
def station_withdraw(request: HttpRequest, event: Event, station_pk: int) -> HttpResponse:
    """Take a station's token back: it is dead at the next request."""
    station = Station.objects.filter(event=event, pk=station_pk, withdrawn_at__isnull=True).first()
    if station is None:
        messages.warning(request, gettext("That tablet is withdrawn already."))
    else:
        try:
            withdraw_station(event, station.name, request.user.get_username())
            messages.success(
                request,
                gettext(
                    "%(name)s is withdrawn: its token no longer works. What the tablet has not sent yet stays on it."
                )
                % {"name": station.name},
            )
        except Faults as faults:
            messages.warning(
                request,
                sentence(faults.faults[0].message),
            )
    return redirect("stations:stations", event.slug)


def _opened(request: HttpRequest, event: Event, can: str, token: str) -> Opened:
    words, page = PAGES[can]
    address = request.build_absolute_uri(reverse(page, args=(event.slug,))) + f"#{token}"
    return Opened(words, address, code(address, gettext("Code of the address of %(words)s") % {"words": words}))
