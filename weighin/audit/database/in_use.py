"""Who uses the site's SQLite file just now, across processes: nothing may be put in its place under them.

Every process that opens the database keeps a reader's lock on a small file beside it until it ends, however it ends;
whoever replaces the database wants that lock for itself alone.
"""

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.backends.base.base import BaseDatabaseWrapper

from weighin import environment
from weighin.ui.outages import NotNow, Outage

WAIT_SECONDS = 5.0
_kept: dict[Path, sqlite3.Connection] = {}
_alone: set[Path] = set()
_one = threading.Lock()


class InUse(Exception):
    """Another process has the database open."""


def keep_in_use(connection: BaseDatabaseWrapper, **kwargs: Any) -> None:
    """Mark the database as open in this process. Raises NotNow while somebody replaces it."""
    file = _lock_file(connection)
    with _one:
        if file is None or file in _kept or file in _alone:
            return
        try:
            environment.make_private(file)
            # Another process's fork or thread may close it: nothing but the lock is ever asked of it
            mark = sqlite3.connect(file, timeout=WAIT_SECONDS, isolation_level=None, check_same_thread=False)
            mark.execute("BEGIN")
            mark.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except sqlite3.Error as error:
            if "locked" in str(error):
                connection.close()
                raise NotNow(Outage.LOCKED, "a backup is being restored: try again in a minute") from None
            return  # a folder where no lock can be made hinders nobody who only reads
        _kept[file] = mark


@contextmanager
def alone(connection: BaseDatabaseWrapper) -> Iterator[None]:
    """Keep every other process out of the database meanwhile. Raises InUse when one has it open already."""
    file = _lock_file(connection)
    if file is None:
        yield
        return
    connection.close()
    with _one:
        if file in _kept:
            _kept.pop(file).close()
        _alone.add(file)
    lock = sqlite3.connect(file, timeout=0, isolation_level=None)
    try:
        try:
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError:
            raise InUse from None
        yield
    finally:
        lock.close()
        _alone.discard(file)
        connection.close()


class _OfAFileThatIsThere(sqlite3.Connection):
    """A connection that begins no database: SQLite would put an empty one where the file was moved away."""

    def __init__(self, database: str | Path, **more: Any):
        super().__init__(f"{Path(database).absolute().as_uri()}?mode=rw", **{**more, "uri": True})


def begin_no_file() -> None:
    """From now on no thread of this process makes a database's file: it hears that it is gone."""
    if _lock_file(connections[DEFAULT_DB_ALIAS]):
        connections.settings[DEFAULT_DB_ALIAS]["OPTIONS"]["factory"] = _OfAFileThatIsThere


def remember_file(connection: BaseDatabaseWrapper, **kwargs: Any) -> None:
    """Signal handler of connection_created: keep which file this connection has open."""
    connection.weighin_file = _file_of(connection)  # type: ignore[attr-defined]


def refuse_another_file(connection: BaseDatabaseWrapper) -> None:
    """Raise NotNow when the connection's file was moved away or deleted: what is written to it now would be lost.

    Where another file stands in its place the next request opens that; where none does SQLite would begin an empty one.
    """
    if connection.in_atomic_block:
        return
    connection.ensure_connection()
    now = _file_of(connection)
    if now != connection.weighin_file:  # type: ignore[attr-defined]
        if now is not None:
            connection.close()
        raise NotNow(Outage.GONE, "the database's file was moved away or deleted while the site had it open")


def _file_of(connection: BaseDatabaseWrapper) -> tuple[int, int] | None:
    """Device and inode of an SQLite database on a disk; None in memory, when it is gone, and of another database."""
    if connection.vendor != "sqlite":
        return None
    try:
        found = os.stat(connection.settings_dict["NAME"])
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _lock_file(connection: BaseDatabaseWrapper) -> Path | None:
    """The file beside an SQLite database on a disk; None for any other."""
    name = str(connection.settings_dict["NAME"])
    if connection.vendor != "sqlite" or name.startswith("file:") or name == ":memory:":
        return None
    return Path(f"{name}-in-use")
