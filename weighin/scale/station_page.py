"""The page of an event's stations: pair one, see what each may do and when it last wrote, withdraw one."""

import io
from dataclasses import dataclass
from datetime import datetime, timedelta

import segno
from django.contrib import messages
from django.db.models import Max
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_http_methods

from weighin.accounts.roles import Can
from weighin.events.access import allow
from weighin.events.calendar import Calendar
from weighin.events.models import Event
from weighin.events.queries import calendar_of
from weighin.scale import stations
from weighin.scale.models import CheckIn, Station, WeighSlip
from weighin.scale.station_forms import StationForm, WithdrawForm

# The page that each thing is done on, at the addresses a token opens; a roll is kept by members who sign in.
PAGES = (("weigh", "scale:paired_table", "the scale table"), ("care", "fishcare:paired_ramp", "the ramp"))
HERE_ONLY = ("localhost", "127.0.0.1", "[::1]")


@dataclass(frozen=True)
class Row:
    """A station as the page shows it."""

    station: Station
    can: str
    made: str
    heard: str
    clock: str
    withdrawn: str


@dataclass(frozen=True)
class Address:
    """The page a station is opened on, its token in the address, and the code of that."""

    words: str
    address: str
    code: SafeString


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
@sensitive_variables("token", "addresses")
def stations_page(request: HttpRequest, event: Event) -> HttpResponse:
    """Every station; a POST makes one and shows its code this once, or withdraws one."""
    by, act = request.user.get_username(), request.POST.get("act", "")
    form = StationForm(request.POST if act == "make" else None)
    gone = WithdrawForm(request.POST if act == "withdraw" else None)
    if act == "withdraw" and gone.attempt(lambda data: stations.withdraw_station(event, data["name"], by)):
        messages.info(request, f"{gone.cleaned_data['name']} is withdrawn: its token is dead from now on.")
        return redirect("scale:stations", event.slug)
    station, token, addresses = None, "", []
    if act == "make" and form.attempt(lambda data: stations.make_station(event, data["name"], data["can"], by)):
        station, token = form.kept
        addresses = addresses_of(request, event, station, token)
    host = request.get_host()
    context = {
        "event": event,
        "form": StationForm() if station else form,
        "gone": gone,
        "station": station,
        "token": token,
        "addresses": addresses,
        "rows": rows(event),
        "host": host,
        "here_only": host.rsplit(":", 1)[0] in HERE_ONLY or host in HERE_ONLY,
    }
    return render(request, "scale/stations/stations.html", context)


def addresses_of(request: HttpRequest, event: Event, station: Station, token: str) -> list[Address]:
    """The pages this station may open, each with its token behind the # that no server is sent."""
    site = f"{request.scheme}://{request.get_host()}"
    found = []
    for can, page, words in PAGES:
        if can in station.cans:
            address = f"{site}{reverse(page, args=[event.slug])}#{token}"
            found.append(Address(words, address, qr_code(address)))
    return found


def qr_code(text: str) -> SafeString:
    """A QR code as SVG without inline style, black on white with its quiet zone, in any light."""
    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(
        out,
        kind="svg",
        xmldecl=False,
        svgns=False,
        omitsize=True,
        light="#fff",
        dark="#000",
        svgclass="qr",
        lineclass=None,
    )
    return mark_safe(out.getvalue().decode())  # noqa: S308 - segno writes figures and our two colours only


def rows(event: Event) -> list[Row]:
    """Every station, live ones first, with the last thing it wrote; the same number of queries for one and for many."""
    calendar = calendar_of(event)
    found = sorted(event.stations.all(), key=lambda s: (s.withdrawn_at is not None, s.name, s.made_at))
    heard: dict[str, tuple[datetime, timedelta | None]] = {}
    for model in (WeighSlip, CheckIn):
        of = model.objects.filter(event=event, recorded_by__startswith="station ")
        last = of.values("recorded_by").annotate(last=Max("received_at")).values("last")
        for item in of.filter(received_at__in=last):
            name = item.recorded_by.removeprefix("station ")
            if name not in heard or heard[name][0] < item.received_at:
                heard[name] = (item.received_at, item.clock_off)
    return [_row(station, heard, calendar) for station in found]


def _row(station: Station, heard: dict[str, tuple[datetime, timedelta | None]], calendar: Calendar) -> Row:
    at, off = heard.get(station.name, (None, None))
    if at is None or at < station.made_at or (station.withdrawn_at and at > station.withdrawn_at):
        at = off = None  # another station of the same name wrote that
    clock = ""
    if off is not None:
        clock = f"its clock was {abs(off).total_seconds() / 60:.0f} min {'ahead' if off > timedelta(0) else 'behind'}"
    gone = station.withdrawn_at
    return Row(
        station=station,
        can=", ".join(words for one, words in stations.CANS.items() if one in station.cans),
        made=f"{_when(station.made_at, calendar)}, by {station.made_by}",
        heard=_when(at, calendar) if at else "no slip or check-in yet",
        clock=clock,
        withdrawn=f"withdrawn {_when(gone, calendar)}, by {station.withdrawn_by}" if gone else "",
    )


def _when(moment: datetime, calendar: Calendar) -> str:
    local = moment.astimezone(calendar.zone)
    return f"{local.day} {local:%b, %H:%M}"
