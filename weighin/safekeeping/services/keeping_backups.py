"""Backups that the server makes by itself: every few minutes on the day of an event, once a day otherwise.

Each is read whole again before it counts. A backup takes small steps from a snapshot of its own, so that no slip waits
for it. One process makes them, however many serve.
"""

import logging
import os
import shutil
import sqlite3
import subprocess
import threading
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import replace
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any

from django.db import DatabaseError, connection
from django.utils import timezone
from django.utils.translation import gettext

from weighin import environment
from weighin.safekeeping.domain.backup_ages import name_at, too_old
from weighin.safekeeping.queries.backups import Copy, copies, every, folders, own_folder
from weighin.safekeeping.services.backup_notes import write_copies
from weighin.safekeeping.services.backups import BackupRefused, back_up, digest_of, sealed
from weighin.ui.outages import outage_of

LOG = logging.getLogger(__name__)
LOOK_SECONDS = 20.0
AFTER_A_FAULT_SECONDS = 60.0
STEP_PAGES, STEP_PAUSE = 64, 0.01
NICE = 10
LOCK = ".by-itself"
DUMP_SECONDS = 600
HEADS = "SELECT event_id, position, link FROM slips_weighslip AS s WHERE position = (SELECT max(position) FROM slips_weighslip WHERE event_id = s.event_id)"


class BackupKeeper(threading.Thread):
    """Makes a backup whenever one is due, until ``end``."""

    def __init__(self) -> None:
        super().__init__(name="backups", daemon=True)
        self._ended = threading.Event()

    def run(self) -> None:
        with suppress(AttributeError, OSError):  # of this thread alone, on Linux
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), NICE)
        with closing(_lock()) as lock:
            wait = LOOK_SECONDS
            while not self._ended.wait(wait):
                good = not _alone(lock) or self._look()
                wait = LOOK_SECONDS if good else AFTER_A_FAULT_SECONDS
        connection.close()

    def end(self) -> None:
        """Let it end after the step it is at."""
        self._ended.set()

    def _look(self) -> bool:
        try:
            now = timezone.now()
            own, *others = copies()
            due = own.at is None or bool(own.wrong) or abs(now - own.at) >= every(now)
            if due or any(one.wrong or one.name != own.name for one in others):
                return all(not one.wrong for one in keep_backup(now, due))
        except Exception as fault:  # whatever it is, the next one is tried, and the pages say how old the last is
            outage = outage_of(fault)
            LOG.error("No backup could be made: %s", outage.sentence if outage else repr(fault))
            return False
        return True


def second_place_said() -> str:
    """Where backups go, for whoever starts the server; what is wrong with the second place."""
    places = folders()
    said = gettext("Backups go to %(own)s by themselves.") % {"own": places[0]}
    if len(places) == 1:
        return said + " " + gettext("WEIGHIN_BACKUP_TO names a second disk or stick for them.")
    return said + " " + (why_no_second(places[1]) or gettext("They go to %(second)s too.") % {"second": places[1]})


def why_no_second(folder: Path) -> str:
    """What is wrong with the second place before anything is written there; empty when nothing is."""
    if not folder.is_dir():
        return gettext("There is no folder %(folder)s: plug the stick in, or look at WEIGHIN_BACKUP_TO.") % {
            "folder": folder
        }
    if folder.stat().st_dev == own_folder().stat().st_dev:
        return gettext("%(folder)s is on the same disk as the site: name one on another disk or a stick.") % {
            "folder": folder
        }
    return ""


def keep_backup(now: datetime, anew: bool = True) -> list[Copy]:
    """Make a backup in each place, thin the old ones out, and keep what is to be said of each place.

    Without ``anew`` the newest of the first place is only brought to the others, such as to a stick that was put in.
    """
    own, *others = copies()
    found = [own]
    if anew:
        name = name_at(now, "sqlite3" if connection.vendor == "sqlite" else "dump")
        found = [_tried(own, name, now, lambda: _make(own.folder / name))]
    for other in others:
        if found[0].wrong:
            found.append(replace(other, wrong=gettext("there is none in the first place to bring here.")))
        else:
            made = found[0].folder / found[0].name
            found.append(_tried(other, made.name, found[0].at, partial(_copy_over, made, other.folder)))
    for one in found:
        _thin(one.folder, now)
    write_copies(found)
    return found


