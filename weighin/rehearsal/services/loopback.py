"""A server of the rehearsal's own on this machine, and the tablets that speak to it as those at the table do."""

import json
import threading
from collections.abc import Iterable
from http.client import HTTPConnection, HTTPException
from types import TracebackType
from typing import Any

from django.db import connections
from waitress import wasyncore
from waitress.server import create_server

THREADS, ANSWER_SECONDS = 4, 60


class NoAnswer(OSError):
    """Nothing came back, or something that is no answer of a station's address."""


def _answered(environ: dict[str, Any], start: Any) -> Iterable[bytes]:
    """The site's answer; the thread keeps no connection to the database, since it ends before the process does."""
    from weighin.wsgi import application

    try:
        answer = application(environ, start)
        try:
            return [b"".join(answer)]
        finally:
            if hasattr(answer, "close"):
                answer.close()
    finally:
        connections.close_all()


class Loopback:
    """The site on 127.0.0.1 at a free port, for as long as the block lasts."""

    def __enter__(self) -> int:
        self._open: dict[int, Any] = {}
        self._server = create_server(
            _answered, map=self._open, host="127.0.0.1", port=0, threads=THREADS, ident="weighin",
            clear_untrusted_proxy_headers=False,
        )  # fmt: skip
        self._serves = threading.Thread(target=self._server.run, name="rehearsal's server", daemon=True)
        self._serves.start()
        return int(self._server.effective_port)

    def __exit__(
        self, kind: type[BaseException] | None, value: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._server.task_dispatcher.shutdown()
        # In its own thread, which may just be listening to what would be closed under it
        self._server.trigger.pull_trigger(lambda: wasyncore.close_all(self._open, ignore_all=True))
        self._serves.join(ANSWER_SECONDS)


class Tablet:
    """A paired tablet: it shows its token and posts bodies to one event."""

    def __init__(self, port: int, slug: str, token: str):
        self._line = HTTPConnection("127.0.0.1", port, timeout=ANSWER_SECONDS)
        self._slug, self._token = slug, token

    def post(self, address: str, body: dict[str, Any]) -> dict[str, Any]:
        """What is answered. Raises NoAnswer with what went wrong instead."""
        headers = {"Authorization": f"Bearer {self._token}", "Content-Type": "application/json"}
        try:
            self._line.request("POST", f"/api/events/{self._slug}/{address}", json.dumps(body), headers)
            answer = self._line.getresponse()
            said = answer.read()
        except (OSError, HTTPException) as error:
            self._line.close()
            raise NoAnswer(str(error) or type(error).__name__) from None
        if answer.status != 200:
            raise NoAnswer(f"{answer.status} {said[:200].decode(errors='replace')}")
        found: dict[str, Any] = json.loads(said)
        return found

    def close(self) -> None:
        """Hang up."""
        self._line.close()
