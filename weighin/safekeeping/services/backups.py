"""A backup of everything the site keeps in SQLite, as one file, and its way back."""

import hashlib
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote

from django.conf import settings
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.db.models import Max
from django.utils.translation import gettext, gettext_lazy

from weighin import environment
from weighin.audit.database.in_use import InUse, alone
from weighin.audit.database.life import begin_another_life
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.safekeeping.database.later_layout import later_changes
from weighin.safekeeping.domain.earlier_layout import Layout, layout_of
from weighin.safekeeping.services.over_already import over_already
from weighin.stations.models import Station
from weighin.stations.services.stations import stations_as_before

OWNER_ONLY = 0o600
PAUSE = 0.25
# The last line of a backup: SHA-256 of all that stands before it. SQLite reads past it.
SEAL = b"\nweighin backup, SHA-256 "
SEAL_LENGTH = len(SEAL) + 64 + 1
# The primary result codes SQLITE_BUSY and SQLITE_LOCKED
BUSY = (5, 6)
ELSEWHERE = gettext_lazy(
    "This site keeps its rows in PostgreSQL, whose own tools do this whole and well: pg_dump --format=custom --file "
    "FILE, and pg_restore --clean --if-exists --dbname NAME FILE. To try one, restore it into a database of its own and "
    "run check_ledger with its DATABASE_URL."
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
    "club": "SELECT count(*) FROM clubs_club",
    "event": "SELECT count(*) FROM events_event",
    "slip": "SELECT count(*) FROM slips_weighslip",
    "official result": "SELECT count(*) FROM standings_officialresult",
}


def back_up(file: Path, counted: Mapping[str, str] = COUNTED, steps: tuple[int, float] | None = None) -> Backup:
    """Copy the database into a new ``file``, whole and at one moment, while the site goes on; say what was ``counted``.

    ``steps`` are pages a step and the seconds after each, for who must not be in anybody's way; None copies at once.
    Raises BackupRefused for another database than SQLite, a file that is there already or cannot be written, and a
    copy that does not pass SQLite's own check.
    """
    if connection.vendor != "sqlite":
        raise BackupRefused(ELSEWHERE)
    if file.exists():
        raise BackupRefused(
            gettext("%(file)s is there already: name a new file, so that no backup is lost.") % {"file": file}
        )
    if not file.parent.is_dir():
        raise BackupRefused(
            gettext("There is no folder %(parent)s: make it, or name another.") % {"parent": file.parent}
        )
    new = file.with_name(f".{file.name}-{os.getpid()}")
    try:
        os.close(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, OWNER_ONLY))
        connection.ensure_connection()
        with closing(sqlite3.connect(new)) as copy:
            _copy(copy, steps)
            # One file to carry away, without the two that lie beside a database in use
            copy.execute("PRAGMA journal_mode=DELETE")
            refuse_broken(copy, file)
            rows = {word: copy.execute(asked).fetchone()[0] for word, asked in counted.items()}
        digest = digest_of(new)
        with new.open("ab") as written:
            written.write(SEAL + digest.encode() + b"\n")
            written.flush()
            os.fsync(written.fileno())
        os.replace(new, file)
    except (OSError, sqlite3.Error) as error:
        raise BackupRefused(
            gettext("%(file)s cannot be written (%(error)s): look at the disk, or name another file.")
            % {"file": file, "error": error}
        ) from None
    finally:
        new.unlink(missing_ok=True)
    return Backup(file, file.stat().st_size, digest_of(file), rows)


def _copy(copy: sqlite3.Connection, steps: tuple[int, float] | None) -> None:
    if steps is None:
        connection.connection.backup(copy)
        return
    pages, pause = steps
    # What waits for the disk is the whole file at its end, not every page
    copy.execute("PRAGMA synchronous=OFF")
    # A snapshot of its own: without one the copy would begin anew at every slip that comes in meanwhile
    with closing(sqlite3.connect(connection.settings_dict["NAME"], isolation_level=None)) as source:
        source.execute("BEGIN")
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        source.backup(copy, pages=pages, progress=lambda *of_pages: time.sleep(pause))


