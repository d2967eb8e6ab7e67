"""Whether everything can be written that a day at the lake writes: tried, not asked."""

import os
from collections.abc import Iterator
from contextlib import suppress
from datetime import timedelta
from pathlib import Path
from uuid import uuid4

from django.contrib.sessions.models import Session
from django.db.utils import DatabaseError
from django.utils import timezone
from django.utils.translation import gettext

from weighin.audit.services import writing
from weighin.operations.queries.doctor import Point
from weighin.safekeeping.queries.backups import can_drill, copies, drilled, event_today, folders, warnings
from weighin.safekeeping.services.keeping_backups import why_no_second
from weighin.ui.outages import Outage, outage_of

BYTES = 64 * 1024
A_SEASON = timedelta(days=120)


def try_writing() -> Iterator[Point]:
    """Write into the database and into every folder of backups, and say how it went; how old backups and drill are."""
    yield _database()
    places = folders()
    for folder in places:
        yield _folder(folder)
    if len(places) == 1:
        yield Point(True, gettext("Backups go to one disk: WEIGHIN_BACKUP_TO names a second one, or a stick."))
    for folder in places[1:]:
        if folder.is_dir() and (why := why_no_second(folder)):
            yield Point(False, why)
    yield from _backups()


def _database() -> Point:
    """A row that nobody reads comes and goes, in two transactions that wait for the disk as a slip does."""
    key = f"doctor-{uuid4().hex[:24]}"
    try:
        with writing():
            Session.objects.create(session_key=key, session_data="", expire_date=timezone.now())
        with writing():
            Session.objects.filter(session_key=key).delete()
    except DatabaseError as fault:
        found = outage_of(fault) or Outage.OTHER
        return Point(
            False,
            gettext("Nothing can be written into the database (%(fault)s). %(outage)s")
            % {"fault": fault, "outage": found.sentence},
        )
    return Point(True, gettext("The database takes what is written."))


def _folder(folder: Path) -> Point:
    if not folder.is_dir():
        return Point(False, why_no_second(folder))
    tried = folder / f".doctor-{os.getpid()}"
    said = os.urandom(BYTES)
    try:
        with tried.open("wb") as file:
            file.write(said)
            file.flush()
            os.fsync(file.fileno())
        held = tried.read_bytes() == said
    except OSError as fault:
        return Point(
            False,
            gettext("Nothing can be written at %(folder)s (%(fault)s): make room, or look at its rights.")
            % {"folder": folder, "fault": fault.strerror},
        )
    finally:
        with suppress(OSError):
            tried.unlink(missing_ok=True)
    if not held:
        return Point(
            False,
            gettext("%(folder)s does not give back what was written: take another disk or stick.") % {"folder": folder},
        )
    return Point(True, gettext("Backups can be written at %(folder)s.") % {"folder": folder})


def _backups() -> Iterator[Point]:
    now = timezone.now()
    today = warnings(now) if event_today(now) else []
    for sentence in today:
        yield Point(False, sentence)
    for one in copies():
        if one.at is not None and not today:
            yield Point(
                True,
                gettext("The last backup at %(folder)s is of %(at)s UTC.")
                % {"folder": one.folder, "at": f"{one.at:%Y-%m-%d %H:%M}"},
            )
    drill = drilled()
    if not can_drill():
        return
    if drill is None:
        yield Point(True, gettext("No restore was ever tried here: 'manage.py restore --drill' tries one."))
        return
    at, name, held = drill
    said = {"name": name, "at": f"{at:%Y-%m-%d}"}
    if not held:
        yield Point(False, gettext("The drill of %(at)s failed with %(name)s: make a backup and try again.") % said)
    elif now - at > A_SEASON:
        yield Point(
            True,
            gettext("The last drill, with %(name)s, is of %(at)s: 'manage.py restore --drill' tries one again.") % said,
        )
    else:
        yield Point(True, gettext("A restore was drilled on %(at)s with %(name)s, and held.") % said)
