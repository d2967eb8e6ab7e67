"""What does not work, by what the database's own libraries raise; all else keeps its traceback."""

import errno
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from django.db import DatabaseError, IntegrityError, InterfaceError, OperationalError
from django.test import Client
from django.urls import path

from weighin.public.views import broken
from weighin.ui.outages import NotNow, Outage, forget_told, log_outage, outage_of


def wrapped(kind: type[Exception], cause: Exception) -> Exception:
    """As Django raises it: its own exception, and the library's behind it."""
    fault = kind(str(cause))
    fault.__cause__ = cause
    return fault


def of_sqlite(tmp_path: Path, what: str) -> Exception:
    """The exception of SQLite when it really is so."""
    file = tmp_path / "a.sqlite3"
    with sqlite3.connect(file) as one:
        one.execute("CREATE TABLE slips (text)")
    other = sqlite3.connect(file, timeout=0, isolation_level=None)
    if what == "full":
        other.execute("PRAGMA max_page_count = 2")
        statement = "INSERT INTO slips VALUES (zeroblob(100000))"
    elif what == "locked":
        other.execute("BEGIN IMMEDIATE")
        other, statement = sqlite3.connect(file, timeout=0), "INSERT INTO slips VALUES ('x')"
    elif what == "read-only":
        other, statement = sqlite3.connect(f"file:{file}?mode=ro", uri=True), "INSERT INTO slips VALUES ('x')"
    elif what == "no database":
        file.write_bytes(b"a letter to the club" * 100)
        statement = "SELECT * FROM slips"
    else:
        statement = "SELECT * FROM other_slips"
    with pytest.raises(sqlite3.Error) as raised:
        other.execute(statement)
    return raised.value


@pytest.mark.parametrize(
    ("what", "outage"),
    [
        ("full", Outage.FULL),
        ("locked", Outage.LOCKED),
        ("read-only", Outage.READ_ONLY),
        ("no database", Outage.DAMAGED),
        ("no such table", None),
    ],
)
def test_sqlite(tmp_path: Path, what: str, outage: Outage | None) -> None:
    cause = of_sqlite(tmp_path, what)
    kind = OperationalError if isinstance(cause, sqlite3.OperationalError) else DatabaseError
    assert outage_of(wrapped(kind, cause)) is outage


class Said(Exception):
    def __init__(self, sqlstate: str | None):
        super().__init__("said")
        self.sqlstate = sqlstate


@pytest.mark.parametrize(
    ("kind", "state", "outage"),
    [
        (OperationalError, "53100", Outage.FULL),
        (OperationalError, "57P01", Outage.GONE),
        (OperationalError, "08006", Outage.GONE),
        (OperationalError, None, Outage.GONE),
        (InterfaceError, None, Outage.GONE),
        (DatabaseError, "25006", Outage.READ_ONLY),
        (OperationalError, "53300", Outage.OTHER),
        (IntegrityError, "23505", None),
    ],
)
def test_postgresql(kind: type[Exception], state: str | None, outage: Outage | None) -> None:
    assert outage_of(wrapped(kind, Said(state))) is outage


def test_files_and_all_else() -> None:
    assert outage_of(OSError(errno.ENOSPC, "No space left on device")) is Outage.FULL
    assert outage_of(OSError(errno.ENOENT, "No such file")) is None
    assert outage_of(NotNow(Outage.LOCKED, "wait")) is Outage.LOCKED
    assert outage_of(ValueError("x")) is None and outage_of(None) is None


def test_a_fault_that_comes_again_and_again_is_told_once_in_a_while(caplog: Any, monkeypatch: Any) -> None:
    clock = [100.0]
    monkeypatch.setattr("weighin.ui.outages.time.monotonic", lambda: clock[0])
    forget_told()
    for _ in range(500):
        log_outage(Outage.FULL, "GET slips:slips", OSError("no\nspace"))
    assert len(caplog.records) == 1 and "\n" not in caplog.records[0].getMessage()
    clock[0] += 11
    log_outage(Outage.FULL, "GET slips:slips", OSError("no space"))
    assert "499 more" in caplog.records[1].getMessage()


def _raises(request: Any) -> Any:
    raise {"full": OSError(errno.ENOSPC, "No space left on device"), "ours": ValueError("ours")}[request.GET["what"]]


urlpatterns = [path("page/", _raises), path("api/one", _raises)]
handler500 = broken.broken


@pytest.mark.urls(__name__)
def test_a_person_gets_a_page_and_a_program_a_line(settings: Any, caplog: Any) -> None:
    client = Client(raise_request_exception=False)
    page = client.post("/page/?what=full")
    assert page.status_code == 503 and int(page["Retry-After"]) > 0
    assert "may not have been saved" in page.content.decode() and "make room" in page.content.decode()
    assert "may not have been saved" not in client.get("/page/?what=full").content.decode()
    line = client.get("/api/one?what=full")
    assert line.status_code == 503 and list(line.json()) == ["error"] and int(line["Retry-After"]) > 0
    assert not any(record.exc_info for record in caplog.records)
    assert client.get("/page/?what=ours").status_code == 500
    assert any(record.exc_info for record in caplog.records)
