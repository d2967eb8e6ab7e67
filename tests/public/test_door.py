"""The door before Django: the same answers at a fraction of the cost, and nothing that Django would refuse."""

from collections.abc import Iterable, Iterator
from typing import Any

import pytest
import world
from django.conf import settings
from django.core.handlers.wsgi import WSGIHandler
from django.core.signals import request_started
from django.db import close_old_connections
from django.test import RequestFactory
from django.urls import reverse
from public.test_embargo import public_addresses
from served import Site

from weighin.events.models import Event
from weighin.standings.services import set_public
from weighin.ui.middleware.kept_pages import KeptPagesFirst

Answer = tuple[str, dict[str, str], bytes]


class Door:
    """The door, which counts what comes to Django."""

    def __init__(self) -> None:
        self.to_django = 0
        self.django = WSGIHandler()
        self.site = KeptPagesFirst(self._counted)

    def _counted(self, environ: dict[str, Any], start: Any) -> Iterable[bytes]:
        self.to_django += 1
        return self.django(environ, start)

    def ask(self, path: str, method: str = "GET", whole: Any = None, **environ: str) -> Answer:
        said: list[Any] = []
        path, _, query = path.partition("?")
        asked = RequestFactory()._base_environ(PATH_INFO=path, REQUEST_METHOD=method, QUERY_STRING=query, **environ)
        body = b"".join((whole or self.site)(asked, lambda *words: said.extend(words)))
        return said[0], dict(said[1]), body


@pytest.fixture
def event(db: None) -> Event:
    event = world.plain()
    world.member(event.club)
    set_public(event, True, "test")
    return event


@pytest.fixture
def door() -> Iterator[Door]:
    """Django ends connections that are in the midst of a transaction, as those of tests are."""
    request_started.disconnect(close_old_connections)
    yield Door()
    request_started.connect(close_old_connections)


def test_each_address_is_answered_as_django_does(event: Event, door: Door) -> None:
    more = [reverse("public:crowd", args=[event.slug]) + "?light=night", "/", "/api/openapi.json"]
    for where in (*public_addresses(event), *more):
        status, headers, body = door.ask(where, whole=door.django)
        assert status == "200 OK" and "Content-Security-Policy" in headers and "Set-Cookie" not in headers, where
        unchanged = door.ask(where, whole=door.django, HTTP_IF_NONE_MATCH=headers["ETag"])
        assert unchanged[0].startswith("304 ")
        for form, known in (((status, headers, body), {}), (unchanged, {"HTTP_IF_NONE_MATCH": headers["ETag"]})):
            assert door.ask(where, **known) == form, where
            came = door.to_django
            assert door.ask(where, **known) == form, where
            assert door.ask(where, "HEAD", **known)[:2] == form[:2], where
            assert door.to_django == came, where
        assert door.ask(where, "HEAD")[2] == b""
        other = door.ask(where, HTTP_IF_NONE_MATCH=f'"x", W/{headers["ETag"]}')
        assert other[0].startswith("304 ") and door.ask(where, HTTP_IF_NONE_MATCH='"x"')[0] == "200 OK", where


def test_a_wrong_host_is_refused_though_the_page_is_kept(event: Event, door: Door) -> None:
    where = reverse("public:event", args=[event.slug])
    settings.ALLOWED_HOSTS.append("lake.example")
    try:
        for host in ("testserver", "lake.example"):
            assert [door.ask(where, HTTP_HOST=host)[0] for _ in range(2)] == ["200 OK"] * 2
        assert door.to_django == 2
        assert [door.ask(where, HTTP_HOST="evil.example")[0][:3] for _ in range(2)] == ["400"] * 2
    finally:
        settings.ALLOWED_HOSTS.remove("lake.example")


def test_whoever_may_be_somebody_comes_to_django(event: Event, door: Door) -> None:
    where = reverse("public:event", args=[event.slug])
    door.ask(where)
    asks = (
        {"HTTP_COOKIE": "a=b; sessionid=x"}, {"HTTP_AUTHORIZATION": "Bearer x"}, {"HTTP_RANGE": "bytes=0-9"},
        {"HTTP_IF_MATCH": '"x"'}, {"method": "POST"}, {"method": "OPTIONS"}, {"wsgi.url_scheme": "https"},
    )  # fmt: skip
    for number, form in enumerate(asks, 2):
        door.ask(where, **form)  # type: ignore[arg-type]
        assert door.to_django == number, form
    door.ask(where, HTTP_COOKIE="csrftoken=abc")
    assert door.to_django == number


def test_an_event_taken_back_is_gone_at_once(event: Event, door: Door) -> None:
    where = reverse("public:standings", args=[event.slug])
    tag = door.ask(where)[1]["ETag"]
    assert door.ask(where, HTTP_IF_NONE_MATCH=tag)[0].startswith("304 ")
    set_public(event, False, "test")
    for known in ({}, {"HTTP_IF_NONE_MATCH": tag}):
        assert door.ask(where, **known)[0].startswith("404 ")
    set_public(event, True, "test")
    assert door.ask(where)[0] == "200 OK"


def test_a_command_beside_the_server_changes_its_pages(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What another process writes shows at once: nothing but the database says what is right."""
    site = Site(tmp_path_factory.mktemp("data"))
    site.manage("migrate", "--verbosity", "0")
    made = "import sys; sys.path.insert(0, 'tests'); import world; print(world.plain().slug)"
    slug = site.manage("shell", "--verbosity", "0", "-c", made).stdout.split()[-1]
    site.start()
    try:
        where = f"/results/{slug}/standings/"
        assert site.ask(where)[0] == 404
        said = site.manage("publish_result", slug, "--overrule", "a test")
        assert said.returncode == 0, said.stdout + said.stderr
        status, headers, body = site.ask(where)
        assert status == 200 and "official" in body and headers["server"] == "weighin"
        assert site.ask(where, **{"If-None-Match": headers["etag"]})[0] == 304
        back = "from weighin.events.models import Event; from weighin.standings.services import set_public; "
        site.manage("shell", "--verbosity", "0", "-c", back + "set_public(Event.objects.get(), False, 'x')")
        assert site.ask(where, **{"If-None-Match": headers["etag"]})[0] == 404
        assert site.ask(where, Host="evil.example")[0] == 400
    finally:
        site.stop()
