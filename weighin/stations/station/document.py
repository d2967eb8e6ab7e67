"""Everything a tablet needs to work alone for a day."""

from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.utils.cache import get_conditional_response

from weighin.events.access import find
from weighin.stations.queries.changes import tablet_changes
from weighin.stations.queries.document import tablet_document
from weighin.stations.station.shell import Caller, address_of, document_tag, in_json


@address_of("GET", None)
def station(request: HttpRequest, caller: Caller) -> HttpResponseBase:
    """Everything a tablet needs to work alone for a day, or what it has not had ``since``; 304 while nothing changed."""
    event = find(caller.event_slug)
    assert event is not None
    tag = document_tag(event, caller.sender)
    unchanged = get_conditional_response(request, etag=tag)
    if unchanged is not None:
        return unchanged
    since = request.GET.get("since")  # empty: from the beginning
    told = (
        tablet_document(event, caller.sender, caller.sees)
        if since is None
        else tablet_changes(event, caller.sender, caller.sees, since)
    )
    return in_json(told, {"Cache-Control": "private, no-cache", "ETag": tag})
