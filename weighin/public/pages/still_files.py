"""An open club's public pages as plain files: fetched as anybody would get them, their links led from file to file."""

import json
import posixpath
import re
from collections.abc import Iterator
from html import unescape
from io import BytesIO
from typing import Any
from urllib.parse import urljoin, urlsplit

from django.conf import settings
from django.contrib.staticfiles import finders
from django.contrib.staticfiles.storage import staticfiles_storage
from django.core.handlers.base import BaseHandler
from django.core.handlers.wsgi import WSGIRequest
from django.http import HttpResponseBase
from django.urls import Resolver404, ResolverMatch, resolve, reverse
from django.utils.translation import gettext

from weighin.clubs.models import Club
from weighin.public.pages.feed import club_feed
from weighin.public.parsing.still import still
from weighin.public.queries.club_site import club_events, club_seasons, published_results
from weighin.ui.codes import code

OF_CLUB = frozenset(("public:club", "public:season", "public:feed", "public:calendar", "privacy:club_notice"))
OF_EVENT = frozenset(
    f"public:{name}"
    for name in (
        "event", "standings", "why", "result", "rules", "mortality", "draws", "briefing", "check", "check_to_save",
        "check_code", "api_event", "api_proof", "picture",
    )
)  # fmt: skip
OF_SITE = frozenset(("public:check_script", "public:catalogue"))
NAMED = {"public:api_event": "event.json", "public:api_proof": "proof.json"}
INSIDE = re.compile(r"""url\(["']?([^"')]+)["']?\)""")  # a file that a style names


def still_files(club: Club, address: str = "", language: str = settings.LANGUAGE_CODE) -> dict[str, bytes]:
    """The files by their paths. What needs a server is linked to ``address``, the site's own, and left out without one."""
    return _Copy(club, address.rstrip("/"), language).files()


class _Copy:
    def __init__(self, club: Club, address: str, language: str) -> None:
        self.club, self.address, self.language = club, address, language
        self.slugs = [event.slug for event in club_events(club)]
        self.site = BaseHandler()
        self.site.load_middleware()
        self.found: dict[str, bytes | None] = {}  # by path on the site; None where there is nothing to show
        self.pages: list[str] = []  # those that are HTML, in the order in which they were found

    def files(self) -> dict[str, bytes]:
        for path in self._first():
            self._has(path)
        made = {}
        for path in self.pages:  # grows as pages name others
            made[self._file(path)] = self._still(path, self._file(path))
        made["index.html"] = self._still(self.pages[0], "index.html")
        rest = {self._file(path): body for path, body in self.found.items() if body is not None}
        return rest | made

    def _first(self) -> Iterator[str]:
        slug = self.club.slug
        yield reverse("public:club", args=[slug])
        for season in club_seasons(self.club):
            yield reverse("public:season", args=[slug, season.slug])
        for name in ("public:feed", "public:calendar"):
            yield reverse(name, args=[slug])
        for event in self.slugs:
            for name in ("public:event", "public:check", "public:api_proof"):
                yield reverse(name, args=[event])

    def _still(self, path: str, file: str) -> bytes:
        body = self.found[path] or b""
        return still(body.decode(), lambda link: self._led(link, path, file), bool(self.address)).encode()

    def _led(self, link: str, path: str, file: str) -> str | None:
        """Where a link of the page at ``path`` leads from its ``file``."""
        parts = urlsplit(unescape(link))
        if parts.scheme or parts.netloc or not (parts.path or parts.query):
            return link
        target = urljoin(path, parts.path)
        if not parts.query and self._has(target):
            mark = f"#{parts.fragment}" if parts.fragment else ""
            return posixpath.relpath(self._file(target), posixpath.dirname(file) or ".") + mark
        if not self.address:
            return None
        return self.address + urljoin(path, unescape(link))

    def _has(self, path: str) -> bool:
        """Whether the copy has what stands at the path; it is fetched when it is asked for first."""
        if path not in self.found:
            self.found[path] = None
            self.found[path] = self._asset(path) if path.startswith(settings.STATIC_URL) else self._page(path)
        return self.found[path] is not None

    def _page(self, path: str) -> bytes | None:
        try:
            match = resolve(path)
        except Resolver404:
            return None
        if not self._is_ours(match):
            return None
        if match.view_name == "public:feed":
            return self._feed()
        if match.view_name == "public:check_code":
            return self._code(match.kwargs["event_slug"])
        answer = self._fetched(path)
        if answer.status_code != 200:
            return None
        if answer["Content-Type"].startswith("text/html") and match.view_name != "public:check_to_save":
            self.pages.append(path)
        return bytes(answer.content)  # type: ignore[attr-defined]

    def _is_ours(self, match: ResolverMatch) -> bool:
        if match.view_name in OF_EVENT:
            return match.kwargs["event_slug"] in self.slugs
        return match.view_name in OF_SITE or (
            match.view_name in OF_CLUB and match.kwargs["club_slug"] == self.club.slug
        )

    def _fetched(self, path: str) -> HttpResponseBase:
        host = settings.ALLOWED_HOSTS[0]
        asked = WSGIRequest(
            {
                "REQUEST_METHOD": "GET", "PATH_INFO": path, "SERVER_NAME": host, "SERVER_PORT": "80", "HTTP_HOST": host,
                "SERVER_PROTOCOL": "HTTP/1.1", "REMOTE_ADDR": "127.0.0.1", "wsgi.url_scheme": "http", "wsgi.input": BytesIO(),
                "HTTP_ACCEPT_LANGUAGE": self.language,
            }
        )  # fmt: skip
        return self.site.get_response(asked)

    def _asset(self, path: str) -> bytes:
        """A static file, and with a style what it names. Raises FileNotFoundError."""
        name = path.removeprefix(settings.STATIC_URL)
        if staticfiles_storage.exists(name):
            with staticfiles_storage.open(name) as file:
                body: bytes = file.read()
        else:
            where = finders.find(name)
            if where is None:
                raise FileNotFoundError(f"No static file {name}.")
            with open(where, "rb") as file:
                body = file.read()
        if name.endswith(".css"):
            for inside in INSIDE.findall(body.decode()):
                if not inside.startswith(("data:", "#")):
                    self._has(urljoin(path, inside))
        return body

    def _feed(self) -> bytes:
        told = club_feed(self.club, published_results(self.club), lambda path: self.address + path)
        return json.dumps(told if self.address else _without_addresses(told), ensure_ascii=False).encode()

    def _code(self, slug: str) -> bytes | None:
        if not self.address:
            return None
        drawn = code(self.address + reverse("public:check", args=[slug]), gettext("Check this result"))
        return drawn.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1).encode()

    def _file(self, path: str) -> str:
        """The file of a path on the site."""
        if path.startswith("/api/"):
            match = resolve(path)
            return f"results/{match.kwargs['event_slug']}/{NAMED[match.view_name]}"
        return path.lstrip("/") + ("index.html" if path.endswith("/") else "")


def _without_addresses(told: dict[str, Any]) -> dict[str, Any]:
    """A feed of a copy that knows no address: the format asks for none, and they would have to be whole."""
    items = [{name: value for name, value in item.items() if name != "url"} for item in told["items"]]
    return {name: value for name, value in told.items() if not name.endswith("_url")} | {"items": items}
