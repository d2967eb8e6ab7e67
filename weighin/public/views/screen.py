"""The big screen at the ramp, and the same for the crowd's phones."""

from typing import Any
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.cache import patch_cache_control
from django.views.decorators.http import condition, require_safe

from weighin.events.access import find_public, public
from weighin.events.models import Event
from weighin.line.queries import line_of
from weighin.public.pages.screen import screen_of
from weighin.public.views.events import revision_tag
from weighin.standings.queries.embargo import embargo_start

DUSK, DAWN = 20, 6  # hours at the lake between which the screen is dark


def _tag(request: HttpRequest, event_slug: str) -> str | None:
    event = find_public(event_slug)
    if event is None:
        return None
    line = line_of(event, as_of=embargo_start(event))
    stand = [(one.boat, one.place) for one in (*line.with_bag, *line.waiting)]
    return revision_tag(event, request.get_full_path(), line.day, stand, line.hold is not None, _light(request, event))


@require_safe
@condition(etag_func=_tag)
@public
def screen(request: HttpRequest, event: Event) -> HttpResponse:
    """Two whole screens in turn: who leads and who is called; what is told of fish and minutes."""
    return _shown(request, event, "public/screen.html")


@require_safe
@condition(etag_func=_tag)
@public
def crowd(request: HttpRequest, event: Event) -> HttpResponse:
    """The same for a phone, one under the other."""
    return _shown(request, event, "public/crowd.html")


def _shown(request: HttpRequest, event: Event, template: str) -> HttpResponse:
    now = timezone.now()
    context: dict[str, Any] = {
        "event": event,
        "screen": screen_of(event),
        "unit": event.weight_unit,
        "now": now,
        "light": _light(request, event),
        "asked": request.get_full_path(),
    }
    response = render(request, template, context)
    patch_cache_control(response, no_cache=True)
    return response


def _light(request: HttpRequest, event: Event) -> str:
    """``night`` or ``sun``: as the address asks, else by the hour at the lake."""
    asked = request.GET.get("light", "")
    if asked in ("night", "sun"):
        return asked
    hour = timezone.now().astimezone(ZoneInfo(event.time_zone)).hour
    return "night" if hour >= DUSK or hour < DAWN else "sun"
