"""Where a boat's slip and its check-in say other times: let one of them count."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_POST

from weighin.accounts.domain.roles import Can
from weighin.checkin.forms import SettleTimeForm, WordForm
from weighin.checkin.views import boat_context, boat_of
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.slips.services import settling


@require_POST
@allow(Can.CORRECT_SLIP)
def roll_settle(request: HttpRequest, event: Event, day: int, boat: int) -> HttpResponse:
    """Slip and check-in say other times: one of them counts, with the reason."""
    found = boat_of(event, day, boat)
    form, counts = SettleTimeForm(request.POST), request.POST.get("counts", "")
    by, official = request.user.get_username(), str(request.user)
    if form.attempt(lambda data: settling.settle_time(event, day, boat, counts, data["reason"], by, official)):
        said = gettext("Boat %(boat)s: the time of the check-in counts.")
        if counts == "slip":
            said = gettext("Boat %(boat)s: the time of the slip counts.")
        messages.info(request, said % {"boat": boat})
        return redirect("checkin:roll_boat", event.slug, day, boat)
    first = WordForm(initial={"official": official})
    return render(request, "checkin/roll_boat.html", {**boat_context(request, event, found, first), "settle": form})
