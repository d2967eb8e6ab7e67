"""Help in place: the words of the trade, the way to a first event, and the addresses for programs."""

from functools import partial

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club, cans_in
from weighin.clubs.models import Club
from weighin.public.access import shown
from weighin.public.pages.first_event import steps_for_all, steps_of
from weighin.public.pages.glossary import GROUPS
from weighin.public.pages.programs import for_tablets, open_to_all
from weighin.ui.kept import State


@require_safe
def glossary(request: HttpRequest) -> HttpResponse:
    """What the words of the trade mean."""
    return _kept(request, "public/help/glossary.html", {"groups": GROUPS})


@require_safe
def programs(request: HttpRequest) -> HttpResponse:
    """The addresses for programs, for people."""
    return _kept(request, "public/help/programs.html", {"open": open_to_all(), "tablets": for_tablets()})


@require_safe
def first_event(request: HttpRequest) -> HttpResponse:
    """The steps from an account to a published result."""
    return _kept(request, "public/help/first_event.html", {"steps": steps_for_all()})


@require_safe
@allow_in_club(Can.VIEW_EVENT)
def club_first_event(request: HttpRequest, club: Club) -> HttpResponse:
    """The same for a club, with what is done."""
    steps, event = steps_of(club, cans_in(request.user, club))
    context = {
        "club": club,
        "steps": steps,
        "of_event": event,
        "done": sum(step.state == "done" for step in steps),
        "next": next((step for step in steps if step.state == "next"), None),
    }
    return render(request, "public/help/club_first_event.html", context)


def _kept(request: HttpRequest, template_name: str, context: dict[str, object]) -> HttpResponse:
    """A page that stays as it is until the next version of the site."""

    def view(request: HttpRequest) -> HttpResponse:
        return render(request, template_name, context)

    return shown(request, partial(State, "this version"), view, request.build_absolute_uri("/"))
