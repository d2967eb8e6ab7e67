"""Slow, silent and too many: what some do on their connections, others do not notice."""

import http.client
import socket
import sqlite3
import threading
import time
import uuid
from collections import deque
from collections.abc import Iterator
from contextlib import ExitStack, closing, suppress
from statistics import median

import pytest
from faults.lake import Stations, public_event
from patience import SECONDS, until
from served import Site

from weighin.serving.server import MOST_ON_THEIR_WAY

TIMES_OVER = 10  # another program's turn on the machine is no fault; waiting for a slow client is, for seconds
BETWEEN = 0.5  # seconds from look to look: who has slept wakes slower than who is asked at once again
AT_ONCE, A_MOMENT = 0.25, 1.5  # seconds; whoever comes when the system's list is full asks again after one second


@pytest.fixture(scope="module")
def shore(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, str]]:
    site = Site(tmp_path_factory.mktemp("data"))
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    slug = public_event(site)
    site.start()
    yield site, slug
    assert site.stop() == 0


class Reader:
    """Somebody who looks whether the page has changed, on one connection."""

    def __init__(self, site: Site, slug: str):
        self.line = http.client.HTTPConnection("127.0.0.1", site.port, timeout=SECONDS)
        self.page = f"/results/{slug}/standings/"
        self.tag = ""
        self.look()

    def look(self) -> float:
        """The seconds until the answer."""
        started = time.perf_counter()
        self.line.request("GET", self.page, headers={"If-None-Match": self.tag})
        answer = self.line.getresponse()
        answer.read()
        assert answer.status in (200, 304)
        self.tag = answer.headers["ETag"]
        return time.perf_counter() - started

    def look_later(self) -> float:
        time.sleep(BETWEEN)
        return self.look()


def opened(site: Site, first: bytes = b"") -> socket.socket:
    line = socket.socket()
    line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
    line.settimeout(SECONDS)
    line.connect(("127.0.0.1", site.port))
    line.sendall(first)
    return line


def ended(line: socket.socket) -> bool:
    """Read what is left: whether the site has ended the connection."""
    line.setblocking(False)
    try:
        while line.recv(1 << 16):
            pass
    except BlockingIOError:
        return False
    except OSError:
        return True
    return True


def test_slow_and_silent_clients_are_dropped_and_nobody_else_notices(shore: tuple[Site, str]) -> None:
    site, slug = shore
    reader = Reader(site, slug)
    floor = median(reader.look_later() for _ in range(12))
    post = b"POST /sign-in/ HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000\r\n\r\n"
    kinds = {
        "silent": b"",
        "half a request": b"GET / HTTP/1.1\r\nHost: lo",
        "a byte a second": post,
        "never reads": f"GET /api/events/{slug} HTTP/1.1\r\nHost: localhost\r\n\r\n".encode(),
    }
    with ExitStack() as stack:
        lines = {kind: [stack.enter_context(opened(site, said)) for _ in range(40)] for kind, said in kinds.items()}
        stack.enter_context(closing(reader.line))
        took: list[float] = []

        def all_dropped() -> bool:
            took.append(reader.look_later())
            for line in lines["a byte a second"]:
                with suppress(OSError):
                    line.send(b"x")
            return all(ended(line) for kind in ("silent", "half a request", "a byte a second") for line in lines[kind])

        until(all_dropped)
        until(lambda: all(ended(line) for line in lines["never reads"]))
    assert median(took) <= TIMES_OVER * floor, (median(took), floor)
    assert len(took) > 20, "nobody was cut off at once"


def test_bodies_that_never_end_do_not_fill_the_disk(shore: tuple[Site, str]) -> None:
    site, slug = shore
    head = b"POST /check/ HTTP/1.1\r\nHost: localhost\r\nContent-Length: 11000000\r\n\r\n"
    reader = Reader(site, slug)
    with ExitStack() as stack:
        stack.enter_context(closing(reader.line))
        lines = [stack.enter_context(opened(site, head)) for _ in range(30)]
        for line in lines:
            line.settimeout(SECONDS)
            with suppress(OSError):
                line.sendall(b"x" * 10_000_000)
        until(lambda: sum(not ended(line) for line in lines) * 10_000_000 <= MOST_ON_THEIR_WAY)
        assert not ended(lines[-1]), "there is room for some"
        reader.look()


def test_ten_thousand_connections_keep_nobody_out(shore: tuple[Site, str]) -> None:
    site, slug = shore
    over = threading.Event()
    took: list[float] = []

    def read() -> None:
        while not over.is_set():
            started = time.perf_counter()
            Reader(site, slug).line.close()
            took.append(time.perf_counter() - started)

    reading = threading.Thread(target=read)
    reading.start()
    kept: deque[socket.socket] = deque()
    for _ in range(10_000):
        kept.append(opened(site))
        if len(kept) > 400:
            kept.popleft().close()
    over.set()
    reading.join()
    for line in kept:
        line.close()
    # Whoever comes waits for those who stand before them: how many hangs on the machine, that nobody waits long does not
    took.sort()
    middle, slowest = took[len(took) // 2], took[len(took) * 99 // 100]
    assert len(took) > 1 and middle <= AT_ONCE and slowest <= A_MOMENT, (len(took), middle, slowest)


def test_a_lock_of_another_program_leaves_reading_alive(shore: tuple[Site, str]) -> None:
    site, slug = shore
    with closing(Reader(site, slug).line), Stations(site, slug, 8, 0.01) as stations:
        until(lambda: len(stations.took) > 8)
        with closing(sqlite3.connect(site.data / "weighin.sqlite3", isolation_level=None, timeout=SECONDS)) as other:
            other.execute("BEGIN IMMEDIATE")
            time.sleep(0.5)  # until all of them wait
            answered = len(stations.took)
            reader = Reader(site, slug)
            slowest = max(reader.look() for _ in range(100))
            reader.line.close()
            assert len(stations.took) == answered, "nothing was written meanwhile"
            other.execute("ROLLBACK")
        until(lambda: len(stations.took) > answered + 8)
    assert slowest < 1
    assert not stations.wrong


def test_a_reader_keeps_the_connection_from_page_to_page(shore: tuple[Site, str]) -> None:
    site, slug = shore
    reader = Reader(site, slug)
    with closing(reader.line):
        before = reader.line.sock
        reader.look()
        assert reader.line.sock is before


def test_words_for_who_comes_when_it_is_full() -> None:
    from weighin.operations.pages.busy import busy_words

    kind, page = busy_words("/results/some-event/crowd/")
    assert kind.startswith("text/html") and b"Wait 5 seconds, then reload this page." in page
    kind, line = busy_words(f"/api/events/{uuid.uuid4()}/slips")
    assert kind == "application/json" and b"send it again" in line
