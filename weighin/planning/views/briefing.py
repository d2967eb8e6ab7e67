"""The briefing as a page for members."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.planning.domain.briefing import Briefing
from weighin.planning.pages.briefing import briefing_of


@require_safe
@allow(Can.VIEW_EVENT)
def briefing(request: HttpRequest, event: Event) -> HttpResponse:
    """The briefing of a day, with the permit that the public page leaves out."""
    return render(request, "planning/briefing/event.html", {"event": event, "briefing": briefing_asked(request, event)})


def briefing_asked(request: HttpRequest, event: Event) -> Briefing:
    """The briefing of the day in ``?day=``, else of the first. Raises Http404 when there is no such day to brief for."""
    asked = request.GET.get("day", "")
    found = briefing_of(event, int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 4 else None)
    if found is None:
        raise Http404(
            gettext("There is no such day to brief for: it was cancelled, or the event has none of that number.")
        )
    return found
