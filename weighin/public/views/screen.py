"""The big screen at the ramp, and the same for the crowd's phones."""

from typing import Any
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from weighin.events.access import public
from weighin.events.models import Event
from weighin.public.access import kept
from weighin.public.pages.screen import screen_of

DUSK, DAWN = 20, 6  # hours at the lake between which the screen is dark


def _is_light(text: str) -> bool:
    return text in ("night", "sun")


@require_safe
@kept(light=_is_light)
@public
def screen(request: HttpRequest, event: Event) -> HttpResponse:
    """Two whole screens in turn: who leads and who is called; what is told of fish and minutes."""
    return _shown(request, event, "public/screen.html")


@require_safe
@kept(light=_is_light)
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
    return render(request, template, context)


def _light(request: HttpRequest, event: Event) -> str:
    """``night`` or ``sun``: as the address asks, else by the hour at the lake."""
    asked = request.GET.get("light", "")
    if _is_light(asked):
        return asked
    hour = timezone.now().astimezone(ZoneInfo(event.time_zone)).hour
    return "night" if hour >= DUSK or hour < DAWN else "sun"
