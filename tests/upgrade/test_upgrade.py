"""A database that the version with ``scale`` and ``fishcare`` made opens after one command, with all that it held."""

from pathlib import Path

import pytest
from upgrade.earlier_database import (
    ON_POSTGRESQL,
    SAID,
    Place,
    columns,
    earlier_place,
    empty_place,
    exported,
    same,
    schema,
)

from weighin.audit.database.triggers import append_only_tables
from weighin.safekeeping.domain.earlier_layout import TABLES
from weighin.safekeeping.services.rows_carried import FILLED_BY_MIGRATE

pytestmark = pytest.mark.database
# What the upgrade writes itself: labels of apps
LABELS = "django_content_type"
KEEP_A_SLIP = """
from weighin.events.models import Event
from weighin.slips.services.slips import record_slip
written = {"day": "2", "boat": "4", "fish": "2", "alive": "2", "dead": "0", "gross": "3.10", "official": "R. Quill"}
print(record_slip(Event.objects.get(slug="reed-mace-open-2026"), written, "test").position)
"""


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> tuple[Place, str]:
    """The place after its upgrade, and what that said. Of the clubs numbers up to 40 were given."""
    place = earlier_place(tmp_path_factory.mktemp("earlier"))
    if ON_POSTGRESQL:
        place.ask("SELECT setval(pg_get_serial_sequence('clubs_club', 'id'), 40)")
    else:
        place.ask("UPDATE sqlite_sequence SET seq = 40 WHERE name = 'clubs_club'")
    told = place.site.manage("upgrade_database")
    assert told.returncode == 0, told.stderr
    return place, told.stdout


@pytest.fixture
def place(opened: tuple[Place, str]) -> Place:
    return opened[0]


def rows_of(place: Place, table: str) -> int:
    return int(place.ask(f'SELECT count(*) FROM "{table}"')[0][0])


def chains_begun(place: Place) -> int:
    """The lines that each history gets once, from which on it is chained."""
    return int(place.ask("SELECT count(*) FROM audit_historyentry WHERE act = 'history.chained'")[0][0])


def test_the_kept_database_has_a_row_in_every_table() -> None:
    assert set(SAID["rows"]) == {*TABLES, "django_migrations"} and all(SAID["rows"].values())


def test_it_says_what_it_does_and_counts_before_and_after(opened: tuple[Place, str]) -> None:
    place, told = opened
    for before, after in TABLES.items():
        rows = SAID["rows"][before]
        assert f"{before} -> {after}: rows {rows} before, {rows} after" in told
        grown = chains_begun(place) if after == "audit_historyentry" else 0
        # The second migrate adds what Django keeps of tables that the earlier version had not
        assert rows_of(place, after) >= rows if after in FILLED_BY_MIGRATE else rows_of(place, after) == rows + grown
    assert SAID["check_ledger"].strip() in told and "kept" in told.splitlines()[-1]


def test_the_ledgers_hold_as_they_did(place: Place) -> None:
    assert place.site.manage("check_ledger").stdout == SAID["check_ledger"]


def test_every_event_is_exported_as_it_was(place: Place) -> None:
    assert same(exported(place, list(SAID["events"])), list(SAID["events"].values()))


def test_no_row_says_anything_else(place: Place, tmp_path: Path) -> None:
    earlier = earlier_place(tmp_path)
    for before, after in TABLES.items():
        had = [name for name in columns(earlier, before) if (before, name) not in ((LABELS, "app_label"),)]
        asked = "SELECT {} FROM {}".format(", ".join(f'"{name}"' for name in had), "{}")
        begun = " WHERE act <> 'history.chained'" if after == "audit_historyentry" else ""
        was = {*map(repr, earlier.ask(asked.format(before)))}
        now = {*map(repr, place.ask(asked.format(after) + begun))}
        assert was <= now if after in FILLED_BY_MIGRATE else was == now


def test_rows_that_are_only_added_are_locked(place: Place) -> None:
    tables = append_only_tables()
    assert len(tables) > 12
    for table in tables:
        kept = rows_of(place, table)
        if not kept and table not in TABLES.values():
            continue  # this version's own, of which there is no row yet
        for statement in (f'UPDATE "{table}" SET id = id', f'DELETE FROM "{table}"'):
            with pytest.raises(Exception, match="only ever added"):
                place.ask(statement)
        assert kept and rows_of(place, table) == kept


def test_the_tables_are_those_of_a_new_database(place: Place, tmp_path: Path) -> None:
    new = empty_place(tmp_path)
    assert new.site.manage("migrate", "--verbosity", "0").returncode == 0
    assert schema(place) == schema(new)
    applied = "SELECT app, name FROM django_migrations"
    assert sorted(place.ask(applied)) == sorted(new.ask(applied))
    assert place.site.manage("makemigrations", "--check", "--dry-run").returncode == 0
    assert place.site.manage("migrate", "--check").returncode == 0


def test_rights_go_with_their_rows(place: Place) -> None:
    asked = (
        "SELECT app_label, model, codename FROM {} JOIN auth_permission p ON p.id = permission_id "
        "JOIN django_content_type t ON t.id = p.content_type_id"
    )
    assert place.ask(asked.format("auth_group_permissions")) == [("slips", "weighslip", "view_weighslip")]
    assert place.ask(asked.format("accounts_user_user_permissions")) == [("care", "carenote", "view_carenote")]
    assert not place.ask("SELECT 1 FROM django_content_type WHERE app_label IN ('scale', 'fishcare')")


def test_a_number_that_was_given_never_comes_again(place: Place, tmp_path: Path) -> None:
    copy = place.copy(tmp_path)
    copy.ask("INSERT INTO clubs_club (name, slug, contact) VALUES ('Far Bank', 'far-bank', '')")
    assert copy.ask("SELECT max(id) FROM clubs_club") == [(41,)]


def test_a_slip_is_kept_after_it_and_chains_on(place: Place, tmp_path: Path) -> None:
    copy = place.copy(tmp_path)
    told = copy.site.manage("shell", "--no-imports", "-c", KEEP_A_SLIP)
    assert told.stdout.strip() == "21", told.stderr
    assert "reed-mace-open-2026: 21 slips, nothing altered" in copy.site.manage("check_ledger").stdout


def test_run_again_it_does_nothing(place: Place) -> None:
    before = place.whole()
    told = place.site.manage("upgrade_database")
    assert told.returncode == 0 and told.stdout.startswith("There is nothing to do") and place.whole() == before
