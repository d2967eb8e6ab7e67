"""What stations ask of fish care over HTTP."""

from django.http import HttpRequest, HttpResponse

from weighin.fishcare.note_messages import NoteMessages
from weighin.scale.station import Caller, address_of, take_in


@address_of("POST", "care")
def care(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Take care notes in."""
    return take_in(request, caller, NoteMessages(), "notes")
