"""The proof of a result, and the page that checks it in the reader's browser."""

import json
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.events.access import public
from weighin.events.models import Event
from weighin.proof.pages.checking import check_script, saved_page
from weighin.proof.queries.document import proof_document
from weighin.public.access import QUARTER, kept, shown
from weighin.standings.queries.embargo import embargo_start
from weighin.ui.codes import code
from weighin.ui.kept import State


def _proof(event: Event) -> dict[str, Any]:
    """The event's proof. Raises Http404 while places are held back: it would tell them."""
    if embargo_start(event) is not None:
        raise Http404(gettext("Places are held back: the proof is published with the result."))
    return proof_document(event)


@require_safe
@kept(QUARTER)
@public
def api_proof(request: HttpRequest, event: Event) -> HttpResponse:
    """Everything from which the result can be worked out again, and the result."""
    return HttpResponse(json.dumps(_proof(event), ensure_ascii=False).encode(), content_type="application/json")


@require_safe
@kept()
@public
def check(request: HttpRequest, event: Event) -> HttpResponse:
    """The page with the event's proof in it; while places are held back without one."""
    held = embargo_start(event)
    return render(
        request, "public/check.html", {"event": event, "held": held, "proof": None if held else proof_document(event)}
    )


@require_safe
@kept(QUARTER)
@public
def check_to_save(request: HttpRequest, event: Event) -> HttpResponse:
    """The same as one file that works without a network."""
    name = f"{event.slug}-check.html"
    return HttpResponse(saved_page(_proof(event)), headers={"Content-Disposition": f'attachment; filename="{name}"'})


@require_safe
@public
def check_code(request: HttpRequest, event: Event) -> HttpResponse:
    """The code that stands on a printed result: it opens the page that checks it, by the address that was asked here."""
    address = request.build_absolute_uri(reverse("public:check", args=[event.slug]))
    drawn = code(address, gettext("Check this result")).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return HttpResponse(drawn, content_type="image/svg+xml", headers={"Cache-Control": "no-cache"})


@require_safe
def script(request: HttpRequest) -> HttpResponse:
    """The page's script: one classic file, which Node runs too."""
    return shown(request, lambda: State("this version"), _script)


def _script(request: HttpRequest) -> HttpResponse:
    return HttpResponse(check_script().encode(), content_type="text/javascript; charset=utf-8")
