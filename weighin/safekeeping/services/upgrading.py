"""Bring a database of the earlier layout into the present one: all of it, or nothing."""

import sqlite3
import tempfile
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.contenttypes.models import ContentType
from django.core.management import call_command
from django.db import DatabaseError, connection, transaction
from django.db.models import AutoField

from weighin import environment
from weighin.audit.database.in_use import InUse, alone
from weighin.safekeeping.database.earlier_layout import applied_and_tables, earlier_layout_let_in
from weighin.safekeeping.domain.earlier_layout import MIGRATIONS, TABLES, Layout, lacking, layout_of
from weighin.safekeeping.services.backups import (
    BackupRefused,
    back_up,
    last_line,
    managed,
    put_file_in_place,
    refuse_broken,
)
from weighin.safekeeping.services.rows_carried import Carried, UpgradeRefused, carry_rows, models_by_table

Say = Callable[[str], Any]
COUNTED_BEFORE = {"slips": "SELECT count(*) FROM scale_weighslip"}
KEPT_IN = "before_upgrade"
PATIENCE = "10s"
MIGRATE = ("migrate", "--verbosity", "0", "--no-input")


def upgrade(say: Say, unproven: bool = False) -> None:
    """Bring the site's database into the present layout, saying what is done.

    ``unproven`` also takes one whose ledgers do not hold. Raises UpgradeRefused, with nothing changed, for a database
    that is not wholly of the earlier layout, one in use, and one whose rows do not all come over.
    """
    with earlier_layout_let_in():
        try:
            applied, tables = applied_and_tables(connection)
        except DatabaseError as error:
            raise UpgradeRefused(f"The database cannot be read ({error}): check DATABASE_URL.") from None
        found = layout_of(applied, tables)
        if found in (Layout.PRESENT, Layout.EMPTY):
            say("There is nothing to do: " + ("the database has this version's layout." if applied else _EMPTY))
            return
        wrong = ["it keeps other things"] if found is Layout.FOREIGN else lacking(applied, tables)
        if wrong:
            raise UpgradeRefused(
                f"This is no whole database of the version before ({wrong[0]}): start that version with it once, or "
                "take a backup. Nothing was changed."
            )
        say(
            f"This database is of the layout of an earlier version. Its {len(TABLES)} tables get their places in the "
            "present layout, each with every row; nothing is left out."
        )
        carried, kept = _on_sqlite(say, unproven) if connection.vendor == "sqlite" else _on_postgresql(say, unproven)
        for one in carried:
            say(f"  {one.before} -> {one.after}: rows {one.rows} before, {one.rows} after")
        say(f"Done. Start the server anew. {kept}")


_EMPTY = "nothing is kept here yet. 'manage.py migrate' makes a new database."


def _on_sqlite(say: Say, unproven: bool) -> tuple[list[Carried], str]:
    """Fill a new file from a backup, and put it in the database's place in one step once it is proven."""
    aside = environment.folder(Path(settings.DATA) / "backups")
    before = aside / f"before-upgrade-{datetime.now(UTC):%Y%m%d-%H%M%S}.sqlite3"
    begun = False
    try:
        with alone(connection), tempfile.TemporaryDirectory(prefix=".upgrading-", dir=settings.DATA) as folder:
            back_up(before, COUNTED_BEFORE)
            new = Path(folder) / "new.sqlite3"
            _manage(new, *MIGRATE)
            carried = _fill(new, before)
            _manage(new, *MIGRATE)  # finds the rights of this version's rows beside those that came over
            told = managed(new, "check_ledger")
            _prove(told.returncode == 0, told.stdout + told.stderr, say, unproven)
            begun = True
            put_file_in_place(new)
    except InUse:
        raise UpgradeRefused(
            "The site is in use by a server or another command: end it, then run this again. Nothing was changed."
        ) from None
    except BackupRefused as refused:
        raise UpgradeRefused(str(refused)) from None
    except sqlite3.Error as error:
        raise UpgradeRefused(f"The rows cannot come over ({error}). Nothing was changed.") from None
    finally:
        if not begun:
            before.unlink(missing_ok=True)
    return carried, f"What was here before is kept at {before}"


