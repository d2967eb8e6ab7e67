"""Database triggers that refuse update and delete on append-only tables (SQLite and PostgreSQL).

SQLite drops a table's triggers when a migration rebuilds the table, so they are made after every migrate. Its REPLACE
deletes without asking them unless ``recursive_triggers`` is on, which ``environment`` sees to; PostgreSQL's TRUNCATE
asks a trigger of its own.

What hangs on a row that is removed as a whole may go while that row is there: it goes last. The column that says so is
written once, and so is every foreign key by which an append-only row hangs on it through another.
"""

from collections.abc import Iterator
from typing import Any

from django.apps import AppConfig
from django.apps import apps as registry
from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.models import Model

from weighin.audit.models import AppendOnly, RemovedWhole

ACTS = ("update", "delete")
WHOLE_TABLE = "truncate"
STAYS = "stays"


def append_only_tables() -> list[str]:
    """The tables of every append-only model."""
    return sorted(m._meta.db_table for m in registry.get_models() if issubclass(m, AppendOnly))


def install_after_migrate(sender: AppConfig, using: str, **kwargs: Any) -> None:
    """Signal handler of post_migrate: install the triggers of the app that was migrated."""
    connection = connections[using]
    present = set(connection.introspection.table_names())
    for model in sender.get_models():
        if issubclass(model, AppendOnly) and model._meta.db_table in present:
            install(connection, model._meta.db_table)
    for table, column in written_once():
        if table in present:
            _hold(connection, table, column)


def let_tables_be_made_anew(sender: AppConfig, using: str, **kwargs: Any) -> None:
    """Signal handler of pre_migrate: SQLite makes a table anew under another name, and meanwhile no trigger may name it."""
    connection = connections[using]
    if connection.vendor == "sqlite" and sender.name == "weighin.audit":
        present = set(connection.introspection.table_names())
        for table in append_only_tables():
            if table in present and _goes(connection, table):
                with connection.cursor() as cursor:
                    cursor.execute(f"DROP TRIGGER IF EXISTS {_name(connection, table, 'delete')}")


def install(connection: BaseDatabaseWrapper, table: str) -> None:
    """Make the refusing triggers of one table, replacing those that are there."""
    remove(connection, table)
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute(
                "CREATE OR REPLACE FUNCTION weighin_refuse() RETURNS trigger LANGUAGE plpgsql AS $$ "
                "BEGIN RAISE EXCEPTION '% rows are only ever added', TG_TABLE_NAME; END $$"
            )
        for act in ACTS:
            name = _name(connection, table, act)
            quoted = connection.ops.quote_name(table)
            goes = _goes(connection, table) if act == "delete" else ""
            if connection.vendor == "postgresql":
                function = "weighin_refuse"
                if goes:
                    function = connection.ops.quote_name(f"weighin_refuse_{table}")
                    cursor.execute(
                        f"CREATE OR REPLACE FUNCTION {function}() RETURNS trigger LANGUAGE plpgsql AS $$ "
                        f"BEGIN IF {goes} THEN RETURN OLD; END IF; "
                        "RAISE EXCEPTION '% rows are only ever added', TG_TABLE_NAME; END $$"
                    )
                cursor.execute(
                    f"CREATE TRIGGER {name} BEFORE {act.upper()} ON {quoted} FOR EACH ROW EXECUTE FUNCTION {function}()"
                )
            else:
                cursor.execute(
                    f"CREATE TRIGGER {name} BEFORE {act.upper()} ON {quoted} {f'WHEN NOT ({goes})' if goes else ''} "
                    f"BEGIN SELECT RAISE(ABORT, '{table} rows are only ever added'); END"
                )
        if connection.vendor == "postgresql":
            name = _name(connection, table, WHOLE_TABLE)
            cursor.execute(
                f"CREATE TRIGGER {name} BEFORE TRUNCATE ON {connection.ops.quote_name(table)} EXECUTE FUNCTION weighin_refuse()"
            )


def remove(connection: BaseDatabaseWrapper, table: str) -> None:
    """Take one table's triggers away: for migrations of the table and for emptying a test database only."""
    on = f" ON {connection.ops.quote_name(table)}" if connection.vendor == "postgresql" else ""
    with connection.cursor() as cursor:
        for act in (*ACTS, WHOLE_TABLE):
            cursor.execute(f"DROP TRIGGER IF EXISTS {_name(connection, table, act)}{on}")


def is_guarded(connection: BaseDatabaseWrapper, table: str) -> bool:
    """Whether the triggers of one table are there and asked."""
    wanted = {f"{table}_refuses_{act}" for act in ACTS}
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = %s", [table])
        else:
            cursor.execute(
                "SELECT tgname FROM pg_trigger WHERE tgrelid = to_regclass(%s) AND tgenabled <> 'D'", [table]
            )
        return wanted <= {name for (name,) in cursor.fetchall()}


