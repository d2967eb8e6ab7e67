"""A backup of everything the site keeps in SQLite, as one file, and its way back."""

import hashlib
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.core.management import call_command
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.db.models import F, Max

from weighin import environment
from weighin.audit.services import note, writing
from weighin.events.models import Event

OWNER_ONLY = 0o600
PAUSE = 0.25
# The primary result codes SQLITE_BUSY and SQLITE_LOCKED
BUSY = (5, 6)
ELSEWHERE = (
    "This site keeps its rows in PostgreSQL, whose own tools do this whole and well: "
    "pg_dump --format=custom --file FILE, and pg_restore --clean --if-exists FILE."
)


class BackupRefused(Exception):
    """Why nothing was done, and what to do."""


@dataclass(frozen=True)
class Backup:
    """A file that was written: where, its bytes and their SHA-256, and how many rows of what are in it."""

    file: Path
    size: int
    digest: str
    rows: dict[str, int]


COUNTED = {
    "clubs": "SELECT count(*) FROM clubs_club",
    "events": "SELECT count(*) FROM events_event",
    "slips": "SELECT count(*) FROM scale_weighslip",
    "official results": "SELECT count(*) FROM standings_officialresult",
}


def back_up(file: Path) -> Backup:
    """Copy the database into a new ``file``, whole and at one moment, while the site goes on.

    Raises BackupRefused for another database than SQLite, a file that is there already or cannot be written, and a
    copy that does not pass SQLite's own check.
    """
    if connection.vendor != "sqlite":
        raise BackupRefused(ELSEWHERE)
    if file.exists():
        raise BackupRefused(f"{file} is there already: name a new file, so that no backup is lost.")
    if not file.parent.is_dir():
        raise BackupRefused(f"There is no folder {file.parent}: make it, or name another.")
    new = file.with_name(f".{file.name}-{os.getpid()}")
    try:
        os.close(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, OWNER_ONLY))
        connection.ensure_connection()
        with closing(sqlite3.connect(new)) as copy:
            connection.connection.backup(copy)
            # One file to carry away, without the two that lie beside a database in use
            copy.execute("PRAGMA journal_mode=DELETE")
            _refuse_broken(copy, file)
            rows = {word: copy.execute(asked).fetchone()[0] for word, asked in COUNTED.items()}
        with new.open("r+b") as written:
            os.fsync(written.fileno())
        os.replace(new, file)
    except (OSError, sqlite3.Error) as error:
        raise BackupRefused(f"{file} cannot be written ({error}): look at the disk, or name another file.") from None
    finally:
        new.unlink(missing_ok=True)
    return Backup(file, file.stat().st_size, _digest(file), rows)


def restore(file: Path) -> Path:
    """Put a backup in the place of what the site keeps; the value is the copy of what was there.

    Raises BackupRefused, and changes nothing, for what is no whole backup, one of a newer version, and a database that
    somebody is writing to.
    """
    if connection.vendor != "sqlite":
        raise BackupRefused(ELSEWHERE)
    aside = environment.folder(Path(settings.DATA) / "backups")
    before = aside / f"before-restore-{datetime.now(UTC):%Y%m%d-%H%M%S}.sqlite3"
    with _opened(file) as source:
        _refuse_broken(source, file)
        _refuse_strange(source, file)
        back_up(before)
        highest = Event.objects.aggregate(most=Max("revision"))["most"] or 0
        connection.ensure_connection()
        try:
            connection.connection.execute("PRAGMA busy_timeout=2000")
            source.backup(connection.connection, progress=_give_up, sleep=PAUSE)
        except sqlite3.Error as error:
            raise BackupRefused(
                f"The database is in use ({error}): end the server, then restore again. Nothing was changed."
            ) from None
        finally:
            connection.close()
    call_command("migrate", verbosity=0, interactive=False)
    with writing():
        # Tablets and browsers hold pages of revisions that the backup has not seen: none may come again with other rows
        Event.objects.update(revision=F("revision") + highest + 1)
        note("the server's machine", "site.restored", f"The site was restored from the backup {file.name}.")
    return before


def _give_up(status: int, remaining: int, pages: int) -> None:
    """Called after every step, which copies all or nothing; left alone, a busy database is tried for ever."""
    if status in BUSY:
        raise sqlite3.OperationalError("somebody writes to it")


@contextmanager
def _opened(file: Path) -> Iterator[sqlite3.Connection]:
    if not file.is_file():
        raise BackupRefused(f"There is no file {file}: name a backup.")
    with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as source:
        yield source


def _refuse_broken(database: sqlite3.Connection, file: Path) -> None:
    try:
        said = database.execute("PRAGMA integrity_check").fetchone()[0]
    except sqlite3.DatabaseError as error:
        said = str(error)
    if said != "ok":
        raise BackupRefused(f"{file} is no whole database ({said}): take another backup. Nothing was changed.")


def _refuse_strange(database: sqlite3.Connection, file: Path) -> None:
    try:
        kept = set(database.execute("SELECT app, name FROM django_migrations"))
        database.execute("SELECT 1 FROM scale_weighslip LIMIT 1")
    except sqlite3.DatabaseError:
        raise BackupRefused(f"{file} is no backup of this site: nothing of it was taken.") from None
    loader = MigrationLoader(None, ignore_no_migrations=True)
    newer = sorted(
        f"{app}.{name}" for app, name in kept if app in loader.migrated_apps and (app, name) not in loader.graph.nodes
    )
    if newer:
        raise BackupRefused(
            f"{file} is of a newer version of the site ({newer[0]}): bring this one up to it first. Nothing was changed."
        )


def _digest(file: Path) -> str:
    with file.open("rb") as read:
        return hashlib.file_digest(read, "sha256").hexdigest()
