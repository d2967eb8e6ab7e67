"""Who waits for whom: lanes by themselves, and on a server whose readers are all held up."""

import http.client
import socket
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from pathlib import Path
from time import sleep

import pytest
from django.urls import URLPattern, get_resolver, reverse
from patience import SECONDS, until
from served import free_port

from weighin.serving.lanes import Lane
from weighin.serving.routing import MEMBERS, READERS, STATIONS, lane_of, network_of, shown_by
from weighin.serving.server import THREADS

LineTo = Callable[[int], http.client.HTTPConnection]
TOKEN = {"AUTHORIZATION": "Bearer x"}
SESSION = {"COOKIE": "csrftoken=a; sessionid=b"}


class Piece:
    """Something to do, which says when it was done and may be held up."""

    def __init__(self, name: str, done: list[str], held: threading.Event | None = None):
        self.name, self.done, self.held = name, done, held

    def service(self) -> None:
        if self.held is not None:
            self.held.wait(SECONDS)
        self.done.append(self.name)

    def turn_away(self) -> None:
        self.name += " turned away"

    def cancel(self) -> None:
        self.name += " dropped"


def held_up(most: int = 9, longest_wait: float = SECONDS) -> tuple[Lane, list[str], threading.Event]:
    """A lane whose one thread is held up until the event comes."""
    done: list[str] = []
    held = threading.Event()
    lane = Lane("test", 1, most, longest_wait)
    lane.add("a", Piece("first", done, held))
    until(lambda: not lane._count)
    return lane, done, held


def test_addresses_take_turns() -> None:
    lane, done, held = held_up()
    for name in ("a1", "a2", "a3", "b1", "c1"):
        assert lane.add(name[0], Piece(name, done))
    held.set()
    until(lambda: len(done) == 6)
    assert done == ["first", "a1", "b1", "c1", "a2", "a3"]


def test_those_who_are_held_up_hold_up_nobody_behind_them() -> None:
    done: list[str] = []
    held = threading.Event()
    lane = Lane("test", 3, 9, SECONDS)
    for name in ("first", "second"):
        assert lane.add(name, Piece(name, done, held))
    for name in ("third", "fourth"):  # nobody comes after these, whose coming would wake anybody
        assert lane.add(name, Piece(name, done))
    until(lambda: done == ["third", "fourth"])
    held.set()
    until(lambda: len(done) == 4)
    lane.end(SECONDS)


def test_a_full_lane_says_so_at_once() -> None:
    lane, done, held = held_up(most=2)
    assert lane.add("a", Piece("a1", done)) and lane.add("b", Piece("b1", done))
    assert not lane.add("c", Piece("c1", done))
    held.set()
    until(lambda: len(done) == 3)
    assert lane.add("c", Piece("c1", done))


def test_one_address_leaves_places_for_others() -> None:
    lane, done, held = held_up(most=8)
    assert [lane.add("a", Piece(f"a{n}", done)) for n in range(8)] == [True] * 4 + [False] * 4
    assert [lane.add("b", Piece(f"b{n}", done)) for n in range(8)] == [True] * 2 + [False] * 6
    assert lane.add("c", Piece("c0", done))
    held.set()
    until(lambda: len(done) == 8)


def test_whoever_waited_too_long_is_turned_away_and_so_are_those_behind() -> None:
    lane, done, held = held_up(longest_wait=0.01)
    assert lane.add("a", Piece("a1", done))
    sleep(0.02)
    assert not lane.add("a", Piece("a2", done)), "behind the one that waits too long"
    assert lane.add("b", Piece("b1", done)), "another address has its own turn"
    sleep(0.02)
    held.set()
    until(lambda: len(done) == 3)
    assert done == ["first", "a1 turned away", "b1 turned away"]


def test_an_ended_lane_drops_what_waits() -> None:
    lane, done, held = held_up()
    waits = Piece("a1", done)
    lane.add("a", waits)
    threading.Timer(0.05, held.set).start()
    lane.end(SECONDS)
    assert done == ["first"] and waits.name == "a1 dropped"


