"""The answer when something broke: 503 and what to do while the database does not work, else 500."""

import json
import sys

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.views.defaults import server_error

from weighin.ui.outages import RETRY_SECONDS, log_outage, outage_of

LINE = "The site's database does not work just now: keep what was not answered and send it again."


def broken(request: HttpRequest) -> HttpResponse:
    """Handler of 500, called while the exception is handled."""
    fault = sys.exc_info()[1]
    outage = outage_of(fault)
    if outage is None or fault is None:
        return server_error(request)
    if request.path.startswith("/api/"):
        answer = HttpResponse(json.dumps({"error": LINE}), content_type="application/json", status=503)
    else:
        # Nothing is asked of the database to say this, not even who is asking
        sent = request.method not in ("GET", "HEAD")
        answer = HttpResponse(render_to_string("503.html", {"sent": sent, "outage": outage.sentence}), status=503)
    answer["Retry-After"] = str(RETRY_SECONDS)
    answer["Cache-Control"] = "no-store"
    found = request.resolver_match
    log_outage(outage, f"{request.method} {found.view_name if found else request.path}", fault)
    answer._has_been_logged = True  # type: ignore[attr-defined]  # Django would add the traceback
    return answer
