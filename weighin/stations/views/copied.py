"""Slips copied off a tablet that had to be given up."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.stations.forms import CopiedForm
from weighin.stations.queries.senders import sender_of
from weighin.stations.services.copied import take_copied


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.RECORD_SLIP)
def slips_copied(request: HttpRequest, event: Event) -> HttpResponse:
    """Slips of a tablet that had to be given up, entered from the text that it shows."""
    form = CopiedForm(request.POST or None)
    sender = sender_of(request.user, event)
    taken = None
    if request.method == "POST" and form.attempt(lambda data: take_copied(event, data["text"], sender)):
        taken = form.kept
        if all(one.answer.state in ("kept", "already") for one in taken):
            form = CopiedForm()
    return render(request, "stations/slips_copied.html", {"event": event, "form": form, "taken": taken})
