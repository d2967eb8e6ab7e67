"""One connection: waitress's, which knows how long it may take and tells only the loop what the loop must know."""

from http import HTTPStatus
from time import monotonic
from typing import Any

from waitress.channel import HTTPChannel
from waitress.task import ErrorTask, Task, WSGITask

# Whoever asks or reads has so long, and longer by what came or went meanwhile, as web servers do it: slow lines are
# served, one that says a byte a second is not.
GRACE_SECONDS = 20.0
LEAST_BYTES_A_SECOND = 500
RETRY_SECONDS = 5
MOST_ROUND_PIECES = 8 * 1024  # bytes of a line with the size of a piece, or of what follows the last one
AS_SAID = ("X-Content-Type-Options", "nosniff")


class Answer(WSGITask):  # type: ignore[misc]
    """An answer of the application; one without a body keeps the connection too."""

    def set_close_on_finish(self) -> None:
        asked_to = self.request.headers.get("CONNECTION", "").lower() == "close"
        if self.has_body or asked_to or self.version != "1.1":
            super().set_close_on_finish()

    def finish(self) -> None:
        if self.request.command == "HEAD":
            self.write(b"")
            self.chunked_response = False
        super().finish()
        self.channel.answered_well = self.status[:3] in ("200", "304")


class Busy(Task):  # type: ignore[misc]
    """The answer to who comes when the lane is full: in words, and at once."""

    complete = True

    def execute(self) -> None:
        kind, body = self.channel.server.site.busy(self.request.path)
        said = HTTPStatus.SERVICE_UNAVAILABLE
        self.status = f"{said.value} {said.phrase}"
        self.content_length = len(body)
        self.response_headers += [
            ("Content-Type", kind),
            ("Retry-After", str(RETRY_SECONDS)),
            ("Cache-Control", "no-store"),
            ("Content-Security-Policy", "default-src 'none'"),
            AS_SAID,
        ]
        self.write(b"" if self.request.command == "HEAD" else body)


class NotUnderstood(ErrorTask):  # type: ignore[misc]
    """The answer to what is no request, or too large a one."""

    def execute(self) -> None:
        self.response_headers.append(AS_SAID)
        super().execute()


class Channel(HTTPChannel):  # type: ignore[misc]
    """A connection that is dropped when it is silent or too slow, and that the loop need not ask in every round."""

    task_class = Answer
    error_task_class = NotUnderstood
    events = 0  # those that the loop listens for
    paused = False  # the loop has stopped reading, and must be told when it may go on
    answered_well = False
    lane = network = ""
    shown: int | None = None  # by who asks a station's address: a hash of the token, name or session
    counted = False  # among the open ones
    of_proxy = False  # which ends its connections itself

    def __init__(self, server: Any, sock: Any, addr: Any, adj: Any, map: Any = None):
        self.since, self.bytes = monotonic(), 0
        super().__init__(server, sock, addr, adj, map)

    def overdue(self, now: float) -> bool:
        """Whether it has been silent or slow for too long; never while it waits for us."""
        if self.requests or self.of_proxy:
            return False
        return now - self.since > GRACE_SECONDS + self.bytes / LEAST_BYTES_A_SECOND

    def received(self, data: bytes) -> bool:
        if self.request is None and not self.requests:
            self.since, self.bytes = monotonic(), 0
        self.bytes += len(data)
        try:
            done: bool = super().received(data)
        except ValueError:  # a length of more figures than Python reads
            self.handle_close()
            return False
        if self._says_no_end():
            self.handle_close()
            return False
        if self.request is not None and not self.requests:
            self.server.site.begins(self)
            self.server.site.grows(self)
        return done

    def _says_no_end(self) -> bool:
        """Whether the lines round the pieces of a body grow for ever: waitress looks through all of them at each piece."""
        body = getattr(self.request, "body_rcv", None)
        return len(getattr(body, "control_line", b"")) + len(getattr(body, "trailer", b"")) > MOST_ROUND_PIECES

    def send(self, data: bytes, do_close: bool = True) -> int:
        sent: int = super().send(data, do_close)
        self.bytes += sent
        return sent

    def turn_away(self) -> None:
        """Answer that the lane is full, instead of what was asked."""
        self.task_class = Busy

    def service(self) -> None:
        super().service()
        self.task_class = Answer
        self.since, self.bytes = monotonic(), 0
        self.server.site.answered(self)

    def events_wanted(self, read: int, write: int) -> int:
        """What the loop must listen for. Whoever ends a request after this sees that reading is paused."""
        with self.requests_lock:
            self.paused = not self.readable()
            return (0 if self.paused else read) | (write if self.writable() else 0)

    def del_channel(self, map: Any = None) -> None:
        super().del_channel(map)
        self.server.site.gone(self)
