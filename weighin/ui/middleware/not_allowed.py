"""An address that only takes forms, opened as a page: it says so and leads back."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import is_valid_path


class NotAllowedMiddleware:
    """Middleware: a person's browser gets a page with a 405; programs keep the bare answer."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if response.status_code != 405 or response.content or "text/html" not in request.headers.get("Accept", ""):
            return response
        page = render(request, "405.html", {"back": _back(request)}, status=405)
        page["Allow"] = response.headers.get("Allow", "")
        return page


def _back(request: HttpRequest) -> str:
    """The nearest page above the address, where its form stands: ``/events/x/line/say/`` leads to ``/events/x/line/``."""
    parts = request.path.strip("/").split("/")[:-1]
    while parts:
        above = f"/{'/'.join(parts)}/"
        if is_valid_path(above):
            return above
        parts.pop()
    return "/"
