"""Kept databases of layouts that were, put into a new place on SQLite or, where the tests run on it, PostgreSQL."""

import gzip
import json
import math
import os
import shutil
import sqlite3
import uuid
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from served import Site

FOLDER = Path(__file__).resolve().parent
SERVER = os.environ.get("DATABASE_URL", "")
ON_POSTGRESQL = SERVER.startswith("postgresql")


def _text(name: str) -> str:
    return gzip.decompress((FOLDER / name).read_bytes()).decode()


def said_of(kept: str) -> dict[str, Any]:
    """What the version that made a kept database said of it."""
    found: dict[str, Any] = json.loads(_text(f"{kept}.said.json.gz"))
    return found


# Of the layout with ``scale`` and ``fishcare``
BEFORE = "before"
SAID = said_of(BEFORE)
# Of the layout in which every app has its first migration alone
AT_0001 = "at_0001"


EXPORT_ALL = """
from django.core.management import call_command
for slug in {slugs}:
    call_command("export_event", slug, "--format", "json")
"""


@dataclass(frozen=True)
class Place:
    """A site and its database, asked past the site."""

    site: Site
    name: str
    sqlite: bool = not ON_POSTGRESQL

    def ask(self, statement: str, *values: Any) -> list[tuple[Any, ...]]:
        """Run one statement; the rows that it gives."""
        with closing(_connect(self.site.data, self.name, self.sqlite)) as database:
            found = database.execute(statement, values) if self.sqlite else database.execute(statement, values or None)
            rows = found.fetchall() if found.description else []
            database.commit()
            return [tuple(row) for row in rows]

    def tables(self) -> set[str]:
        asked = (
            "SELECT tablename FROM pg_tables WHERE schemaname = 'public'"
            if not self.sqlite
            else "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        )
        return {name for (name,) in self.ask(asked)}

    def whole(self) -> dict[str, list[str]]:
        """Every row of every table, as texts in an order of their own."""
        return {table: sorted(map(repr, self.ask(f'SELECT * FROM "{table}"'))) for table in self.tables()}

    def copy(self, data: Path) -> "Place":
        """The same database in a place of its own."""
        if ON_POSTGRESQL:
            name = _new_database(template=self.name)
            return Place(Site(data, DATABASE_URL=_url(name)), name)
        shutil.copyfile(self.site.data / self.name, data / self.name)
        return Place(Site(data), self.name)


def empty_place(data: Path) -> Place:
    """A place with no table at all."""
    if ON_POSTGRESQL:
        name = _new_database()
        return Place(Site(data, DATABASE_URL=_url(name)), name)
    return Place(Site(data), "weighin.sqlite3")


def earlier_place(data: Path, kept: str = BEFORE) -> Place:
    """A place with a kept database."""
    place = empty_place(data)
    rows = _text(f"{kept}.sql.gz")
    if not ON_POSTGRESQL:
        with closing(sqlite3.connect(data / place.name)) as database:
            database.executescript(rows)
        (data / place.name).chmod(0o600)
        return place
    with closing(sqlite3.connect(":memory:")) as source, closing(_connect(data, place.name)) as database:
        source.executescript(rows)
        database.execute(_text(f"{kept}.postgresql.sql.gz"))
        for table in said_of(kept)["rows"]:
            found = source.execute(f'SELECT * FROM "{table}"')
            names = ", ".join(f'"{column[0]}"' for column in found.description)
            places = ", ".join("%s" for _ in found.description)
            database.cursor().executemany(
                f'INSERT INTO "{table}" ({names}) VALUES ({places})', [_as_texts(row) for row in found]
            )
        for table, last in source.execute("SELECT name, seq FROM sqlite_sequence WHERE seq > 0"):
            database.execute("SELECT setval(pg_get_serial_sequence(%s, 'id'), %s)", (table, last))
        database.commit()
    return place


def exported(place: Place, slugs: Sequence[str]) -> list[Any]:
    """What ``export_event --format json`` says of each event."""
    told = place.site.manage("shell", "--no-imports", "-c", EXPORT_ALL.format(slugs=list(slugs)))
    decoder, text, found = json.JSONDecoder(), told.stdout, []
    while text.strip():
        document, end = decoder.raw_decode(text.lstrip())
        found.append(document)
        text = text.lstrip()[end:]
    assert len(found) == len(slugs), told.stderr
    return found


def same(now: Any, before: Any) -> bool:
    """Whether two documents say the same; the ends of a range may differ in what another library rounds."""
    if isinstance(before, dict):
        return list(now) == list(before) and all(same(now[name], before[name]) for name in before)
    if isinstance(before, list):
        return len(now) == len(before) and all(map(same, now, before))
    return math.isclose(now, before, rel_tol=1e-9) if isinstance(before, float) else bool(now == before)


def columns(place: Place, table: str) -> list[str]:
    if ON_POSTGRESQL:
        asked = "SELECT column_name FROM information_schema.columns WHERE table_schema = 'public' AND table_name = %s"
        return [name for (name,) in place.ask(asked, table)]
    return [row[1] for row in place.ask(f"PRAGMA table_info({table})")]


def schema(place: Place) -> list[tuple[Any, ...]]:
    """Tables, columns, nullability, keys, unique constraints, indexes and triggers."""
    if not ON_POSTGRESQL:
        return sorted(place.ask("SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_master"))
    return sorted(
        place.ask(
            "SELECT 'column', table_name, column_name, data_type, is_nullable, coalesce(column_default, ''), "
            "coalesce(character_maximum_length, 0)::text FROM information_schema.columns WHERE table_schema = 'public' "
            "UNION ALL SELECT 'constraint', conrelid::regclass::text, conname, pg_get_constraintdef(oid), '', '', '' "
            "FROM pg_constraint WHERE connamespace = 'public'::regnamespace "
            "UNION ALL SELECT 'index', tablename, indexname, indexdef, '', '', '' FROM pg_indexes WHERE schemaname = 'public' "
            "UNION ALL SELECT 'trigger', tgrelid::regclass::text, tgname, pg_get_triggerdef(t.oid), '', '', '' FROM pg_trigger t "
            "JOIN pg_class c ON c.oid = tgrelid WHERE NOT tgisinternal AND relnamespace = 'public'::regnamespace"
        )
    )


def _as_texts(row: Sequence[Any]) -> list[str | None]:
    """PostgreSQL reads a text as whatever its column holds."""
    return [None if value is None else str(value) for value in row]


def _connect(data: Path, name: str, sqlite: bool = not ON_POSTGRESQL) -> Any:
    if sqlite:
        return sqlite3.connect(data / name)
    import psycopg

    return psycopg.connect(_url(name), options="-c timezone=UTC")


def _new_database(template: str = "template0") -> str:
    import psycopg

    name = f"upgrade_{uuid.uuid4().hex[:12]}"
    with psycopg.connect(SERVER, autocommit=True) as server:
        server.execute(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
    return name


def _url(name: str) -> str:
    return urlsplit(SERVER)._replace(path=f"/{name}").geturl()
