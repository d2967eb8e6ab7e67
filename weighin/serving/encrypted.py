"""A connection that speaks TLS, which waitress knows nothing of: the loop shakes hands and reads without ever waiting.

Who speaks plain http at the same port is told in words where https is.
"""

import re
import ssl
import threading
from collections.abc import Callable
from contextlib import suppress
from errno import EWOULDBLOCK
from pathlib import Path
from socket import MSG_PEEK
from time import time
from typing import Any, NamedTuple

from weighin.serving.channel import Channel

RECORD = (
    16 * 1024
)  # a TLS record's most (RFC 8446, 5.1): read whole, nothing is left where the system cannot tell of it
GREETING = 0x16  # a TLS connection begins with it, no method of HTTP does
MOST_PLAIN = 8 * 1024
ASKED = re.compile(rb"(GET|HEAD) (/[!-~]*) HTTP/1\.[01]\r\n(?:.*\r\n)*?host: *([\w.:\[\]-]+) *\r\n", re.IGNORECASE)


class Encryption(NamedTuple):
    """What a site encrypts with, and what it says to who speaks plain http: the text for an address, empty where none is known."""

    context: ssl.SSLContext
    words: Callable[[str], str]


def context_of(chain: Path, key: Path) -> ssl.SSLContext:
    """TLS 1.2 and later with this certificate. Raises OSError when it cannot be read."""
    made = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    made.minimum_version = ssl.TLSVersion.TLSv1_2
    made.set_alpn_protocols(["http/1.1"])
    made.sslsocket_class = Line
    made.load_cert_chain(chain, key)
    return made


class Line(ssl.SSLSocket):
    """A TLS socket that says as any other when it would have to wait; one thread at a time, as OpenSSL wants it."""

    one: threading.Lock

    def send(self, data: Any, flags: int = 0) -> int:
        with self.one:
            try:
                return super().send(data, flags)
            except (ssl.SSLWantReadError, ssl.SSLWantWriteError):
                raise BlockingIOError(EWOULDBLOCK, "later") from None

    def recv(self, buflen: int = 1024, flags: int = 0) -> bytes:
        with self.one:
            return super().recv(buflen, flags)

    def part(self) -> None:
        """Say goodbye, as far as that needs no waiting: a browser then knows that nothing was cut off."""
        with self.one, suppress(OSError, ValueError):
            self.unwrap()


class EncryptedChannel(Channel):
    """A connection over TLS."""

    socket: Any  # as it came, and a Line once it greets
    shaken = False
    plain: bytes | None = None  # what was said so far by one who speaks no TLS

    def handle_read(self) -> None:
        try:
            if not self.shaken and not self._shake():
                return
            data = self.socket.recv(RECORD)
        except (ssl.SSLWantReadError, ssl.SSLWantWriteError, BlockingIOError):
            return
        except OSError:  # one that does not trust the certificate says so and goes
            self.handle_close()
            return
        if not data:
            self.handle_close()
            return
        self.last_activity = time()
        self.received(data)

    def handle_close(self) -> None:
        if isinstance(self.socket, Line) and self.connected:
            self.socket.part()
        super().handle_close()

    def _shake(self) -> bool:
        """Whether hands are shaken by now. Raises OSError."""
        if self.plain is None and not isinstance(self.socket, Line):
            first = self.socket.recv(1, MSG_PEEK)
            if not first:
                raise ConnectionAbortedError
            if first[0] != GREETING:
                self.plain = b""
            else:
                line: Any = self.encryption.context.wrap_socket(
                    self.socket, server_side=True, do_handshake_on_connect=False, suppress_ragged_eofs=True
                )
                line.one = threading.Lock()
                self.socket, self.sendbuf_len = line, RECORD
        if self.plain is not None:
            return self._show_the_way()
        with self.socket.one:
            self.socket.do_handshake()
        self.shaken = True
        return True

    def _show_the_way(self) -> bool:
        """Answer who speaks plain http, once all of it is here. Raises OSError, since nothing is to come then."""
        said = self.socket.recv(MOST_PLAIN)
        assert self.plain is not None
        self.plain += said
        if said and b"\r\n\r\n" not in self.plain and len(self.plain) < MOST_PLAIN:
            return False
        asked = ASKED.match(self.plain)
        address = f"https://{asked[3].decode()}{asked[2].decode()}" if asked else ""
        body = self.encryption.words(address).encode()
        head = [
            "HTTP/1.1 307 Temporary Redirect" if address else "HTTP/1.1 400 Bad Request",
            *([f"Location: {address}"] if address else []),
            "Content-Type: text/plain; charset=utf-8",
            f"Content-Length: {len(body)}",
            "Cache-Control: no-store",
            "X-Content-Type-Options: nosniff",
            "Connection: close",
        ]
        self.socket.send("\r\n".join([*head, "", ""]).encode() + body)
        raise ConnectionAbortedError

    @property
    def encryption(self) -> Encryption:
        found: Encryption = self.server.site.encryption
        return found