def removed_whole() -> Iterator[tuple[type[RemovedWhole], list[tuple[type[Model], tuple[str, ...]]]]]:
    """Each model whose rows may be removed as a whole, with the models that hang on it and the columns by which they do.

    What hangs on what hangs on it stands before that. A plain number ``event_id`` is such a column of an event too.
    """
    for owner in registry.get_models():
        if issubclass(owner, RemovedWhole):
            found: dict[type[Model], tuple[str, ...]] = {owner: ()}
            waiting: list[type[Model]] = [owner]
            for holder in waiting:
                for model in registry.get_models():
                    by = _hangs(model, holder, owner)
                    if by and model not in found:
                        found[model] = (by, *found[holder])
                        waiting.append(model)
            yield owner, [(model, found[model]) for model in reversed(waiting) if model is not owner]


def written_once() -> Iterator[tuple[str, str]]:
    """Columns that are written with their row and never again, each with its table."""
    for owner, hanging in removed_whole():
        yield owner._meta.db_table, _column(owner, owner.REMOVED_WHERE_SET)
        for model, way in hanging:
            if issubclass(model, AppendOnly):
                for holder, name in [*_steps(model, way)][1:]:
                    yield holder._meta.db_table, _column(holder, name)


def _hangs(model: type[Model], holder: type[Model], owner: type[RemovedWhole]) -> str:
    """The field by which a model hangs on another, not only now and then; empty where it does not."""
    for field in model._meta.concrete_fields:
        if field.related_model is holder and model is not holder and not field.null:
            return str(field.name)
    plain = f"{owner._meta.model_name}_id"
    own = {field.name for field in model._meta.concrete_fields}
    return plain if holder is owner and plain in own else ""


def _hold(connection: BaseDatabaseWrapper, table: str, column: str) -> None:
    """Make the trigger that refuses another value of a column."""
    name = _name(connection, table, f"{column}_{STAYS}")
    quoted, kept = map(connection.ops.quote_name, (table, column))
    said = f"{table}.{column} stays as it was written"
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            function = connection.ops.quote_name(f"weighin_{table}_{column}_{STAYS}")
            cursor.execute(
                f"CREATE OR REPLACE FUNCTION {function}() RETURNS trigger LANGUAGE plpgsql AS $$ "
                f"BEGIN IF NEW.{kept} IS DISTINCT FROM OLD.{kept} THEN RAISE EXCEPTION '{said}'; END IF; RETURN NEW; END $$"
            )
            cursor.execute(f"DROP TRIGGER IF EXISTS {name} ON {quoted}")
            cursor.execute(
                f"CREATE TRIGGER {name} BEFORE UPDATE ON {quoted} FOR EACH ROW EXECUTE FUNCTION {function}()"
            )
        else:
            cursor.execute(f"DROP TRIGGER IF EXISTS {name}")
            cursor.execute(
                f"CREATE TRIGGER {name} BEFORE UPDATE OF {kept} ON {quoted} WHEN NEW.{kept} IS NOT OLD.{kept} "
                f"BEGIN SELECT RAISE(ABORT, '{said}'); END"
            )


def _goes(connection: BaseDatabaseWrapper, table: str) -> str:
    """When a row may go, by what it says and by whose it is or was; empty where none ever may."""
    name_of = connection.ops.quote_name
    ways = []
    for model in registry.get_models():
        if model._meta.db_table == table and issubclass(model, AppendOnly) and model.GO_WHERE is not None:
            name, value, key = model.GO_WHERE
            owner: Any = model._meta.get_field(key)
            column, whose = map(name_of, (owner.column, owner.related_model._meta.db_table))
            said = f"OLD.{name_of(name)} = '{value}'"
            ways.append(f"({said} AND NOT EXISTS (SELECT 1 FROM {whose} WHERE id = OLD.{column}))")
    for whole, hanging in removed_whole():
        for model, way in hanging:
            if model._meta.db_table == table:
                key = f"OLD.{name_of(_column(model, way[0]))}"
                for holder, name in [*_steps(model, way)][1:]:
                    column, whose = map(name_of, (_column(holder, name), holder._meta.db_table))
                    key = f"(SELECT {column} FROM {whose} WHERE id = {key})"
                whose, said = map(name_of, (whole._meta.db_table, _column(whole, whole.REMOVED_WHERE_SET)))
                ways.append(f"EXISTS (SELECT 1 FROM {whose} WHERE id = {key} AND {said} IS NOT NULL)")
    return " OR ".join(ways)


def _steps(model: Any, way: tuple[str, ...]) -> Iterator[tuple[type[Model], str]]:
    """Each model on the way up with the field that leads on from it."""
    for name in way:
        yield model, name
        model = model._meta.get_field(name).related_model


def _column(model: type[Model], name: str) -> str:
    field: Any = model._meta.get_field(name)
    return str(field.column)


def _name(connection: BaseDatabaseWrapper, table: str, act: str) -> str:
    return connection.ops.quote_name(f"{table}_refuses_{act}")
