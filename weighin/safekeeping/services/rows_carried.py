"""Carry the rows of the earlier layout into tables that this version has just made."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.apps import apps
from django.db import connection
from django.db.models import Field, Model

from weighin.safekeeping.domain.earlier_layout import MOVED, TABLES

# Runs a statement with %s for its values; the rows that it gives
Run = Callable[[str, Sequence[Any]], list[tuple[Any, ...]]]
# What stands in a column that they never had where one value would not do for all rows
WORKED_OUT = {("roster_entry", "number"): "ROW_NUMBER() OVER (PARTITION BY event_id ORDER BY id)"}
# What this version finds out anew; the rows of before come in their place, since other tables point to them
FILLED_BY_MIGRATE = ("auth_permission", "django_content_type")


class UpgradeRefused(Exception):
    """Why nothing was done, and what to do."""


@dataclass(frozen=True)
class Carried:
    """A table of before, the one that has its rows now, and how many they are."""

    before: str
    after: str
    rows: int


def carry_rows(run: Run, source: str, columns: Mapping[str, Collection[str]], order: str = "") -> list[Carried]:
    """Carry every row of every table in the schema ``source``, whose tables have ``columns``.

    A column that is new gets its field's default. Raises UpgradeRefused where something of before has no place.
    """
    models = models_by_table()
    for table in FILLED_BY_MIGRATE:
        run(f"DELETE FROM {table}", ())  # noqa: S608 a name of our own, as all below
    carried = []
    for before, after in TABLES.items():
        places, given, values = _columns(models[after], before, columns[before])
        run(f"INSERT INTO {_quote(after)} ({places}) SELECT {given} FROM {source}.{_quote(before)} {order}", values)  # noqa: S608
        carried.append(_counted(run, f"{source}.{_quote(before)}", before, after))
    for before, after in MOVED.items():
        app, _, name = before.partition("_")
        of = models[after]._meta
        run(
            "UPDATE django_content_type SET app_label = %s, model = %s WHERE app_label = %s AND model = %s",
            (of.app_label, of.model_name, app, name),
        )
    return carried


def models_by_table() -> dict[str, type[Model]]:
    """Every model by the name of its table, those between two others too."""
    return {model._meta.db_table: model for model in apps.get_models(include_auto_created=True)}


def _columns(model: type[Model], before: str, had: Collection[str]) -> tuple[str, str, list[Any]]:
    """The columns to fill, what fills them, and the values in it."""
    fields = {str(field.column): field for field in model._meta.local_concrete_fields}
    homeless = sorted(set(had) - set(fields))
    if homeless:
        raise UpgradeRefused(f"{before}.{homeless[0]} has no place in this version. Nothing was changed.")
    worked_out = {name: said for (table, name), said in WORKED_OUT.items() if table == model._meta.db_table}
    new = [name for name in fields if name not in had and name not in worked_out]
    given = ", ".join("%s" if name in new else worked_out.get(name, _quote(name)) for name in fields)
    return ", ".join(map(_quote, fields)), given, [_of_rows_before(fields[name]) for name in new]


def _of_rows_before(field: "Field[Any, Any]") -> Any:
    """What a column that they never had says of rows of before."""
    return field.get_db_prep_save(field.get_default(), connection)


def _counted(run: Run, source: str, before: str, after: str) -> Carried:
    (was,), (now,) = (run(f"SELECT count(*) FROM {table}", ())[0] for table in (source, _quote(after)))  # noqa: S608
    if was != now:
        raise UpgradeRefused(f"Of {was} rows of {before} {now} came over. Nothing was changed.")
    return Carried(before, after, was)


def _quote(name: str) -> str:
    return connection.ops.quote_name(name)
