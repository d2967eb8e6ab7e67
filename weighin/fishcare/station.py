"""What stations ask of fish care over HTTP."""

from hashlib import sha256

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.utils.cache import get_conditional_response

from weighin.events.access import find
from weighin.fishcare.note_messages import NoteMessages
from weighin.fishcare.ramp.queries import ramp_document
from weighin.scale.station import Caller, address_of, take_in

FORM = "1"  # goes up when the document changes its form


@address_of("POST", "care")
def care(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Take care notes in."""
    return take_in(request, caller, NoteMessages(), "notes")


@address_of("GET", "care")
def ramp(request: HttpRequest, caller: Caller) -> HttpResponseBase:
    """Everything a phone at the ramp needs to work alone for a day; 304 while nothing changed."""
    event = find(caller.event_slug)
    assert event is not None
    names = (event.name, event.club.name, event.water.name, caller.sender.name, *sorted(caller.sender.cans))
    known = "\n".join((FORM, str(event.pk), str(event.revision), *names))
    tag = f'W/"{sha256(known.encode()).hexdigest()[:24]}"'  # weak: the answer also tells the time
    unchanged = get_conditional_response(request, etag=tag)
    if unchanged is not None:
        return unchanged
    headers = {"Cache-Control": "private, no-cache", "ETag": tag}
    return JsonResponse(ramp_document(event, caller.sender), headers=headers, json_dumps_params={"ensure_ascii": False})