def stations_addresses() -> list[str]:
    """The address of every view that a station's token opens."""
    named = [
        f"{space}:{one.name}"
        for space, (_, resolver) in get_resolver().namespace_dict.items()
        for one in resolver.url_patterns
        if isinstance(one, URLPattern) and getattr(one.callback, "by_token", False)
    ]
    return [reverse(name, args=["some-event"]) for name in named]


def test_everything_that_a_station_asks_is_in_its_lane() -> None:
    asked = stations_addresses()
    assert len(asked) >= 8
    for path in asked:
        for method in ("GET", "POST"):
            assert lane_of(method, path, TOKEN) == lane_of(method, path, SESSION) == STATIONS, path
            assert lane_of(method, path, {}) != STATIONS, "strangers cannot fill it"


@pytest.mark.parametrize(
    ("method", "path", "headers", "lane"),
    [
        ("GET", "/results/some-event/crowd/", {}, READERS),
        ("HEAD", "/api/events/some-event", {}, READERS),
        ("GET", "/results/some-event/crowd/", SESSION, MEMBERS),
        ("GET", "/results/some-event/", {"COOKIE": "notsessionid=b"}, READERS),
        ("POST", "/sign-in/", {}, MEMBERS),
        ("GET", "/table/some-event/", {}, MEMBERS),
    ],
)
def test_who_reads_and_who_writes(method: str, path: str, headers: dict[str, str], lane: str) -> None:
    assert lane_of(method, path, headers) == lane


def test_a_device_is_one_address_also_where_it_has_many() -> None:
    assert network_of("192.0.2.7") == "192.0.2.7"
    assert network_of("::ffff:192.0.2.7") == "::ffff:192.0.2.7"
    assert network_of("2001:db8:1:2:aaaa::1") == network_of("2001:db8:1:2:bbbb:1:2:3") != network_of("2001:db8:1:3::1")


@pytest.fixture
def port() -> Iterator[int]:
    """Of a server whose readers wait until somebody posts /go."""
    port = free_port()
    server = subprocess.Popen([sys.executable, str(Path(__file__).with_name("waiting.py")), str(port)])
    until(lambda: _listens(port))
    yield port
    server.terminate()
    assert server.wait(SECONDS) == 0


def _listens(port: int) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port)).close()
    except OSError:
        return False
    return True


@pytest.fixture
def line_to() -> Iterator[LineTo]:
    """Opens connections to a port, and closes them after the test."""
    with ExitStack() as opened:

        def line(port: int) -> http.client.HTTPConnection:
            one = http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)
            opened.callback(one.close)
            return one

        yield line


def asked(line: http.client.HTTPConnection, method: str, path: str, **headers: str) -> tuple[int, bytes]:
    line.request(method, path, headers=headers)
    answer = line.getresponse()
    return answer.status, answer.read()


def test_stations_and_members_are_answered_while_all_readers_wait(port: int, line_to: LineTo) -> None:
    waiting = [line_to(port) for _ in range(THREADS[READERS] + 20)]
    for one in waiting:
        one.request("GET", "/wait")
    line = line_to(port)
    assert asked(line, "POST", "/api/events/x/slips", Authorization="Bearer x") == (200, b"done")
    assert asked(line, "GET", "/events/x/", Cookie="sessionid=x") == (200, b"done")
    sleep(3.1)  # longer than a reader waits
    late = line_to(port)
    late.request("GET", "/")
    answer = late.getresponse()
    assert (answer.status, answer.read(), answer.headers["Retry-After"]) == (503, b"busy", "5")
    assert answer.headers["X-Content-Type-Options"] == "nosniff" and answer.headers["Content-Security-Policy"]
    assert asked(late, "POST", "/go") == (200, b"done"), "on the same connection"
    said = [one.getresponse() for one in waiting]
    assert [one.status for one in said] == [200] * THREADS[READERS] + [503] * 20


