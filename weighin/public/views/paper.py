"""What directors take out of a posted or official result: a poster, certificates, a text for the press. No anglers."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import translation
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.public.pages.press import biggest, certificates_of, finding, placed, press_text, state_of
from weighin.standings.models import OfficialResult, Posting
from weighin.standings.queries.protests import latest_posting
from weighin.standings.queries.standings import official_results
from weighin.ui.codes import code, opens_only_here


@require_safe
@allow(Can.PUBLISH)
def poster(request: HttpRequest, event: Event) -> HttpResponse:
    """The result on a sheet for the board, with a code that opens its public page."""
    result = _latest(event)
    address = request.build_absolute_uri(reverse("public:event", args=[event.slug]))
    reached = event.is_public and not opens_only_here(request.get_host())
    more: dict[str, Any] = {"address": address, "code": code(address, gettext("The result")) if reached else ""}
    if result is not None:
        more |= {"finding": finding(event, result), "stands": state_of(result), "places": placed(event, result)}
        more["biggest"] = biggest(event, result.document["standings"])
    return _page(request, event, result, "poster", more)


@require_safe
@allow(Can.PUBLISH)
def certificates(request: HttpRequest, event: Event) -> HttpResponse:
    """A sheet for each team in the first three places, and for the big fish."""
    result = _latest(event)
    found = [] if result is None else certificates_of(event, result)
    return _page(request, event, result, "certificates", {"certificates": found})


@require_safe
@allow(Can.PUBLISH)
def press(request: HttpRequest, event: Event) -> HttpResponse:
    """The result as a text to copy, in the club's language."""
    result = _latest(event)
    with translation.override(event.club.language):
        text = "" if result is None else press_text(event, result)
    return _page(request, event, result, "press", {"text": text})


def _latest(event: Event) -> OfficialResult | Posting | None:
    return next(iter(official_results(event)), None) or latest_posting(event)


def _page(
    request: HttpRequest, event: Event, result: OfficialResult | Posting | None, name: str, more: dict[str, Any]
) -> HttpResponse:
    return render(request, f"public/paper/{name}.html", {"event": event, "result": result, **more})
