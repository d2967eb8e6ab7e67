"""Keep what was made for one reader away from caches that serve others."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.utils.cache import patch_cache_control


class PrivatePagesMiddleware:
    """Middleware: a page that says nothing of caches is its reader's own, and asked for anew each time.

    Public pages say themselves how long they may be kept; so do static files, which never come this far.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if not response.has_header("Cache-Control"):
            patch_cache_control(response, private=True, no_cache=True)
        return response
