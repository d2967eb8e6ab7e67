"""The page for a request that cannot be read, or that asks for an address the site does not answer to."""

from django.core.exceptions import DisallowedHost
from django.http import HttpRequest, HttpResponseBadRequest
from django.template.loader import render_to_string


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponseBadRequest:
    """400; without the request in the template, since not even its host name may be believed."""
    return HttpResponseBadRequest(render_to_string("400.html", {"strange_host": isinstance(exception, DisallowedHost)}))
