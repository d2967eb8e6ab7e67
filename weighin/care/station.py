"""What stations ask of fish care over HTTP."""

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.utils.cache import get_conditional_response

from weighin.care.pages.ramp import ramp_document
from weighin.care.services.notes import SENT_NOTE
from weighin.events.access import find
from weighin.stations.station.shell import Caller, address_of, document_tag, take_in


@address_of("POST", "care")
def care(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Take care notes in."""
    return take_in(request, caller, SENT_NOTE, "notes")


@address_of("GET", "care")
def ramp(request: HttpRequest, caller: Caller) -> HttpResponseBase:
    """Everything a phone at the ramp needs to work alone for a day; 304 while nothing changed."""
    event = find(caller.event_slug)
    assert event is not None
    tag = document_tag(event, caller.sender)
    unchanged = get_conditional_response(request, etag=tag)
    if unchanged is not None:
        return unchanged
    headers = {"Cache-Control": "private, no-cache", "ETag": tag}
    return JsonResponse(ramp_document(event, caller.sender), headers=headers, json_dumps_params={"ensure_ascii": False})
