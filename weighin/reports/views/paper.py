"""Slips, boat cards, blank pads and the morning’s set to print."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.planning.pages.boat_cards import boat_cards as cards_of
from weighin.planning.pages.morning import morning_of
from weighin.planning.views.care_plan import care_plan_asked
from weighin.registration.domain.drawing import LAUNCH
from weighin.registration.queries.draws import standing_draw
from weighin.reports.views.files import download
from weighin.slips.models import WeighSlip
from weighin.slips.pages.printed_slips import printed_slips
from weighin.slips.queries.slips import slips as slips_of

if TYPE_CHECKING:
    from weighin.reports.writers.leaves.small_paper import Paper


@require_safe
@allow(Can.VIEW_EVENT)
def slip_print(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """One slip; ``?paper=`` says on what."""
    slip = slips_of(event).filter(number=number).first()
    if slip is None:
        raise Http404(gettext("There is no slip %(number)s in this event.") % {"number": number})
    return _slips(
        request,
        event,
        [slip],
        gettext("Slip %(number)s of %(name)s") % {"number": number, "name": event.name},
        f"slip-{number}",
    )


@require_safe
@allow(Can.VIEW_EVENT)
def day_slips(request: HttpRequest, event: Event) -> HttpResponse:
    """Every current slip of the day in ``?day=``, in the order of their numbers."""
    day = _day(request, event)
    slips = list(slips_of(event).current().filter(day=day).order_by("number"))
    if not slips:
        raise Http404(gettext("No slip of day %(day)s is saved yet: there is nothing to print.") % {"day": day})
    return _slips(
        request,
        event,
        slips,
        gettext("Slips of %(name)s, day %(day)s") % {"name": event.name, "day": day},
        f"slips-day-{day}",
    )


@require_safe
@allow(Can.VIEW_EVENT)
def boat_cards(request: HttpRequest, event: Event) -> HttpResponse:
    """A card for every entered boat, with the times of the day in ``?day=``."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.leaves.boat_card_pdf import cards_pdf

    day = _day(request, event)
    cards = cards_of(event, day, _site(request) + reverse("public:event", args=[event.slug]))
    if not cards:
        raise Http404(gettext("No team is entered yet: there is no card to print."))
    content = cards_pdf(
        gettext("Boat cards of %(name)s, day %(day)s") % {"name": event.name, "day": day}, cards, _paper(request)
    )
    return download(content, "application/pdf", f"{event.slug}-boat-cards-{day}.pdf")


@require_safe
@allow(Can.VIEW_EVENT)
def pad_print(request: HttpRequest, event: Event, pad_pk: int) -> HttpResponse:
    """The blank numbered slips of a pad."""
    from weighin.reports.writers.leaves.pad_pdf import pad_pdf

    pad = event.paper_pads.filter(pk=pad_pk).first()
    if pad is None:
        raise Http404(gettext("There are no such paper slips in this event."))
    return download(
        pad_pdf(event, pad, _paper(request, "letter-sheet")), "application/pdf", f"{event.slug}-pad-{pad.first}.pdf"
    )


@require_safe
@allow(Can.VIEW_EVENT)
def morning(request: HttpRequest, event: Event) -> HttpResponse:
    """All paper of the day in ``?day=`` as one PDF; the rest of the address is the care plan's, as its page has it."""
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.morning_pdf import morning_pdf

    day, form, care = care_plan_asked(request, event)
    faults = tuple((str(form[name].label), str(error)) for name in form.errors for error in form.errors[name])
    address = _site(request) + reverse("public:event", args=[event.slug])
    draw = standing_draw(event, LAUNCH)
    places = {row["entry"]: row["result"] for row in draw.order} if draw else {}
    content = morning_pdf(morning_of(event, day, address, places, care, faults), draw)
    return download(content, "application/pdf", f"{event.slug}-morning-{day.number}.pdf")


def _slips(request: HttpRequest, event: Event, slips: Iterable[WeighSlip], title: str, name: str) -> HttpResponse:
    from weighin.reports.writers.leaves.slip_pdf import slips_pdf

    content = slips_pdf(title, printed_slips(event, slips, _site(request)), _paper(request))
    return download(content, "application/pdf", f"{event.slug}-{name}.pdf")


def _paper(request: HttpRequest, usual: str = "quarter-letter") -> Paper:
    from weighin.reports.writers.leaves.small_paper import PAPERS

    asked = request.GET.get("paper", usual)
    if asked not in PAPERS:
        raise Http404(gettext("There is no such paper: choose %(papers)s.") % {"papers": ", ".join(PAPERS)})
    return PAPERS[asked]


def _day(request: HttpRequest, event: Event) -> int:
    asked = request.GET.get("day", "1")
    if not (asked.isascii() and asked.isdigit() and len(asked) < 4 and event.event_days.filter(number=asked).exists()):
        raise Http404(gettext("There is no such day in this event."))
    return int(asked)


def _site(request: HttpRequest) -> str:
    return f"{request.scheme}://{request.get_host()}"
