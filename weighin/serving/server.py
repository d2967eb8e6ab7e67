"""The server: one loop for all connections, three lanes for what they ask, and one that turns away.

waitress looks at every connection in every round of its loop, which a thousand phones make too dear; this one hears
from the system which of them has something. A request of a station, of a member and of a reader wait in lanes of their
own, and whoever finds a full one is told so at once.
"""

import os
import selectors
from collections import deque
from collections.abc import Callable
from contextlib import suppress
from time import monotonic
from typing import Any

from waitress import wasyncore
from waitress.adjustments import Adjustments
from waitress.server import TcpWSGIServer

from weighin.serving.bodies import Bodies
from weighin.serving.channel import Channel
from weighin.serving.connections import Connections
from weighin.serving.encrypted import EncryptedChannel, Encryption
from weighin.serving.lanes import Lane
from weighin.serving.routing import MEMBERS, READERS, STATIONS, lane_of, network_of, shown_by

READ, WRITE = selectors.EVENT_READ, selectors.EVENT_WRITE
# Python runs one thread at a time, so a third reader's thread would only take turns from the stations.
THREADS = {STATIONS: 4, MEMBERS: 3, READERS: 4}
# How many may wait, and for how many seconds: a tablet hangs up after 15, of which the database may take 10
QUEUES = {STATIONS: (100, 5.0), MEMBERS: (100, 10.0), READERS: (4000, 3.0)}
MOST_CONNECTIONS = 5000
MOST_PROVEN = 10_000
MOST_SILENT = 300  # of one address: each of three hundred phones may open one before it asks
MOST_ARRIVING = 4096  # whoever comes when the system's list is full asks again a second later
MOST_ON_WINDOWS = 480  # its select() knows no more than 512
MOST_ON_THEIR_WAY = 200 * 1024 * 1024  # bytes of unfinished requests; a tablet's has 256 KiB at most
FILES_FOR_OURSELVES = 200
LOOK_SECONDS = 1.0
ACCEPTED_AT_ONCE = 100
HEADER_BYTES = 32 * 1024
IN_MEMORY = 256 * 1024  # what one reads slowly lies in a file beyond that
NO_LIMIT = 1 << 40  # a thread never waits until somebody has read enough

# The media type and the text for who asks for this address when its lane is full
BusyWords = Callable[[str], tuple[str, bytes]]
# Whose request it is that this address sends with such an X-Forwarded-For; None where it is no proxy of ours
ClientBehind = Callable[[str, str], str | None]


class Listening(dict[int, Any]):
    """The map of open sockets, as waitress keeps it, in step with the system's list of them."""

    def __init__(self) -> None:
        super().__init__()
        self.selector = selectors.DefaultSelector()

    def __setitem__(self, file: int, one: Any) -> None:
        super().__setitem__(file, one)
        self.selector.register(file, READ, one)
        one.events = READ

    def __delitem__(self, file: int) -> None:
        one = self.pop(file)
        if one.events:
            self.selector.unregister(file)
            one.events = 0

    def has(self, file: int | None, one: Any) -> bool:
        """Whether this is still what the number stands for: it may have ended, and another come."""
        return file is not None and self.get(file) is one

    def watch(self, file: int, one: Any, events: int) -> None:
        """Listen for these events of it from now on."""
        if events == one.events:
            return
        if not one.events:
            self.selector.register(file, events, one)
        elif events:
            self.selector.modify(file, events, one)
        else:
            self.selector.unregister(file)
        one.events = events


class Server(TcpWSGIServer):  # type: ignore[misc]
    """One address at which is listened. Those of one site share the loop, the lanes and the list of connections."""

    channel_class = Channel
    site: "Site"

    def __init__(self, site: "Site", application: Any, info: Any):
        self.site = site
        super().__init__(application, site.open, dispatcher=site, adj=site.adj, sockinfo=info)

    def readable(self) -> bool:
        return bool(self.accepting)

    def handle_accept(self) -> None:
        for _ in range(ACCEPTED_AT_ONCE):
            try:
                found = self.accept()
            except OSError:  # a client that is gone already, or no file left for it
                return
            if found is None:
                return
            sock, address = found
            if not self.site.make_room(address[0]):
                sock.close()
                continue
            try:
                self.set_socket_options(sock)
                channel = self.site.channel(self, sock, address, self.adj, self.site.open)
            except OSError:
                sock.close()
                continue
            self.site.connected(channel)

    def add_task(self, channel: Channel) -> None:
        self.site.route(channel)

    def pull_trigger(self) -> None:
        """Nothing: what the loop must know, it is told with the connection that it concerns."""


