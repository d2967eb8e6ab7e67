"""Insert a row by a statement that is made once for its model: at the scale table every millisecond is somebody's wait."""

from functools import lru_cache
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connections, models

from weighin.audit.models import AppendOnly, AppendOnlyError

AS_THEY_ARE = (models.CharField, models.IntegerField, models.BooleanField)


def add(row: AppendOnly) -> None:
    """Insert an append-only row. No signals are sent, and a key that the database makes is not fetched.

    Raises AppendOnlyError when the row is kept already.
    """
    if not row._state.adding:
        raise AppendOnlyError(f"this {row._meta.verbose_name} is already kept: record a new one instead")
    here = connections[DEFAULT_DB_ALIAS]
    statement, plain, others = _statement(type(row), here.vendor)
    values = [getattr(row, name) for name in plain]
    values += [field.get_db_prep_save(getattr(row, field.attname), here) for field in others]
    with here.cursor() as cursor:
        cursor.execute(statement, values)
    row._state.adding = False


@lru_cache(maxsize=100)
def _statement(model: type[models.Model], vendor: str) -> tuple[str, tuple[str, ...], tuple[Any, ...]]:
    """The statement, the attributes whose values go in as they are, and the fields that turn theirs into the database's."""
    quote = connections[DEFAULT_DB_ALIAS].ops.quote_name
    fields = [field for field in model._meta.concrete_fields if not isinstance(field, models.AutoField)]
    plain = [field for field in fields if isinstance(field, AS_THEY_ARE)]
    others = [field for field in fields if field not in plain]
    names = ", ".join(quote(str(field.column)) for field in (*plain, *others))
    places = ", ".join("%s" for _ in fields)
    statement = f"INSERT INTO {quote(model._meta.db_table)} ({names}) VALUES ({places})"  # noqa: S608 names of our own
    return statement, tuple(field.attname for field in plain), tuple(others)
