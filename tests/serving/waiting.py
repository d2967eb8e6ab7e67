"""A server whose readers, and all who show a wrong token, wait until somebody posts /go. ``python waiting.py PORT``"""

import signal
import sys
import threading
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
from weighin.serving.server import Site

gone = threading.Event()


def application(environ: dict[str, Any], start: Callable[..., Any]) -> Iterable[bytes]:
    if environ["PATH_INFO"] == "/go":
        gone.set()
    if environ["PATH_INFO"] == "/wait":
        gone.wait()
    if environ.get("HTTP_AUTHORIZATION") == "Bearer wrong":
        gone.wait()
        start("401 Unauthorized", [("Content-Length", "0")])
        return []
    if environ["PATH_INFO"] == "/unchanged":
        start("304 Not Modified", [("ETag", '"1"')])
        return []
    if environ["PATH_INFO"] == "/parts":
        start("200 OK", [("Content-Type", "text/plain")])
        return iter([b"one", b"two"])
    body = b"x" * 2_000_000 if environ["PATH_INFO"] == "/much" else b"done"
    start("200 OK", [("Content-Type", "text/plain"), ("Content-Length", str(len(body)))])
    return [body]


def end(signum: int, frame: Any) -> None:
    raise SystemExit


signal.signal(signal.SIGTERM, end)
site = Site(
    application, lambda path: ("text/plain", b"busy"), lambda *said: None, host="127.0.0.1", port=int(sys.argv[1])
)
site.run()
