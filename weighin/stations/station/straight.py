"""The short way in for what stations post with a token: straight to the view, past the middleware made for pages.

Sessions, security tokens of pages, messages and policies do not concern a station; going through them costs it about
a sixth of its answer's time. Whatever else comes, and whatever is wrong with the address, takes the usual way.
"""

from collections.abc import Callable, Iterable
from typing import Any, cast

from django.core import signals
from django.core.exceptions import DisallowedHost
from django.core.handlers.exception import convert_exception_to_response
from django.core.handlers.wsgi import WSGIRequest
from django.http import HttpResponse
from django.urls import Resolver404, ResolverMatch, resolve

Application = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]
BEGINS = "/api/events/"


def straight(application: Application) -> Application:
    """The WSGI application with the short way before it."""

    def serve(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        if (
            environ["REQUEST_METHOD"] != "POST"
            or "HTTP_AUTHORIZATION" not in environ
            or not environ.get("PATH_INFO", "").startswith(BEGINS)
            or environ.get("SCRIPT_NAME")
        ):
            return application(environ, start_response)
        request = WSGIRequest(environ)
        match = _view_of(request)
        if match is None:
            return application(environ, start_response)
        signals.request_started.send(sender=serve, environ=environ)
        request.resolver_match = match
        response = cast(HttpResponse, _view(request))
        response.headers.setdefault("X-Content-Type-Options", "nosniff")
        response.headers.setdefault("Content-Length", str(len(response.content)))
        start_response(f"{response.status_code} {response.reason_phrase}", list(response.items()))
        # Closing it, as servers do, sends request_finished
        return response

    return serve


def _view_of(request: WSGIRequest) -> ResolverMatch | None:
    """The station's view that is asked for, at a host that is ours."""
    try:
        request.get_host()
        match = resolve(request.path_info)
    except (DisallowedHost, Resolver404):
        return None
    return match if getattr(match.func, "by_token", False) else None


def _answer(request: Any) -> Any:
    match = request.resolver_match
    return match.func(request, *match.args, **match.kwargs)


_view = convert_exception_to_response(_answer)
