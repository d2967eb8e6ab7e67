"""The language of an answer: chosen on a page just now or earlier in this browser, else what it asks for first, else English."""

import re
from collections.abc import Callable
from http.cookies import CookieError, SimpleCookie

from django.conf import settings
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.utils import translation
from django.utils.cache import patch_vary_headers

# Files that programs read, and that are brought in again: their headings and words are the same for everybody
FILES = re.compile(r"[./](?:csv|json|xlsx|zip|ics)/?$")
CHOSEN = "language"  # the word in an address by which a page is asked for in a language, which then stays chosen
A_YEAR = 365 * 24 * 60 * 60  # seconds


def language_of(cookies: str, asked: str) -> str:
    """The language for a browser with these ``Cookie`` and ``Accept-Language`` headers.

    Only the first language that it asks for counts, as in the example for nginx, whose kept pages go by the same.
    """
    name = settings.LANGUAGE_COOKIE_NAME
    try:
        kept = SimpleCookie(cookies).get(name) if name in cookies else None
    except CookieError:
        kept = None
    return _ours(kept.value if kept else "") or _ours(asked.strip()[:2].lower()) or settings.LANGUAGE_CODE


def _ours(language: str) -> str:
    return language if language and language in dict(settings.LANGUAGES) else ""


class LanguageMiddleware:
    """Middleware: everything below it speaks the reader's language; pages say that they depend on it."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        chosen = _ours(request.GET.get(CHOSEN, "")) if CHOSEN in request.META.get("QUERY_STRING", "") else ""
        language = chosen or language_of(
            request.META.get("HTTP_COOKIE", ""), request.META.get("HTTP_ACCEPT_LANGUAGE", "")
        )
        with translation.override(settings.LANGUAGE_CODE if FILES.search(request.path) else language):
            response = self.get_response(request)
        if chosen:
            response.set_cookie(settings.LANGUAGE_COOKIE_NAME, chosen, max_age=A_YEAR, samesite="Lax", httponly=True)
        if response.get("Content-Type", "").startswith("text/html"):
            patch_vary_headers(response, ("Accept-Language", "Cookie"))
        return response
