"""Bring everything the site keeps from SQLite to PostgreSQL or back: every row, or nothing."""

import hashlib
import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from io import StringIO
from itertools import islice
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.exceptions import ImproperlyConfigured
from django.core.management import call_command
from django.db import DatabaseError, connections, transaction
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.models import AutoField, Model
from django.utils.translation import gettext

from weighin import environment
from weighin.audit.database.in_use import InUse, alone
from weighin.audit.database.triggers import append_only_tables, is_guarded
from weighin.safekeeping.domain.earlier_layout import MIGRATIONS
from weighin.safekeeping.services.backups import last_line
from weighin.safekeeping.services.rows_carried import models_by_table

HERE, THERE = "default", "moved_to"
MANY = 500
# What processes on PostgreSQL count together for some minutes: migrate makes it there, and nothing of it moves
COUNTS = "weighin_counts"


class MoveRefused(Exception):
    """Why nothing was moved, and what to do."""


@dataclass(frozen=True)
class Moved:
    """A table with its rows in both databases, and whether every value is the same."""

    table: str
    here: int
    there: int
    same: bool


def move(url: str, say: Callable[[str], Any]) -> None:
    """Copy every row into the empty database at ``url`` and hold the two against each other; the old one stays as it is.

    Raises MoveRefused, with nothing left in the other database, when it is not empty, when the site is in use, and when
    a row, a ledger or a trigger is not the same there.
    """
    there = _other(url)
    try:
        _refuse_filled(there)
        _refuse_used(connections[HERE])
        with alone(connections[HERE]), _undone(there):
            _managed(url, "migrate", "--verbosity", "0", "--no-input")
            with transaction.atomic(HERE), transaction.atomic(THERE):
                _one_moment(connections[HERE])
                moved = _copy()
                _count_on(there)
            _hold(moved, there, url, say)
    except InUse:
        raise MoveRefused(
            gettext(
                "The site is in use by a server or another command: end it, then run this again. Nothing was moved."
            )
        ) from None
    except DatabaseError as fault:
        raise MoveRefused(
            gettext("The rows cannot come over (%(fault)s). Nothing was moved.") % {"fault": last_line(str(fault))}
        ) from None
    finally:
        there.close()


def _other(url: str) -> BaseDatabaseWrapper:
    try:
        found = environment.database_at(url)
    except ImproperlyConfigured as wrong:
        raise MoveRefused(str(wrong).replace("DATABASE_URL", gettext("The address"))) from None
    here = connections[HERE].settings_dict
    if all(str(found.get(key) or "") == str(here.get(key) or "") for key in ("ENGINE", "NAME", "HOST", "PORT")):
        raise MoveRefused(gettext("This is the site’s own database: name another one."))
    connections.settings[THERE] = connections.configure_settings({HERE: dict(here), THERE: found})[THERE]
    return connections[THERE]


def _refuse_filled(there: BaseDatabaseWrapper) -> None:
    try:
        tables = there.introspection.table_names()
    except DatabaseError as fault:
        raise MoveRefused(
            gettext("The other database cannot be opened (%(fault)s): look at its address, and whether it was made.")
            % {"fault": last_line(str(fault))}
        ) from None
    if tables:
        raise MoveRefused(
            gettext(
                "The other database is not empty (it has the table %(table)s): name a new one, so that nothing is lost."
            )
            % {"table": sorted(tables)[0]}
        )
    known = {*models_by_table(), MIGRATIONS, COUNTS}
    strange = sorted(name for name in connections[HERE].introspection.table_names() if name not in known)
    if strange:
        raise MoveRefused(
            gettext("The table %(table)s is none of this site’s: remove it first. Nothing was moved.")
            % {"table": strange[0]}
        )


def _refuse_used(here: BaseDatabaseWrapper) -> None:
    if here.vendor == "postgresql":
        with here.cursor() as cursor:
            cursor.execute(
                "SELECT 1 FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid() "
                "AND backend_type = 'client backend'"
            )
            if cursor.fetchone():
                raise InUse


@contextmanager
def _undone(there: BaseDatabaseWrapper) -> Iterator[None]:
    """Leave the other database as empty as it was when something goes wrong."""
    try:
        yield
    except BaseException:
        with there.cursor() as cursor:
            if there.vendor == "sqlite":
                cursor.execute("PRAGMA foreign_keys=OFF")
            cascade = " CASCADE" if there.vendor == "postgresql" else ""
            for table in there.introspection.table_names():
                cursor.execute(f"DROP TABLE {there.ops.quote_name(table)}{cascade}")
            if there.vendor == "postgresql":
                cursor.execute("DROP FUNCTION IF EXISTS weighin_refuse, weighin_refuse_registration_payment")
        raise


def _one_moment(here: BaseDatabaseWrapper) -> None:
    """See one moment of the old database throughout, whoever writes to it; SQLite's transaction does so anyway."""
    if here.vendor == "postgresql":
        with here.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")


