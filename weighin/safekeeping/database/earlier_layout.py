"""Which layout the site's database has; one of the earlier layout is opened by ``upgrade_database`` alone."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from django.core.management import CommandError
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.utils import DatabaseError

from weighin.safekeeping.domain.earlier_layout import ENDED, MIGRATIONS, Migration

RUN_UPGRADE = (
    "This database was made by an earlier version of the site: run 'manage.py upgrade_database' once. It makes a "
    "backup first and keeps every row."
)
_let_in = ContextVar("_let_in", default=False)


@contextmanager
def earlier_layout_let_in() -> Iterator[None]:
    """Open a database of the earlier layout meanwhile too."""
    before = _let_in.set(True)
    try:
        yield
    finally:
        _let_in.reset(before)


def refuse_earlier_layout(connection: BaseDatabaseWrapper, **kwargs: Any) -> None:
    """Signal handler of connection_created: no command makes empty tables beside the rows of the earlier layout."""
    if not _let_in.get() and _has_ended_apps(connection):
        connection.close()
        raise CommandError(RUN_UPGRADE)


def applied_and_tables(connection: BaseDatabaseWrapper) -> tuple[set[Migration], set[str]]:
    """The applied migrations and the names of all tables."""
    with connection.cursor() as cursor:
        tables = set(connection.introspection.table_names(cursor))
        if MIGRATIONS not in tables:
            return set(), tables
        cursor.execute(f"SELECT app, name FROM {MIGRATIONS}")  # noqa: S608 a name of our own
        return {(app, name) for app, name in cursor.fetchall()}, tables


def _has_ended_apps(connection: BaseDatabaseWrapper) -> bool:
    places = ", ".join("%s" for _ in ENDED)
    try:
        with connection.cursor() as cursor:
            cursor.execute(f"SELECT 1 FROM {MIGRATIONS} WHERE app IN ({places}) LIMIT 1", ENDED)  # noqa: S608 as above
            return cursor.fetchone() is not None
    except DatabaseError:
        return False  # nothing is migrated yet, or it is no database of ours: whoever asked says so
