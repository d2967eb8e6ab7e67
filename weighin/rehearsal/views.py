"""The rehearsal of an event: begin it, watch it, stop it, wipe it."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.rehearsal.forms import BeginForm
from weighin.rehearsal.pages import page_of
from weighin.rehearsal.services.copying import make_rehearsal
from weighin.rehearsal.services.running import begin_in_background, stop_rehearsal
from weighin.rehearsal.services.wiping import wipe_rehearsal
from weighin.rules.faults import Faults
from weighin.ui.forms.service import sentence


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def rehearsal(request: HttpRequest, event: Event) -> HttpResponse:
    """Where the rehearsal stands, and the form that begins it."""
    if event.rehearsal_of is not None:
        return redirect("rehearsal:rehearsal", event.rehearsal_of.slug)
    page = page_of(event)
    form = BeginForm(request.POST or None, initial={"boats": page.teams or 12})
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda said: make_rehearsal(event, by, **said)):
        begin_in_background(form.kept)
        return redirect("rehearsal:rehearsal", event.slug)
    return render(request, "rehearsal/rehearsal.html", {"event": event, "page": page, "form": form})


@require_safe
@allow(Can.MANAGE_EVENT)
def part(request: HttpRequest, event: Event) -> HttpResponse:
    """What changes on the page while boats come in."""
    return render(request, "rehearsal/part.html", {"event": event, "page": page_of(event)})


@require_POST
@allow(Can.MANAGE_EVENT)
def stop(request: HttpRequest, event: Event) -> HttpResponse:
    """Let no more boats come in."""
    stop_rehearsal(event)
    messages.info(request, gettext("No more boats come in. What is saved stays until you wipe it."))
    return redirect("rehearsal:rehearsal", event.slug)


@require_POST
@allow(Can.MANAGE_EVENT)
def wipe(request: HttpRequest, event: Event) -> HttpResponse:
    """Wipe it, with all that was written in it."""
    try:
        wipe_rehearsal(event, request.user.get_username())
    except Faults as faults:
        messages.error(request, sentence(faults.faults[0].message))
    else:
        messages.info(request, gettext("The rehearsal is wiped. %(event)s is as it was.") % {"event": event.name})
    return redirect("rehearsal:rehearsal", event.slug)
