"""Run a statement that is written out, or made once for a model: at the scale table every millisecond is somebody's wait.

On SQLite it goes straight to the connection's own cursor, which halves its cost; elsewhere, and where queries are
being captured, through Django's.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connections, models

from weighin.audit.models import AppendOnly, AppendOnlyError

AS_THEY_ARE = (models.CharField, models.IntegerField, models.BooleanField)


def run(statement: str, values: Sequence[Any]) -> Any:
    """Run a statement with ``%s`` for its values; the first row that it gives, or None."""
    here = connections[DEFAULT_DB_ALIAS]
    if here.vendor != "sqlite" or here.force_debug_cursor or here.execute_wrappers:
        with here.cursor() as cursor:
            cursor.execute(statement, values)
            return cursor.fetchone() if cursor.description else None
    if here.connection is None:
        here.ensure_connection()
    with here.wrap_database_errors:
        found = here.connection.execute(_for_sqlite(statement), values)
        row = found.fetchone()
        found.close()
    return row


def add(row: AppendOnly) -> None:
    """Insert an append-only row. No signals are sent, and a key that the database makes is not fetched.

    Raises AppendOnlyError when the row is kept already.
    """
    if not row._state.adding:
        raise AppendOnlyError(f"this {row._meta.verbose_name} is already kept: record a new one instead")
    here = connections[DEFAULT_DB_ALIAS]
    statement, plain, others = _insertion(type(row), here.vendor)
    run(statement, _values(row, plain, others, here))
    row._state.adding = False


def add_all(rows: Sequence[models.Model]) -> None:
    """Insert rows of one model, whose keys are made already: several times as fast as by the ORM. No signals are sent."""
    if not rows:
        return
    here = connections[DEFAULT_DB_ALIAS]
    statement, plain, others = _insertion(type(rows[0]), here.vendor)
    with here.cursor() as cursor:
        cursor.executemany(statement, [_values(row, plain, others, here) for row in rows])
    for row in rows:
        row._state.adding = False


def _values(row: models.Model, plain: Sequence[str], others: Sequence[Any], here: Any) -> list[Any]:
    said = row.__dict__
    values = [said[name] for name in plain]
    for field in others:
        value = said[field.attname]
        values.append(None if value is None else field.get_db_prep_save(value, here))
    return values


def is_kept(model: type[models.Model], name: str, value: Any) -> bool:
    """Whether a row of the model has the value in the field of that name."""
    here = connections[DEFAULT_DB_ALIAS]
    field = model._meta.get_field(name)
    return run(_question(model, name), (field.get_db_prep_value(value, here),)) is not None  # type: ignore[union-attr]


@lru_cache(maxsize=100)
def _question(model: type[models.Model], name: str) -> str:
    quote = connections[DEFAULT_DB_ALIAS].ops.quote_name
    column = quote(str(model._meta.get_field(name).column))  # type: ignore[union-attr]
    return f"SELECT 1 FROM {quote(model._meta.db_table)} WHERE {column} = %s"  # noqa: S608 names of our own


@lru_cache(maxsize=100)
def _insertion(model: type[models.Model], vendor: str) -> tuple[str, tuple[str, ...], tuple[Any, ...]]:
    """The statement, the attributes whose values go in as they are, and the fields that turn theirs into the database's."""
    quote = connections[DEFAULT_DB_ALIAS].ops.quote_name
    fields = [field for field in model._meta.concrete_fields if not isinstance(field, models.AutoField)]
    plain = [field for field in fields if isinstance(field, AS_THEY_ARE)]
    others = [field for field in fields if field not in plain]
    names = ", ".join(quote(str(field.column)) for field in (*plain, *others))
    places = ", ".join("%s" for _ in fields)
    statement = f"INSERT INTO {quote(model._meta.db_table)} ({names}) VALUES ({places})"  # noqa: S608 names of our own
    return statement, tuple(field.attname for field in plain), tuple(others)


@lru_cache(maxsize=100)
def _for_sqlite(statement: str) -> str:
    return statement.replace("%s", "?")