def _copy() -> list[Moved]:
    models = models_by_table()
    with connections[THERE].cursor() as cursor:
        for table in models:  # what migrate writes into new tables stands among the rows that come
            cursor.execute(f"DELETE FROM {connections[THERE].ops.quote_name(table)}")  # noqa: S608 names of our own
    for model in models.values():
        rows = model._base_manager.using(HERE).order_by("pk").iterator(chunk_size=MANY)
        while some := list(islice(rows, MANY)):
            # Raw: the values as they are, no clock of this moment in them
            model._base_manager._insert(some, model._meta.local_concrete_fields, using=THERE, raw=True)  # type: ignore[attr-defined]
    return [_compared(table, model) for table, model in sorted(models.items())]


def _compared(table: str, model: type[Model]) -> Moved:
    (here, one), (there, other) = _digest(model, HERE), _digest(model, THERE)
    return Moved(table, here, there, one == other)


def _digest(model: type[Model], alias: str) -> tuple[int, str]:
    """The number of rows, and SHA-256 over every value in the order of their keys."""
    found, count = hashlib.sha256(), 0
    names = [field.attname for field in model._meta.local_concrete_fields]
    # In an order of our own: the two sort texts each in its way
    rows = model._base_manager.using(alias).values_list(*names).iterator(chunk_size=MANY)
    for row in sorted(json.dumps(_plain(row), sort_keys=True, default=str) for row in rows):
        found.update(row.encode())
        count += 1
    return count, found.hexdigest()


def _plain(value: Any) -> Any:
    """A value without what the two keep each in its way: the order of names, and 2.0 for 2 in JSON."""
    if isinstance(value, dict):
        return {name: _plain(each) for name, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _count_on(there: BaseDatabaseWrapper) -> None:
    """Numbers of rows that are gone never come again: histories speak of them."""
    for table, model in models_by_table().items():
        key = model._meta.pk
        if not isinstance(key, AutoField):
            continue
        last = max(_given(connections[HERE], table, str(key.column)), _highest(model))
        if not last:
            continue
        with there.cursor() as cursor:
            if there.vendor == "postgresql":
                cursor.execute("SELECT setval(pg_get_serial_sequence(%s, %s), %s)", [table, key.column, last])
            else:
                cursor.execute("DELETE FROM sqlite_sequence WHERE name = %s", [table])
                cursor.execute("INSERT INTO sqlite_sequence (name, seq) VALUES (%s, %s)", [table, last])


def _given(here: BaseDatabaseWrapper, table: str, column: str) -> int:
    """The largest number that the old database gave out in a table."""
    with here.cursor() as cursor:
        if here.vendor == "sqlite":
            cursor.execute("SELECT seq FROM sqlite_sequence WHERE name = %s", [table])
        else:
            cursor.execute("SELECT pg_get_serial_sequence(%s, %s)", [table, column])
            (sequence,) = cursor.fetchone()
            cursor.execute(f"SELECT last_value FROM {sequence} WHERE is_called")  # noqa: S608 PostgreSQL's own name
        row = cursor.fetchone()
    return int(row[0]) if row else 0


def _highest(model: type[Model]) -> int:
    found = model._base_manager.using(HERE).order_by("-pk").values_list("pk", flat=True).first()
    return int(found or 0)


def _hold(moved: list[Moved], there: BaseDatabaseWrapper, url: str, say: Callable[[str], Any]) -> None:
    width = max(len(one.table) for one in moved)
    heads = gettext("Table"), gettext("here"), gettext("there")
    say(f"{heads[0]:<{width}}  {heads[1]:>8}  {heads[2]:>8}")
    for one in moved:
        same = gettext("the same") if one.same else gettext("NOT THE SAME")
        say(f"{one.table:<{width}}  {one.here:>8}  {one.there:>8}  {same}")
    other = [one.table for one in moved if not one.same]
    if other:
        raise MoveRefused(gettext("%(table)s is not the same there. Nothing was moved.") % {"table": other[0]})
    open_to_all = [table for table in append_only_tables() if not is_guarded(there, table)]
    if open_to_all:
        raise MoveRefused(
            gettext("Nothing guards %(table)s from being changed there. Nothing was moved.") % {"table": open_to_all[0]}
        )
    here, there_said = _ledgers(), _managed(url, "check_ledger")
    say(there_said.strip())
    if here != there_said:
        raise MoveRefused(gettext("The ledgers there are not the ledgers here. Nothing was moved."))


def _ledgers() -> str:
    said = StringIO()
    with suppress(SystemExit):  # whether they hold or not: they are to be the same there
        call_command("check_ledger", stdout=said)
    return said.getvalue()


def _managed(url: str, *words: str) -> str:
    """Run a command on the other database, in a process that knows no other; what it printed."""
    with tempfile.TemporaryDirectory() as folder:
        told = subprocess.run(
            [sys.executable, str(Path(settings.BASE) / "manage.py"), *words],
            env={**os.environ, "DATABASE_URL": url, "WEIGHIN_DATA": folder},
            capture_output=True,
            text=True,
            check=False,
        )
    if told.returncode and words[0] != "check_ledger":
        raise MoveRefused(
            gettext("The new tables cannot be made (%(line)s). Nothing was moved.") % {"line": last_line(told.stderr)}
        )
    return told.stdout
