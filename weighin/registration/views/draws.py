"""Draws: the page on which they are made and voided, and the launch sheet."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_POST, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.registration.domain.drawing import PURPOSES
from weighin.registration.forms.draws import DrawForm, VoidForm
from weighin.registration.models import Draw
from weighin.registration.pages.draws import launch_sheet, sections_of
from weighin.registration.queries.draws import are_shown, entries_closed
from weighin.registration.services.draws import draw, draw_anew, show_draws, void_draw


@require_safe
@allow(Can.VIEW_EVENT)
def draws(request: HttpRequest, event: Event) -> HttpResponse:
    """Every draw of the event: what stands, what was voided, what can be drawn."""
    return _page(request, event)


@require_safe
@allow(Can.VIEW_EVENT)
def sheet(request: HttpRequest, event: Event) -> HttpResponse:
    """The launch sheet, to print."""
    return render(request, "registration/sheet.html", {"event": event, "sheet": launch_sheet(event)})


@allow(Can.MANAGE_TEAMS)
@require_POST
def draw_now(request: HttpRequest, event: Event, purpose: str) -> HttpResponse:
    """Draw what the address says."""
    form, by = DrawForm(_known(purpose), request.POST), request.user.get_username()
    if form.attempt(lambda said: draw(event, purpose, by, said["seed"], said.get("way") or Draw.Way.SEED)):
        messages.info(request, gettext("%(purpose)s: drawn.") % {"purpose": Draw.Purpose(purpose).label})
        return redirect("registration:draws", event.slug)
    return _page(request, event, form)


@allow(Can.MANAGE_TEAMS)
@require_POST
def void(request: HttpRequest, event: Event, purpose: str) -> HttpResponse:
    """Void a draw; with a new seed it is drawn anew."""
    form, by = VoidForm(_known(purpose), request.POST), request.user.get_username()

    def done(said: dict[str, str]) -> Draw:
        if said["seed"]:
            return draw_anew(event, purpose, by, said["reason"], said["seed"])
        return void_draw(event, purpose, by, said["reason"])

    if form.attempt(done):
        said = gettext("%(purpose)s: drawn again.") if form.cleaned_data["seed"] else gettext("%(purpose)s: voided.")
        messages.info(request, said % {"purpose": Draw.Purpose(purpose).label})
        return redirect("registration:draws", event.slug)
    return _page(request, event, form)


@allow(Can.PUBLISH)
@require_POST
def show(request: HttpRequest, event: Event) -> HttpResponse:
    """Show the draws to the public, or not any more."""
    show_draws(event, request.POST.get("shown") == "yes", request.user.get_username())
    return redirect("registration:draws", event.slug)


def _known(purpose: str) -> str:
    if purpose not in PURPOSES:
        raise Http404(gettext("There is no such draw."))
    return purpose


def _page(request: HttpRequest, event: Event, bound: DrawForm | VoidForm | None = None) -> HttpResponse:
    sections = sections_of(event, bound)
    context = {
        "event": event,
        "sections": sections,
        "drawn": [section for section in sections if section.standing],
        "closed": entries_closed(event),
        "shown": are_shown(event),
    }
    return render(request, "registration/draws.html", context)
