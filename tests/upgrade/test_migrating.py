"""A database of the layout in which every app had its first migration alone comes to the layout of today by `migrate`."""

import json
from itertools import groupby
from operator import itemgetter
from pathlib import Path

import pytest
from upgrade.earlier_database import (
    AT_0001,
    Place,
    columns,
    earlier_place,
    empty_place,
    exported,
    said_of,
    same,
    schema,
)

from weighin.audit.database.triggers import append_only_tables

pytestmark = pytest.mark.database
SAID = said_of(AT_0001)
# Django adds to them what a version has more of: labels, rights, migrations; a history gets the line that begins its chain
GROWING = {"django_content_type", "auth_permission", "django_migrations", "audit_historyentry"}


@pytest.fixture(scope="module")
def earlier(tmp_path_factory: pytest.TempPathFactory) -> Place:
    return earlier_place(tmp_path_factory.mktemp("earlier"), AT_0001)


@pytest.fixture(scope="module")
def place(earlier: Place, tmp_path_factory: pytest.TempPathFactory) -> Place:
    place = earlier.copy(tmp_path_factory.mktemp("migrated"))
    told = place.site.manage("migrate", "--verbosity", "0")
    assert told.returncode == 0, told.stderr
    return place


def test_no_row_is_lost_and_none_is_made(place: Place) -> None:
    rows = {table: place.ask(f'SELECT count(*) FROM "{table}"')[0][0] for table in SAID["rows"]}
    assert {table: rows[table] for table in rows if table not in GROWING} == {
        table: count for table, count in SAID["rows"].items() if table not in GROWING
    }
    assert all(rows[table] >= SAID["rows"][table] for table in GROWING)


def test_the_ledgers_hold_with_as_many_slips(place: Place) -> None:
    told = place.site.manage("check_ledger")
    assert told.returncode == 0, told.stdout
    for line in SAID["check_ledger"].splitlines():
        assert line in told.stdout


def test_every_event_is_exported_as_it_was(place: Place) -> None:
    assert same(exported(place, list(SAID["events"])), list(SAID["events"].values()))


def test_entries_are_numbered_in_the_order_in_which_they_were_entered(place: Place) -> None:
    rows = place.ask("SELECT event_id, number FROM roster_entry ORDER BY event_id, id")
    assert rows and rows == [
        (event, n) for event, all_of in groupby(rows, itemgetter(0)) for n, _ in enumerate(all_of, 1)
    ]


def test_rows_that_are_only_added_say_what_they_said_and_are_locked(earlier: Place, place: Place) -> None:
    for table in append_only_tables():
        if table in SAID["rows"]:
            named = ", ".join(f'"{name}"' for name in columns(earlier, table))
            asked = f'SELECT {named} FROM "{table}"'
            begun = " WHERE act <> 'history.chained'" if table == "audit_historyentry" else ""
            assert sorted(map(repr, earlier.ask(asked))) == sorted(map(repr, place.ask(asked + begun))), table
        if place.ask(f'SELECT 1 FROM "{table}"'):
            with pytest.raises(Exception, match="only ever added"):
                place.ask(f'DELETE FROM "{table}"')


def test_the_layout_is_that_of_a_new_database(place: Place, tmp_path: Path) -> None:
    new = empty_place(tmp_path)
    assert new.site.manage("migrate", "--verbosity", "0").returncode == 0
    assert described(place) == described(new)
    assert place.site.manage("migrate", "--check").returncode == 0


def described(place: Place) -> dict[str, object]:
    """Columns of every table in an order of their own, since a later column stands last, and all else of the layout."""
    other = [row for row in schema(place) if row[0] not in ("table", "column")]
    return {table: sorted(columns(place, table)) for table in place.tables()} | {"": json.dumps(other, default=str)}


def test_migrating_again_does_nothing(place: Place) -> None:
    before = place.whole()
    assert place.site.manage("migrate", "--verbosity", "0").returncode == 0
    assert place.whole() == before
