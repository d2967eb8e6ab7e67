"""The page of paper pads: what was handed out, what became of each number, and which are missing."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in, require
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.slips.domain.paper import number_of
from weighin.slips.forms.pads import PadForm, TakeBackForm, UnusedForm
from weighin.slips.queries.pads import pads_of, slip_numbers
from weighin.slips.services import pads as services


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.VIEW_EVENT)
def pads(request: HttpRequest, event: Event) -> HttpResponse:
    """The pads; a POST hands one out, says what became of numbers, or takes that back."""
    if request.method == "POST":
        require(request.user, event.club, Can.RECORD_SLIP)
    by, act = request.user.get_username(), request.POST.get("act", "")
    pad = PadForm(request.POST if act == "hand-out" else None)
    unused = UnusedForm(request.POST if act == "unused" else None)
    back = TakeBackForm(request.POST if act == "take-back" else None)
    done = ""
    if act == "hand-out" and pad.attempt(lambda data: services.hand_out(event, **data, by=by)):
        done = gettext("Paper slips %(name)s added: print them, or number your own.") % {"name": pad.kept.name}
    elif act == "unused" and unused.attempt(lambda data: services.say_unused(event, **data, by=by)):
        done = gettext("Saved.")
    elif act == "take-back" and back.attempt(
        lambda data: services.take_back(event, number_of(data["number"]), data["reason"], by)
    ):
        done = gettext("Voided: the number is missing again.")
    if done:
        messages.info(request, done)
        return redirect("slips:pads", event.slug)
    states = pads_of(event)
    slips = slip_numbers(event, [row for state in states for row in state.said])
    context = {
        "event": event,
        "states": [(state, [(row, slips.get(row.number)) for row in state.said]) for state in states],
        "missing": sum(len(state.missing) for state in states),
        "may_write": can_in(request.user, event.club, Can.RECORD_SLIP),
        "pad": pad,
        "unused": unused,
        "back": back,
    }
    return render(request, "slips/pads.html", context)
