"""The door before Django: a public page that is kept, or that has not changed, goes out at the cost of one statement.

Whoever may be somebody (a session, a token), asks for less than a whole page, or for one that is not kept as it is now
comes to Django. What Django then says is what goes out here the next time, to whoever asks the same host in the same
form, so that its checks and headers hold here too.
"""

from collections.abc import Callable, Iterable
from typing import Any

from django.conf import settings
from django.db import Error
from django.utils.http import parse_etags

from weighin.ui.kept import KEEPER, Page
from weighin.ui.middleware.language import language_of

Environ = dict[str, Any]
Site = Callable[[Environ, Callable[..., Any]], Iterable[bytes]]
FORM = ("HTTP_HOST", "wsgi.url_scheme")  # a proxy of ours has said them by now, and nobody else
NOT_ANYBODYS = ("HTTP_AUTHORIZATION", "HTTP_IF_MATCH", "HTTP_IF_UNMODIFIED_SINCE", "HTTP_RANGE")
MOST_FORMS = 32  # of one page: the names that a site is reached by are few


class KeptPagesFirst:
    """A WSGI application round Django's."""

    def __init__(self, site: Site):
        self.site = site

    def __call__(self, environ: Environ, start: Callable[..., Any]) -> Iterable[bytes]:
        if not _is_anybodys(environ):
            return self.site(environ, start)
        try:
            found = _kept(environ)
        except Error:
            found = None  # Django has its way to say so
        if found is None:
            return self._of_django(environ, start)
        status, headers, body = found
        start(status, headers)
        return [body]

    def _of_django(self, environ: Environ, start: Callable[..., Any]) -> Iterable[bytes]:
        said: list[Any] = []

        def starting(status: str, headers: list[tuple[str, str]], *more: Any) -> Any:
            said[:] = status, list(headers)
            return start(status, headers, *more)

        answer = self.site(environ, starting)
        page = getattr(answer, "kept", None)
        if isinstance(page, Page) and len(page.answers) < MOST_FORMS and not _names(said[1], "set-cookie"):
            page.answers[_form(environ, said[0][:3] == "304")] = (said[0], said[1])
        return answer


def _is_anybodys(environ: Environ) -> bool:
    return (
        environ["REQUEST_METHOD"] in ("GET", "HEAD")
        and settings.SESSION_COOKIE_NAME not in environ.get("HTTP_COOKIE", "")
        and not any(name in environ for name in NOT_ANYBODYS)
    )


def _kept(environ: Environ) -> tuple[str, list[tuple[str, str]], bytes] | None:
    path = environ.get("SCRIPT_NAME", "") + environ["PATH_INFO"]
    language = language_of(environ.get("HTTP_COOKIE", ""), environ.get("HTTP_ACCEPT_LANGUAGE", ""))
    key = (language, path, environ.get("QUERY_STRING", ""))
    host = environ.get("HTTP_HOST") or environ["SERVER_NAME"]
    by_host = (*key, f"{environ['wsgi.url_scheme']}://{host}/")
    found = KEEPER.look(key) or KEEPER.look(by_host)
    if found is None:
        return None
    page: Page = found.made
    known = environ.get("HTTP_IF_NONE_MATCH")
    unchanged = known is not None and (known == page.tag or _matches(known, page.tag))
    answer = page.answers.get(_form(environ, unchanged))
    if answer is None or page.state_of() != found.state:
        return None
    return *answer, b"" if unchanged or environ["REQUEST_METHOD"] == "HEAD" else page.body


def _form(environ: Environ, unchanged: bool) -> tuple[Any, ...]:
    """What an answer's status and headers depend on beside the page."""
    return (unchanged, *(environ.get(name) for name in FORM))


def _matches(known: str, tag: str) -> bool:
    return any(each.removeprefix("W/") in (tag, "*") for each in parse_etags(known))


def _names(headers: list[tuple[str, str]], name: str) -> bool:
    return any(each.lower() == name for each, _ in headers)