def _fill(new: Path, before: Path) -> list[Carried]:
    with closing(sqlite3.connect(new)) as database:

        def run(statement: str, values: Sequence[Any]) -> list[tuple[Any, ...]]:
            return database.execute(statement.replace("%s", "?"), values).fetchall()

        run("ATTACH %s AS before", (str(before),))
        kept = "SELECT name FROM before.sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite^_%' ESCAPE '^'"
        others = sorted({name for (name,) in run(kept, ())} - {*TABLES, MIGRATIONS})
        if others:
            raise UpgradeRefused(f"The table {others[0]} is none of this site's: remove it first. Nothing was changed.")
        columns = {
            table: [row[1] for row in run(f"PRAGMA before.table_info({table})", ())]  # no values are possible there
            for table in TABLES
        }
        with database:
            carried = carry_rows(run, "before", columns, "ORDER BY rowid")
            # Numbers of rows that are gone never come again: histories speak of them
            for table, last in run("SELECT name, seq FROM before.sqlite_sequence", ()):
                run("DELETE FROM sqlite_sequence WHERE name = %s", (TABLES.get(table, ""),))
                if table in TABLES:
                    run("INSERT INTO sqlite_sequence (name, seq) VALUES (%s, %s)", (TABLES[table], last))
        refuse_broken(database, before)
    return carried


def _manage(database: Path, *words: str) -> None:
    told = managed(database, *words)
    if told.returncode:
        raise UpgradeRefused(f"The new tables cannot be made ({last_line(told.stderr)}). Nothing was changed.")


def _on_postgresql(say: Say, unproven: bool) -> tuple[list[Carried], str]:
    """Put the old tables into a schema of their own and fill new ones from them, in one transaction."""
    try:
        with transaction.atomic(), connection.cursor() as cursor:

            def run(statement: str, values: Sequence[Any] = ()) -> list[tuple[Any, ...]]:
                cursor.execute(statement, values or None)
                return cursor.fetchall() if cursor.description else []

            columns = {
                table: [column.name for column in connection.introspection.get_table_description(cursor, table)]
                for table in TABLES
            }
            if run("SELECT 1 FROM pg_namespace WHERE nspname = %s", [KEPT_IN]):
                raise UpgradeRefused(
                    f"There is a schema {KEPT_IN} already: drop it or rename it, then run this again. Nothing was changed."
                )
            run(f"SET LOCAL lock_timeout = '{PATIENCE}'")
            run(f"CREATE SCHEMA {KEPT_IN}")
            for table in (*TABLES, MIGRATIONS):
                run(f"ALTER TABLE {connection.ops.quote_name(table)} SET SCHEMA {KEPT_IN}")
            call_command(*MIGRATE)
            carried = carry_rows(run, KEPT_IN, columns)
            _go_on_counting(run)
            ContentType.objects.clear_cache()
            call_command(*MIGRATE)
            run("SET CONSTRAINTS ALL IMMEDIATE")
            _prove(*_ledgers(), say, unproven)
    except DatabaseError as error:
        raise UpgradeRefused(
            f"PostgreSQL refused it ({last_line(str(error))}): end the server, connect as the database's owner, then "
            "run this again. Nothing was changed."
        ) from None
    return carried, f"What was here before is kept in the schema {KEPT_IN}: drop it when all is well."


def _go_on_counting(run: Callable[..., list[tuple[Any, ...]]]) -> None:
    """Numbers of rows that are gone never come again: histories speak of them."""
    models = models_by_table()
    for before, after in TABLES.items():
        if isinstance(models[after]._meta.pk, AutoField):
            (was, now), *_ = run(
                "SELECT pg_get_serial_sequence(%s, 'id'), pg_get_serial_sequence(%s, 'id')",
                [f"{KEPT_IN}.{before}", after],
            )
            run(f"SELECT setval(%s, last_value, is_called) FROM {was}", [now])  # noqa: S608 PostgreSQL's own name


def _ledgers() -> tuple[bool, str]:
    said = StringIO()
    try:
        call_command("check_ledger", stdout=said)
    except SystemExit:
        return False, said.getvalue()
    return True, said.getvalue()


def _prove(holds: bool, told: str, say: Say, unproven: bool) -> None:
    if not holds and not unproven:
        raise UpgradeRefused(
            f"The ledgers do not hold: {told.strip()} Nothing was changed. If there is no better copy, --unproven takes "
            "it as it is."
        )
    say(told.strip())
