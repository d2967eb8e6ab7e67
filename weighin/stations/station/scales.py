"""What tablets and ``read_scale`` ask and tell about scales, in JSON."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.templatetags.static import static
from django.utils import timezone

from weighin.events.models import Event
from weighin.records.parsing.json_body import read_body
from weighin.rules.faults import Faults
from weighin.scales.domain.layouts import KEY, as_data, layout_of
from weighin.scales.domain.reading import Reading, why_not
from weighin.scales.models import Scale, ScaleNow
from weighin.scales.queries import scales_of
from weighin.scales.services.readings import SCALE_READING, age_seconds, update_status
from weighin.stations.station.shell import Caller, Refused, address_of, body_of, in_json, take_in
from weighin.ui.modules import files_of

# What the tablet's page needs to read a scale, and fetches only where the event has one that speaks
READER = "scales/port"
_LAST_SIGNED: dict[tuple[int, str], int] = {}
NEVER_KEPT = {"Cache-Control": "no-store"}


@address_of("GET", "weigh")
def scales(request: HttpRequest, caller: Caller) -> HttpResponse:
    """The event's scales: how each speaks, and the last word of each."""
    event = Event.everyone.get(pk=caller.event_id)
    found = [told(scale, event) for scale in scales_of(event)]
    scripts = [static(file) for file in files_of(READER) if file not in files_of("table/page")]
    return in_json({"unit": event.weight_unit, "scales": found, "scripts": scripts}, NEVER_KEPT)


@address_of("POST", "weigh")
def scales_now(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Take the last word of scales in; one that was signed before another is no news any more."""
    if caller.signed_at is not None:
        who = (caller.event_id, caller.sender.name)
        if caller.signed_at < _LAST_SIGNED.get(who, 0):
            raise Refused(
                401, "This was signed before another that came first: a scale's last word is taken only anew."
            )
        _LAST_SIGNED[who] = caller.signed_at
    items, _ = read_body(body_of(request), "now")
    return in_json({"now": update_status(caller.event_id, items, caller.sender)}, NEVER_KEPT)


@address_of("POST", "weigh")
def readings(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Keep the readings that went into slips."""
    return take_in(request, caller, SCALE_READING, "readings")


def told(scale: Scale, event: Event) -> dict[str, Any]:
    """A scale in plain JSON values; ``layout`` is null when nobody said how it speaks."""
    return {
        "name": scale.name,
        "unit": scale.unit,
        "division": scale.division,
        "in_use": scale.in_use,
        "layout": _layout(scale),
        "port": {
            "baud": scale.baud,
            "data_bits": scale.data_bits,
            "parity": scale.parity,
            "stop_bits": scale.stop_bits,
            "ask": "" if scale.ask == KEY else scale.ask,
            "once": scale.ask == KEY,
        },
        "now": _now(scale, event),
    }


def _layout(scale: Scale) -> dict[str, object] | None:
    try:
        return as_data(layout_of(scale.layout, scale.pattern)) if scale.layout else None
    except Faults:
        return None


def _now(scale: Scale, event: Event) -> dict[str, Any] | None:
    now: ScaleNow | None = getattr(scale, "now", None)
    if now is None:
        return None
    sign, digits = ("-", now.text[1:]) if now.text.startswith("-") else ("", now.text)
    reading = Reading(sign, digits, now.unit, now.state, now.raw)
    return {
        "state": now.state,
        "text": now.text,
        "unit": now.unit,
        "raw": now.raw,
        "age_seconds": age_seconds(now, timezone.now()),
        "why": why_not(reading, event.weight_unit),
    }