def test_nobody_comes_into_the_stations_lane_with_a_token_that_was_never_answered(port: int, line_to: LineTo) -> None:
    tablet, stranger = line_to(port), [line_to(port) for _ in range(THREADS[STATIONS] + THREADS[MEMBERS] + 100)]
    assert asked(tablet, "POST", "/api/events/x/slips", Authorization="Bearer right") == (200, b"done")
    for one in stranger:
        one.request("POST", "/api/events/x/slips", headers={"Authorization": "Bearer wrong"})
    for _ in range(20):
        assert asked(tablet, "POST", "/api/events/x/slips", Authorization="Bearer right") == (200, b"done")
    assert asked(tablet, "POST", "/api/events/x/checkins", Authorization="Bearer right") == (200, b"done")
    line_to(port).request("GET", "/go")


def test_what_says_who_asks_is_the_same_in_each_of_its_requests() -> None:
    signed = "Signed 0123456789abcdef:{}:{}"
    assert shown_by({"AUTHORIZATION": signed.format(1, "aa")}) == shown_by({"AUTHORIZATION": signed.format(2, "bb")})
    assert shown_by({"AUTHORIZATION": "Bearer a"}) != shown_by({"AUTHORIZATION": "Bearer b"})
    assert shown_by({"COOKIE": "light=sun; sessionid=b"}) == shown_by(SESSION) != shown_by({})


def test_an_answer_without_a_body_keeps_the_connection(port: int, line_to: LineTo) -> None:
    line = line_to(port)
    line.connect()
    before = line.sock
    for _ in range(3):
        assert asked(line, "GET", "/unchanged") == (304, b"")
        assert line.sock is before
    line.request("GET", "/unchanged", headers={"Connection": "close"})
    answer = line.getresponse()
    assert answer.headers["Connection"] == "close"


def test_requests_that_come_at_once_are_answered_in_their_order(port: int) -> None:
    asks = b"".join(
        b"GET /%s HTTP/1.1\r\nHost: x\r\n\r\n" % path for path in (b"unchanged", b"much", b"", b"unchanged")
    )
    with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as line:
        line.sendall(asks)
        said = b""
        while said.count(b"HTTP/1.1 ") < 4 or not said.endswith(b"\r\n\r\n"):
            said += line.recv(1 << 16)
    assert [part[:3] for part in said.split(b"HTTP/1.1 ")[1:]] == [b"304", b"200", b"200", b"304"]
    assert len(said) > 2_000_000


@pytest.mark.parametrize("path", ["", "parts", "unchanged"])
def test_an_answer_to_head_has_no_body(port: int, path: str) -> None:
    with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as line:
        line.sendall(b"HEAD /%s HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n" % path.encode())
        said = b"".join(iter(lambda: line.recv(1 << 16), b""))
    head, end, rest = said.partition(b"\r\n\r\n")
    assert end and not rest
    assert path or b"Content-Length: 4" in head, "as it is with GET"


PIECES = b"POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n"


@pytest.mark.parametrize(
    "said",
    [
        PIECES + b"1" * 100_000,
        PIECES + b"1;" + b"a" * 100_000,
        PIECES + b"0\r\n" + b"a: b\r\n" * 20_000,
        b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: " + b"9" * 5000 + b"\r\n\r\n",
    ],
    ids=["size", "extension", "trailer", "length"],
)
def test_lengths_without_end_end_the_connection(port: int, line_to: LineTo, said: bytes) -> None:
    with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as line:
        with suppress(OSError):
            line.sendall(said)
        with suppress(ConnectionError):
            assert line.recv(1) == b""
    assert asked(line_to(port), "GET", "/") == (200, b"done")


def test_a_body_in_pieces_comes_in(port: int) -> None:
    with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as line:
        line.sendall(PIECES + b"".join(b"%x\r\n%s\r\n" % (n, b"a" * n) for n in range(1, 500)) + b"0\r\na: b\r\n\r\n")
        assert line.recv(1 << 16).startswith(b"HTTP/1.1 200")
