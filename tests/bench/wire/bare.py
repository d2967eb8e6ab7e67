"""The least a server can do: for a slip one durable insert an answer, for a reader 204 and nothing else at ``/nothing``.

``python bare.py FILE PORT``
"""

import json
import sqlite3
import sys
import threading
from collections.abc import Callable, Iterable
from typing import Any

import waitress

FILE, PORT = sys.argv[1], int(sys.argv[2])
one_writer = threading.Lock()
own = threading.local()


def connection() -> sqlite3.Connection:
    if not hasattr(own, "connection"):
        own.connection = sqlite3.connect(FILE, isolation_level=None, timeout=20)
        own.connection.execute("PRAGMA journal_mode=WAL")
        own.connection.execute("PRAGMA synchronous=FULL")
        own.connection.execute("CREATE TABLE IF NOT EXISTS slip (id TEXT PRIMARY KEY, body TEXT)")
    found: sqlite3.Connection = own.connection
    return found


def application(environ: dict[str, Any], start: Callable[..., Any]) -> Iterable[bytes]:
    if environ["PATH_INFO"] == "/nothing":
        start("204 No Content", [])
        return []
    body = environ["wsgi.input"].read(int(environ.get("CONTENT_LENGTH") or 0))
    if body:
        (slip,) = json.loads(body)["slips"]
        with one_writer:
            connection().execute("INSERT INTO slip VALUES (?, ?)", (slip["id"], json.dumps(slip)))
        answer = json.dumps({"slips": [{"id": slip["id"], "state": "kept"}]}).encode()
    else:
        answer = b"{}"
    start("200 OK", [("Content-Type", "application/json"), ("Content-Length", str(len(answer)))])
    return [answer]


connection()
waitress.serve(application, host="127.0.0.1", port=PORT, threads=8, _quiet=True)
