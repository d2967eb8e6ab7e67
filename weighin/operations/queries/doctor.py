"""Whether the machine and the site are fit for a day at the lake, one sentence a point."""

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.db.utils import DatabaseError
from django.utils import timezone
from django.utils.translation import gettext, ngettext

from weighin.audit.database.triggers import append_only_tables, is_guarded
from weighin.events.domain.clock import CLOCK_MAY_DIFFER
from weighin.events.models import Event
from weighin.operations.queries.demo_people import is_the_demo, open_log_ins
from weighin.operations.queries.ledgers import ledger_of
from weighin.safekeeping.database.later_layout import later_changes
from weighin.slips.models import WeighSlip

LEAST_FREE = 200 * 1024 * 1024
MEGABYTE = 1024 * 1024
# What environment.SQLITE asks of every connection: the power may go, and no slip that was answered goes with it
PRAGMAS = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "recursive_triggers": 1}


@dataclass(frozen=True)
class Point:
    """One thing looked at: whether it is well, and the sentence."""

    well: bool
    sentence: str


def examine() -> Iterator[Point]:
    """Look at the disk, the key, the database, its triggers, the ledgers, the clock and the names it answers to."""
    yield _disk(Path(settings.DATA))
    yield from _private()
    try:
        yield from _database()
    except DatabaseError as error:
        yield Point(
            False,
            gettext(
                "The database cannot be asked (%(error)s): check DATABASE_URL, and restore a backup if the file is broken."
            )
            % {"error": error},
        )
        return
    yield from _ledgers()
    yield from _log_ins()
    yield _clock()
    yield _names()


def _disk(data: Path) -> Point:
    free = shutil.disk_usage(data).free
    if free < LEAST_FREE:
        return Point(
            False,
            gettext("Only %(free)s MB are free at %(data)s: make room for 200 MB before the day.")
            % {"free": free // MEGABYTE, "data": data},
        )
    return Point(True, gettext("%(free)s MB are free at %(data)s.") % {"free": free // MEGABYTE, "data": data})


def _private() -> Iterator[Point]:
    """Telephone numbers, sessions and digests of passwords are for the owner of the data folder only."""
    data = Path(settings.DATA)
    database = Path(str(settings.DATABASES["default"]["NAME"]))
    ours = [(data, "700"), (data / "secret-key", "600"), *[(file, "600") for file in (database,) if file.is_file()]]
    open_to_others = [
        (file, mode) for file, mode in ours if os.name == "posix" and file.exists() and file.stat().st_mode & 0o077
    ]
    for file, mode in open_to_others:
        yield Point(
            False,
            gettext("Others on this machine can read %(file)s: chmod %(mode)s it.") % {"file": file, "mode": mode},
        )
    if not open_to_others:
        yield Point(True, gettext("The data folder, the database and the secret key are their owner’s alone."))


def _database() -> Iterator[Point]:
    behind = MigrationExecutor(connection)
    later = later_changes(behind.loader)
    if later:
        yield Point(
            False,
            gettext("A later version of the site has been at the database (%(later)s): start that version.")
            % {"later": later[0]},
        )
    plan = behind.migration_plan(behind.loader.graph.leaf_nodes())
    yield Point(
        not plan,
        gettext("%(plan)s changes of the database are not made yet: run 'manage.py migrate'.") % {"plan": len(plan)}
        if plan
        else gettext("The database is set up for this version."),
    )
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            wrong = [name for name, wanted in PRAGMAS.items() if _pragma(cursor, name) != wanted]
            yield Point(
                not wrong,
                gettext(
                    "SQLite does not keep to %(wrong)s: is the data folder on a network drive? Keep it on the machine’s own disk."
                )
                % {"wrong": ", ".join(wrong)}
                if wrong
                else gettext("What is answered is on the disk (write-ahead log, full synchronization)."),
            )
            said = str(_pragma(cursor, "quick_check"))
            yield Point(
                said == "ok",
                gettext("The database file is whole.")
                if said == "ok"
                else gettext("The database file is broken (%(said)s): restore a backup.") % {"said": said},
            )
        missing = [table for table in append_only_tables() if not is_guarded(connection, table)]
    yield Point(
        not missing,
        gettext("Nothing guards %(missing)s from being changed: run 'manage.py migrate' again.")
        % {"missing": ", ".join(missing)}
        if missing
        else gettext("Slips, check-ins and history can only be added to."),
    )


def _pragma(cursor: Any, name: str) -> Any:
    cursor.execute(f"PRAGMA {name}")
    return cursor.fetchone()[0]


def _ledgers() -> Iterator[Point]:
    events = Event.everyone.order_by("slug")
    broken = [event.slug for event in events if ledger_of(event).faults]
    if broken:
        yield Point(
            False,
            gettext("The ledger of %(broken)s does not hold: 'manage.py check_ledger' says where.")
            % {"broken": ", ".join(broken)},
        )
    else:
        yield Point(
            True,
            ngettext("The ledgers hold (%(events)s event).", "The ledgers hold (%(events)s events).", len(events))
            % {"events": len(events)},
        )


def _log_ins() -> Iterator[Point]:
    """The demo's passwords are printed: on a site with people of its own they open it to everyone."""
    known = open_log_ins()
    if known and is_the_demo():
        yield Point(
            True, gettext("This is the demo: everyone knows its log-ins, so keep your own club in another folder.")
        )
    elif known:
        yield Point(
            False,
            gettext(
                "Everyone knows the password of %(names)s: it stands in the demo’s files. Give each another one with 'manage.py reset_password'."
            )
            % {"names": ", ".join(known)},
        )
    else:
        yield Point(True, gettext("None of the demo’s log-ins opens this site."))


def _clock() -> Point:
    now = timezone.now()
    latest = WeighSlip.objects.order_by("-received_at").values_list("received_at", flat=True).first()
    if latest is not None and latest > now + CLOCK_MAY_DIFFER:
        return Point(
            False,
            gettext("The clock says %(now)s UTC, before the last slip came in (%(latest)s UTC): set it.")
            % {"now": f"{now:%Y-%m-%d %H:%M}", "latest": f"{latest:%Y-%m-%d %H:%M}"},
        )
    return Point(
        True,
        gettext("The clock says %(now)s UTC: compare it with a telephone’s.") % {"now": f"{now:%Y-%m-%d %H:%M:%S}"},
    )


def _names() -> Point:
    return Point(
        True,
        gettext("The site answers to %(allowed_hosts)s; others by WEIGHIN_HOSTS.")
        % {"allowed_hosts": ", ".join(settings.ALLOWED_HOSTS)},
    )
