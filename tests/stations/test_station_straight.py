"""The short way in answers as the usual one does, and is taken only for what stations post."""

import io
import json
import logging
from collections.abc import Iterable, Iterator
from typing import Any

import pytest
from django.core import signals
from django.core.wsgi import get_wsgi_application
from django.db import close_old_connections
from django.urls import ResolverMatch
from stations.speaking import Speaker, message

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.stations.station import straight as short_way
from weighin.stations.station.straight import straight

OF_PAGES = {"Content-Security-Policy", "X-Frame-Options", "Referrer-Policy"}
OF_THE_BODY = {"Content-Length"}


class Usual:
    """The usual application; counts what reaches it."""

    def __init__(self) -> None:
        self.application = get_wsgi_application()
        self.asked = 0

    def __call__(self, environ: dict[str, Any], start: Any) -> Iterable[bytes]:
        self.asked += 1
        found: Iterable[bytes] = self.application(environ, start)
        return found


@pytest.fixture(autouse=True)
def connection_of_the_test() -> Iterator[None]:
    """An answer's end leaves the test its database connection, as Django's own test client sees to."""
    kept = (signals.request_started, signals.request_finished)
    for signal in kept:
        signal.disconnect(close_old_connections)
    yield
    for signal in kept:
        signal.connect(close_old_connections)


@pytest.fixture
def usual() -> Usual:
    return Usual()


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def ask(application: Any, path: str, body: bytes = b"", method: str = "POST", **environ: str) -> Any:
    told: list[Any] = []
    given = {
        "REQUEST_METHOD": method, "PATH_INFO": path, "SERVER_NAME": "127.0.0.1", "SERVER_PORT": "8000", "HTTP_HOST": "localhost",
        "wsgi.url_scheme": "http", "wsgi.input": io.BytesIO(body), "CONTENT_LENGTH": str(len(body)), "REMOTE_ADDR": "192.0.2.7",
        "CONTENT_TYPE": "application/json", **environ,
    }  # fmt: skip
    answer = application(given, lambda status, headers: told.append((status, dict(headers))))
    try:
        said = b"".join(answer)
    finally:
        answer.close()
    (status, headers) = told[0]
    return status, headers, said


def both(usual: Usual, *words: Any, short: bool, **environ: str) -> tuple[str, bytes]:
    """Ask by the short way first and then by the usual one: both say the same."""
    before = usual.asked
    status, headers, said = ask(straight(usual), *words, **environ)
    assert (usual.asked == before) == short
    again = ask(usual, *words, **environ)
    assert (status, said.replace(b'"kept"', b'"already"')) == (again[0], again[2].replace(b'"kept"', b'"already"'))
    assert headers["Content-Length"] == str(len(said))
    left_out = OF_PAGES | OF_THE_BODY
    assert {n: v for n, v in again[1].items() if n not in left_out} == {
        n: v for n, v in headers.items() if n not in left_out
    }
    return status, said


def posted(*slips: dict[str, Any]) -> bytes:
    return json.dumps({"slips": list(slips)}).encode()


def test_a_slip_is_kept_by_the_short_way(usual: Usual, event: Event, table: Speaker) -> None:
    token = f"Bearer {table.token}"
    where = f"/api/events/{event.slug}/slips"
    status, said = both(usual, where, posted(message()), short=True, HTTP_AUTHORIZATION=token)
    assert status == "200 OK" and json.loads(said)["slips"][0]["state"] == "kept"
    assert json.loads(said)["slips"][0]["url"] == f"http://localhost/events/{event.slug}/slips/1/"
    assert WeighSlip.objects.count() == 1


@pytest.mark.parametrize(
    ("path", "body", "token", "status"),
    [
        ("slips", b"half a bo", "", "400 Bad Request"),
        ("slips", b" " * 300_000, "", "400 Bad Request"),
        ("slips", posted(message(boat=99)), "", "200 OK"),
        ("slips", b"{}", "Bearer " + "x" * 43, "401 Unauthorized"),
        ("slips", b"{}", "Basic abc", "401 Unauthorized"),
        ("checkins", b"{}", "", "400 Bad Request"),
        ("care", b"{}", "", "400 Bad Request"),
        ("station", b"{}", "", "405 Method Not Allowed"),
    ],
)
def test_refusals_are_the_same(
    usual: Usual, event: Event, table: Speaker, path: str, body: bytes, token: str, status: str
) -> None:
    said = token or f"Bearer {table.token}"
    found, _ = both(usual, f"/api/events/{event.slug}/{path}", body, short=True, HTTP_AUTHORIZATION=said)
    assert found == status


def test_everything_else_takes_the_usual_way(usual: Usual, event: Event, table: Speaker) -> None:
    token = f"Bearer {table.token}"
    where = f"/api/events/{event.slug}"
    for words, environ in (
        ((f"{where}/slips", posted(message())), {}),
        ((f"{where}/station", b"", "GET"), {"HTTP_AUTHORIZATION": token}),
        ((f"{where}/nothing", b"{}"), {"HTTP_AUTHORIZATION": token}),
        ((where, b"{}"), {"HTTP_AUTHORIZATION": token}),
        (("/sign-in/", b""), {"HTTP_AUTHORIZATION": token}),
        ((f"{where}/slips", posted(message())), {"HTTP_AUTHORIZATION": token, "HTTP_HOST": "elsewhere.example"}),
        ((f"{where}/slips", posted(message())), {"HTTP_AUTHORIZATION": token, "SCRIPT_NAME": "/club"}),
    ):
        before = usual.asked
        ask(straight(usual), *words, **environ)
        assert usual.asked == before + 1, words
    status, _, _ = ask(
        straight(usual), f"{where}/slips", b"{}", HTTP_AUTHORIZATION=token, HTTP_HOST="elsewhere.example"
    )
    assert status == "400 Bad Request"


def test_what_goes_wrong_inside_is_logged_and_answered(
    usual: Usual, event: Event, table: Speaker, monkeypatch: Any, caplog: Any
) -> None:
    def broken(*words: Any, **named: Any) -> None:
        raise RuntimeError("the disk is full")

    monkeypatch.setattr(short_way, "_view_of", lambda request: ResolverMatch(broken, (), {}))
    with caplog.at_level(logging.ERROR, logger="django.request"):
        status, _, _ = ask(
            straight(usual), f"/api/events/{event.slug}/slips", b"{}", HTTP_AUTHORIZATION=f"Bearer {table.token}"
        )
    assert status == "500 Internal Server Error" and "the disk is full" in caplog.text
