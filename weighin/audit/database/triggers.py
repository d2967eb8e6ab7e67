"""Database triggers that refuse update and delete on append-only tables (SQLite and PostgreSQL).

SQLite drops a table's triggers when a migration rebuilds the table, so they are made after every migrate. Its REPLACE
deletes without asking them unless ``recursive_triggers`` is on, which ``environment`` sees to; PostgreSQL's TRUNCATE
asks a trigger of its own.
"""

from typing import Any

from django.apps import AppConfig
from django.apps import apps as registry
from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper

from weighin.audit.models import AppendOnly

ACTS = ("update", "delete")
WHOLE_TABLE = "truncate"


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


def _goes(connection: BaseDatabaseWrapper, table: str) -> str:
    """When a row may go, by what it says and by whose it was; empty where none ever may."""
    for model in registry.get_models():
        if model._meta.db_table == table and issubclass(model, AppendOnly) and model.GO_WHERE is not None:
            name, value, key = model.GO_WHERE
            owner: Any = model._meta.get_field(key)
            column, whose = map(connection.ops.quote_name, (owner.column, owner.related_model._meta.db_table))
            said = f"OLD.{connection.ops.quote_name(name)} = '{value}'"
            return f"{said} AND NOT EXISTS (SELECT 1 FROM {whose} WHERE id = OLD.{column})"
    return ""


def _name(connection: BaseDatabaseWrapper, table: str, act: str) -> str:
    return connection.ops.quote_name(f"{table}_refuses_{act}")