def restore(file: Path, unproven: bool = False) -> Path:
    """Put a backup in the place of what the site keeps; the value is the copy of what was there.

    The backup is tried whole before anything is touched: its seal, the database, this version's changes, the ledgers.
    ``unproven`` also takes one whose seal or ledgers do not hold, for want of a better one. Raises BackupRefused, and
    changes nothing, for what does not pass, and while the site is in use.
    """
    if connection.vendor != "sqlite":
        raise BackupRefused(ELSEWHERE)
    with tried_backup(file, unproven) as tried:
        try:
            with alone(connection):
                return _put_in_place(tried, file)
        except InUse:
            raise BackupRefused(
                gettext(
                    "The site is in use by a server or another command: end the server, then restore again. Nothing was changed."
                )
            ) from None


@contextmanager
def tried_backup(file: Path, unproven: bool = False) -> Iterator[Path]:
    """A copy of a backup in a scratch place, found whole and brought up to this version. Raises BackupRefused."""
    if not file.is_file():
        raise BackupRefused(gettext("There is no file %(file)s: name a backup.") % {"file": file})
    # On the data folder's own disk, so that nothing is begun that has no room to be ended
    with tempfile.TemporaryDirectory(prefix=".restoring-", dir=settings.DATA) as folder:
        tried = Path(folder) / "tried.sqlite3"
        shutil.copyfile(file, tried)
        _refuse_unsealed(tried, file, unproven)
        with closing(sqlite3.connect(f"{tried.as_uri()}?mode=ro", uri=True)) as source:
            refuse_broken(source, file)
            earlier = _refuse_strange(source, file)
        _refuse_unfit(tried, file, earlier, unproven)
        yield tried


def _put_in_place(tried: Path, file: Path) -> Path:
    aside = environment.folder(Path(settings.DATA) / "backups")
    before = aside / f"before-restore-{datetime.now(UTC):%Y%m%d-%H%M%S-%f}.sqlite3"
    back_up(before)
    highest = _highest_revision()
    stations, end_once_more = list(Station.objects.select_related("event")), over_already()
    try:
        put_file_in_place(tried)
        with writing():
            # Tablets and browsers hold pages of revisions that the backup has not seen: none may come again with
            # other rows. One more than all that were, not their sum, which would double with every restore
            Event.everyone.update(revision=max(highest, _highest_revision()) + 1)
            begin_another_life()
            stations_as_before(stations)
            end_once_more()
            log_history(
                gettext("the server’s machine"),
                "site.restored",
                gettext("The site was restored from the backup %(name)s.") % {"name": file.name},
            )
    except BackupRefused:
        before.unlink()
        raise
    except Exception:
        put_file_in_place(before)
        raise
    return before


def _highest_revision() -> int:
    return Event.everyone.aggregate(most=Max("revision"))["most"] or 0


def put_file_in_place(source: Path) -> None:
    """Copy a database file over the site's own. Raises BackupRefused, with nothing changed, when somebody writes."""
    connection.ensure_connection()
    try:
        with closing(sqlite3.connect(f"{source.as_uri()}?mode=ro", uri=True)) as copy:
            connection.connection.execute("PRAGMA busy_timeout=2000")
            copy.backup(connection.connection, progress=_give_up, sleep=PAUSE)
    except sqlite3.Error as error:
        raise BackupRefused(
            gettext("The database is in use (%(error)s): end the server, then restore again. Nothing was changed.")
            % {"error": error}
        ) from None
    finally:
        connection.close()


def _give_up(status: int, remaining: int, pages: int) -> None:
    """Called after every step, which copies all or nothing; left alone, a busy database is tried for ever."""
    if status in BUSY:
        raise sqlite3.OperationalError(gettext("somebody writes to it"))


