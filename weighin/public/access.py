"""Public pages: the same for everybody, made once as if nobody in particular had asked, kept, and shown to all."""

import re
from collections.abc import Callable
from functools import partial, wraps
from hashlib import sha256
from io import BytesIO
from typing import Any

from django.contrib.auth.models import AnonymousUser
from django.core.handlers.wsgi import WSGIRequest
from django.http import HttpRequest, HttpResponse, QueryDict
from django.utils.cache import get_conditional_response, patch_cache_control
from django.utils.translation import get_language

from weighin.standings.queries.shown import state_of_event
from weighin.ui.kept import KEEPER, Page, State

View = Callable[..., HttpResponse]
MINUTE, QUARTER = 60, 15 * 60  # seconds; every date and hour of every time zone begins with a quarter
MADE = re.compile(rb"data-made>[^<]*")  # the text of an element that says when the page was made
OWN = ("HTTP_HOST", "PATH_INFO", "SCRIPT_NAME", "SERVER_NAME", "SERVER_PORT", "SERVER_PROTOCOL", "wsgi.url_scheme")


def kept(
    seconds: int = MINUTE, /, by_host: bool = False, **asked: Callable[[str], bool] | None
) -> Callable[[View], View]:
    """Decorate a public view of ``event_slug``: its page is kept for ``seconds`` of the clock at most.

    ``by_host`` is for a page that has the address by which it was asked in it.

    ``asked`` are the words of the address's query on which it depends, each with what it may be; with None it may be
    anything, and such a page is made for its reader alone. All else in the query is passed over.
    """

    def decorate(view: View) -> View:
        @wraps(view)
        def kept_view(request: HttpRequest, event_slug: str, **kwargs: Any) -> HttpResponse:
            state_of = partial(state_of_event, event_slug, seconds)
            host = request.build_absolute_uri("/") if by_host else ""
            return shown(request, state_of, partial(view, event_slug=event_slug, **kwargs), host, **asked)

        return kept_view

    return decorate


def shown(
    request: HttpRequest,
    state_of: Callable[[], State | None],
    view: View,
    host: str = "",
    **asked: Callable[[str], bool] | None,
) -> HttpResponse:
    """The page that is kept of the address, or that the view makes now, or that it has not changed (304).

    One that has the address by which it was asked in it is kept once for each ``host``.
    """
    query, free = QueryDict(mutable=True), False
    for name, may_be in asked.items():
        value = request.GET.get(name)
        if value is not None and (may_be is None or may_be(value)):
            query[name] = value
            free = free or may_be is None
    words = query.urlencode()
    make = partial(_made, request, words, state_of, view)
    key = (get_language(), request.path, words, *filter(None, [host]))
    page: Page = make() if free else KEEPER.shown(key, state_of, make)
    whole = HttpResponse(page.body, headers=page.headers)
    answer = get_conditional_response(request, page.tag, response=whole)
    if not free:
        answer.kept = page  # type: ignore[union-attr]
    return answer  # type: ignore[return-value]


def _made(request: HttpRequest, words: str, state_of: Callable[[], State | None], view: View) -> Page:
    answer = view(_anybodys(request, words))
    patch_cache_control(answer, no_cache=True)
    answer["ETag"] = f'"{sha256(MADE.sub(b"", answer.content)).hexdigest()[:24]}"'
    return Page(answer.content, dict(answer.items()), state_of)


def _anybodys(request: HttpRequest, words: str) -> HttpRequest:
    """The request for the same page by somebody of whom nothing is known, with these words in its query."""
    own = {name: value for name, value in request.META.items() if name in OWN}
    asked = WSGIRequest({**own, "REQUEST_METHOD": "GET", "QUERY_STRING": words, "wsgi.input": BytesIO()})
    asked.user = AnonymousUser()
    asked.resolver_match = request.resolver_match
    return asked