class Site:
    """What serves an application at all addresses of a host. Raises OSError or ValueError where nothing can listen."""

    def __init__(
        self,
        application: Any,
        busy: BusyWords,
        client_behind: ClientBehind,
        encryption: Encryption | None = None,
        **adjustments: Any,
    ):
        self.busy, self.client_behind, self.encryption = busy, client_behind, encryption
        self.channel: type[Channel] = EncryptedChannel if encryption else Channel
        self.adj = Adjustments(
            max_request_header_size=HEADER_BYTES,
            backlog=MOST_ARRIVING,
            outbuf_overflow=IN_MEMORY,
            outbuf_high_watermark=NO_LIMIT,
            log_socket_errors=False,
            **adjustments,
        )
        self.open = Listening()
        self.connections = Connections(most_connections(), MOST_SILENT)
        self.bodies = Bodies(MOST_ON_THEIR_WAY)
        self._changed: deque[Channel] = deque()
        self._servers = [Server(self, headers_alone(application), info) for info in self.adj.listen]
        self._lanes = {name: Lane(name, threads, *QUEUES[name]) for name, threads in THREADS.items()}
        self._turned_away = Lane("turned away", 1, 2 * MOST_CONNECTIONS, float("inf"))
        # Hashes of what stations and members showed and were answered: whoever shows anything else as a station has yet to
        self._proven: set[int] = set()

    @property
    def threads(self) -> int:
        return sum(THREADS.values())

    def run(self) -> None:
        """Serve until SystemExit or KeyboardInterrupt; what is being answered then is answered."""
        try:
            self._loop()
        except (SystemExit, KeyboardInterrupt):
            self.close()

    def close(self) -> None:
        """End all lanes and connections."""
        for lane in (*self._lanes.values(), self._turned_away):
            lane.end()
        wasyncore.close_all(self.open, ignore_all=True)

    def _loop(self) -> None:
        look = 0.0
        while True:
            for key, events in self.open.selector.select(LOOK_SECONDS):
                self._happened(key.fd, key.data, events)
            while self._changed:
                self._watch(self._changed.popleft())
            if (now := monotonic()) >= look:
                look = now + LOOK_SECONDS
                for one in [one for one in self.open.values() if isinstance(one, Channel) and one.overdue(now)]:
                    one.handle_close()

    def _happened(self, file: int, one: Any, events: int) -> None:
        if not self.open.has(file, one):
            return  # ended by what happened to another
        if events & READ and one.readable():
            wasyncore.read(one)
            if events == READ and one.connected and not one.writable():
                return  # as most of the time: nothing else is listened for than before
        if events & WRITE and self.open.has(file, one):
            wasyncore.write(one)
        if isinstance(one, Channel):
            self._watch(one)

    def _watch(self, one: Channel) -> None:
        file = one._fileno
        if self.open.has(file, one):
            self.open.watch(file, one, one.events_wanted(READ, WRITE))

    # What becomes of a connection; the answers are told by the lanes' threads

    def make_room(self, address: str) -> bool:
        """Whether one more from this address may come in."""
        return self.client_behind(address, "") is not None or self.connections.make_room(network_of(address))

    def connected(self, channel: Channel) -> None:
        """It has come in and said nothing yet."""
        channel.counted = True
        self.connections.count += 1
        channel.network = network_of(channel.addr[0])
        channel.of_proxy = self.client_behind(channel.addr[0], "") is not None
        self.begins(channel)

    def begins(self, channel: Channel) -> None:
        """It has begun to ask."""
        if not channel.of_proxy:
            self.connections.silent(channel.network, channel)

    def grows(self, channel: Channel) -> None:
        """It sends on. What a proxy of ours sends, that has limits of its own for."""
        if not channel.of_proxy:
            self.bodies.grown(channel.network, channel, channel.bytes)

    def route(self, channel: Channel) -> None:
        """It has asked: its request goes into a lane."""
        self.connections.busy(channel.network, channel)
        request = channel.requests[0]
        channel.shown, channel.answered_well = None, False
        if not request.error:
            channel.lane = lane_of(request.command, request.path, request.headers)
            if channel.lane == STATIONS:
                channel.shown = hash(shown_by(request.headers))
                if channel.shown not in self._proven:
                    channel.lane = MEMBERS
            if self._lanes[channel.lane].add(network_of(self._asks_from(channel)), channel):
                return
            channel.turn_away()
        self._turned_away.add("", channel)

    def answered(self, channel: Channel) -> None:
        """It was answered. A station's connection is then taken away from nobody's crowd."""
        self.bodies.gone(channel)
        station = channel.shown is not None and channel.answered_well
        if channel.shown is not None and station and channel.shown not in self._proven:
            if len(self._proven) >= MOST_PROVEN:
                self._proven.clear()
            self._proven.add(channel.shown)
        if not station and not channel.of_proxy:
            self.connections.idle(channel.network, channel)
        if channel.paused or channel.writable():
            self._changed.append(channel)
            self._servers[0].trigger.pull_trigger()

    def gone(self, channel: Channel) -> None:
        """It has ended."""
        self.bodies.gone(channel)
        if channel.counted:
            channel.counted = False
            self.connections.count -= 1
            self.connections.busy(channel.network, channel)

    def _asks_from(self, channel: Channel) -> str:
        """Whose request it is: what a proxy of ours says, else who is connected."""
        said = channel.requests[0].headers.get("X_FORWARDED_FOR", "")
        return (self.client_behind(channel.addr[0], said) if channel.of_proxy else None) or channel.addr[0]


def headers_alone(application: Any) -> Any:
    """The application, whose answer to HEAD has no body: what one has no use for would be read as the next answer."""

    def asked(environ: dict[str, Any], start: Any) -> Any:
        answer = application(environ, start)
        if environ["REQUEST_METHOD"] != "HEAD":
            return answer
        if hasattr(answer, "close"):
            answer.close()
        return []

    return asked


def most_connections() -> int:
    """How many may be open at once: as many as the system lets a process have, up to ``MOST_CONNECTIONS``."""
    if os.name == "nt":
        return MOST_ON_WINDOWS
    import resource

    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = MOST_CONNECTIONS + FILES_FOR_OURSELVES
    if soft < wanted:
        with suppress(OSError, ValueError):
            resource.setrlimit(resource.RLIMIT_NOFILE, (wanted if hard < 0 else min(wanted, hard), hard))
    return min(MOST_CONNECTIONS, resource.getrlimit(resource.RLIMIT_NOFILE)[0] - FILES_FOR_OURSELVES)