def _refuse_unsealed(tried: Path, file: Path, unproven: bool) -> None:
    """Hold the copy against its last line and take that off."""
    holds = sealed(tried)
    size = max(0, tried.stat().st_size - SEAL_LENGTH)
    with tried.open("r+b") as read:
        read.seek(size)
        if read.read().startswith(SEAL):
            read.truncate(size)
    if not unproven and not holds:
        raise BackupRefused(
            gettext(
                "%(file)s is damaged, cut off or changed since it was made, or 'backup' did not make it: take another backup. "
                "Nothing was changed. If there is no better one, --unproven takes it if the rest of it holds."
            )
            % {"file": file}
        )


def sealed(file: Path) -> bool:
    """Whether the file ends with the SHA-256 of all that stands before."""
    left = max(0, file.stat().st_size - SEAL_LENGTH)
    found = hashlib.sha256()
    with file.open("rb") as read:
        while left:
            part = read.read(min(left, 1 << 20))
            if not part:
                return False
            found.update(part)
            left -= len(part)
        return read.read() == SEAL + found.hexdigest().encode() + b"\n"


def _refuse_unfit(tried: Path, file: Path, earlier: bool, unproven: bool) -> None:
    """Bring the copy up to this version and walk its ledgers, in processes that know no other database."""
    unasked = ["--unproven"] if unproven else []
    told = managed(
        tried, *(["upgrade_database", *unasked] if earlier else ["migrate", "--verbosity", "0", "--no-input"])
    )
    if told.returncode:
        raise BackupRefused(
            gettext("%(file)s cannot be brought up to this version (%(last_line)s). Nothing was changed.")
            % {"file": file, "last_line": last_line(told.stderr)}
        )
    told = managed(tried, "check_ledger")
    if told.returncode and not unproven:
        raise BackupRefused(
            gettext(
                "The ledgers in %(file)s do not hold: %(stdout)s %(last_line)s Nothing was changed. If there is no better "
                "backup, --unproven takes it as it is."
            )
            % {"file": file, "stdout": told.stdout.strip(), "last_line": last_line(told.stderr)}
        )


def managed(database: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    """Run a management command on an SQLite file, in a process that knows no other database."""
    address = "sqlite:///" + quote(database.as_posix(), safe="/:")
    return subprocess.run(
        [sys.executable, str(settings.BASE / "manage.py"), *words],
        env={**os.environ, "DATABASE_URL": address, "WEIGHIN_DATA": str(database.parent)},
        capture_output=True,
        text=True,
        check=False,
    )


def last_line(text: str) -> str:
    """The last line of what was printed."""
    return text.strip().rpartition("\n")[2]


def refuse_broken(database: sqlite3.Connection, file: Path) -> None:
    """Raise BackupRefused, naming the ``file``, unless the database passes SQLite's own checks."""
    try:
        said = database.execute("PRAGMA integrity_check").fetchone()[0]
        if said == "ok" and database.execute("PRAGMA foreign_key_check").fetchone():
            said = gettext("rows point to others that are not there")
    except sqlite3.DatabaseError as error:
        said = str(error)
    if said != "ok":
        raise BackupRefused(
            gettext("%(file)s is no whole database (%(said)s): take another backup. Nothing was changed.")
            % {"file": file, "said": said}
        )


def _refuse_strange(database: sqlite3.Connection, file: Path) -> bool:
    """Whether the file is of the earlier layout. Raises BackupRefused when it is of none of this site's."""
    tables = {name for (name,) in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    kept = set(database.execute("SELECT app, name FROM django_migrations")) if "django_migrations" in tables else set()
    layout = layout_of(kept, tables)
    if layout not in (Layout.EARLIER, Layout.PRESENT):
        raise BackupRefused(gettext("%(file)s is no backup of this site: nothing of it was taken.") % {"file": file})
    if layout is Layout.EARLIER:
        return True
    newer = later_changes(MigrationLoader(None, ignore_no_migrations=True), kept)
    if newer:
        raise BackupRefused(
            gettext(
                "%(file)s is of a newer version of the site (%(newer)s): bring this one up to it first. Nothing was changed."
            )
            % {"file": file, "newer": newer[0]}
        )
    return False


def digest_of(file: Path) -> str:
    """SHA-256 of a file, in hexadecimal."""
    with file.open("rb") as read:
        return hashlib.file_digest(read, "sha256").hexdigest()