def _tried(last: Copy, name: str, at: datetime | None, act: Callable[[], None]) -> Copy:
    """The place after the act: with the new backup, or with the last one and what was wrong."""
    try:
        act()
    except (BackupRefused, OSError, DatabaseError, sqlite3.Error, subprocess.SubprocessError) as fault:
        outage = outage_of(fault)
        wrong = str(outage.sentence if outage else fault)
        if wrong != last.wrong:
            LOG.error("No backup at %s: %s", last.folder, wrong)
        return replace(last, wrong=wrong)
    return Copy(last.folder, name, at)


def _make(file: Path) -> None:
    if connection.vendor != "sqlite":
        _dump(file)
        return
    try:
        back_up(file, steps=(STEP_PAGES, STEP_PAUSE))
        _refuse_other_ledgers(file)
    except Exception:
        file.unlink(missing_ok=True)
        raise


def _refuse_other_ledgers(file: Path) -> None:
    """Hold the end of every event's ledger in the copy against the slip of that position on the site."""
    with closing(sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)) as copy:
        heads = copy.execute(HEADS).fetchall()
    with connection.cursor() as cursor:
        for event, position, link in heads:
            cursor.execute("SELECT link FROM slips_weighslip WHERE event_id = %s AND position = %s", [event, position])
            if cursor.fetchone() != (link,):
                raise BackupRefused(gettext("the ledger in the copy is another than the site’s: run 'doctor'."))


def _copy_over(made: Path, folder: Path) -> None:
    """Copy a backup to the second place and read it again there."""
    if not folder.is_dir():
        raise BackupRefused(why_no_second(folder))
    new = folder / f".{made.name}"
    try:
        shutil.copyfile(made, new)
        with new.open("rb") as written:
            os.fsync(written.fileno())
        if digest_of(new) != digest_of(made) or (made.suffix == ".sqlite3" and not sealed(new)):
            raise BackupRefused(gettext("what was written is not what was read: take another stick."))
        with suppress(OSError):
            new.chmod(0o600)
        new.replace(folder / made.name)
    finally:
        new.unlink(missing_ok=True)


def _thin(folder: Path, now: datetime) -> None:
    with suppress(OSError):
        for name in too_old((file.name for file in folder.iterdir()), now):
            (folder / name).unlink(missing_ok=True)


def _dump(file: Path) -> None:
    """PostgreSQL's own tool into one file, which its other tool can read."""
    if shutil.which("pg_dump") is None or shutil.which("pg_restore") is None:
        raise BackupRefused(gettext("pg_dump and pg_restore are not installed here: install PostgreSQL’s client."))
    new = file.with_name(f".{file.name}")
    try:
        environment.make_private(new)
        _run(["pg_dump", "--format=custom", "--no-password", "--file", str(new)])
        _run(["pg_restore", "--file", os.devnull, str(new)])
        new.replace(file)
    finally:
        new.unlink(missing_ok=True)


def _run(words: list[str]) -> None:
    told = subprocess.run(words, env=_postgresql(), capture_output=True, text=True, check=False, timeout=DUMP_SECONDS)
    if told.returncode:
        raise BackupRefused(f"{words[0]}: {told.stderr.strip()[-300:]}")


def _postgresql() -> dict[str, str]:
    """The environment in which PostgreSQL's tools find the database; a password stands in no command line."""
    said: dict[str, Any] = connection.get_connection_params()
    names = {"host": "PGHOST", "port": "PGPORT", "user": "PGUSER", "password": "PGPASSWORD", "dbname": "PGDATABASE"}
    return {**os.environ, **{names[key]: str(value) for key, value in said.items() if key in names and value}}


def _lock() -> sqlite3.Connection:
    return sqlite3.connect(own_folder() / LOCK, timeout=0, isolation_level=None)


def _alone(lock: sqlite3.Connection) -> bool:
    """Whether this process is the one that makes backups of this data folder."""
    if lock.in_transaction:
        return True
    try:
        lock.execute("BEGIN EXCLUSIVE")
    except sqlite3.Error:
        return False
    return True
