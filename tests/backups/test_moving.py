"""Everything moves from SQLite to PostgreSQL and back by one command, and is held against what was there."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from served import Site
from upgrade.earlier_database import ON_POSTGRESQL, Place, empty_place, exported, same

pytestmark = pytest.mark.database
# Only PostgreSQL has it: what several processes count together for some minutes
COUNTS = "weighin_counts"
ADD_A_CLUB = """
from weighin.clubs.models import Club
print(Club.objects.create(name="Far Bank", slug="far-bank").pk)
"""


@pytest.fixture(scope="module")
def sqlite(tmp_path_factory: pytest.TempPathFactory) -> Place:
    """A site on SQLite with the demo's events; of the clubs numbers up to 40 were given."""
    data = tmp_path_factory.mktemp("sqlite")
    place = Place(Site(data), "weighin.sqlite3", sqlite=True)
    assert place.site.manage("migrate", "--verbosity", "0").returncode == 0
    assert place.site.manage("load_demo").returncode == 0
    place.ask("UPDATE sqlite_sequence SET seq = 40 WHERE name = 'clubs_club'")
    return place


@pytest.fixture(scope="module")
def moved(sqlite: Place, tmp_path_factory: pytest.TempPathFactory) -> tuple[Place, str]:
    """The place that it moved to, and what was said: PostgreSQL where the tests run on it, else another file."""
    place = empty_place(tmp_path_factory.mktemp("moved"))
    told = sqlite.site.manage("move_database", address(place))
    assert told.returncode == 0, told.stderr
    return place, told.stdout


def address(place: Place) -> str:
    return place.site.env.get("DATABASE_URL") or f"sqlite:///{place.site.data / place.name}"


def whole(place: Place) -> dict[str, int]:
    return {
        table: int(place.ask(f'SELECT count(*) FROM "{table}"')[0][0])
        for table in place.tables() - {"sqlite_sequence", COUNTS}
    }


def holds(one: Place, other: Place) -> None:
    assert whole(one) == whole(other)
    ledgers = one.site.manage("check_ledger").stdout
    assert ledgers == other.site.manage("check_ledger").stdout and ledgers.count("nothing altered") == 10
    slugs = sorted(line.split(":")[0] for line in ledgers.splitlines() if "nothing altered" in line)
    assert same(exported(one, slugs), exported(other, slugs))


def test_all_is_there_and_the_table_says_so(sqlite: Place, moved: tuple[Place, str]) -> None:
    place, told = moved
    holds(place, sqlite)
    lines = [line.split() for line in told.splitlines() if line.endswith("the same")]
    assert {words[0]: int(words[2]) for words in lines} == {
        table: rows for table, rows in whole(sqlite).items() if table != "django_migrations"
    }
    assert all(words[1] == words[2] for words in lines) and "NOT THE SAME" not in told


def test_rows_are_locked_there_and_numbers_never_come_again(moved: tuple[Place, str]) -> None:
    place = moved[0]
    with pytest.raises(Exception, match="only ever added"):
        place.ask("DELETE FROM slips_weighslip")
    told = place.site.manage("shell", "--no-imports", "-c", ADD_A_CLUB)
    assert told.stdout.strip() == "41", told.stderr
    place.ask("DELETE FROM clubs_club WHERE id = 41")


def test_it_moves_back(sqlite: Place, moved: tuple[Place, str], tmp_path: Path) -> None:
    back = Place(Site(tmp_path), "weighin.sqlite3", sqlite=True)
    told = moved[0].site.manage("move_database", f"sqlite:///{tmp_path / back.name}")
    assert told.returncode == 0, told.stderr
    holds(back, sqlite)
    assert back.ask("PRAGMA integrity_check") == [("ok",)] and back.ask("PRAGMA foreign_key_check") == []


def test_a_database_that_is_not_empty_is_left_alone(sqlite: Place, moved: tuple[Place, str]) -> None:
    before = moved[0].whole()
    told = sqlite.site.manage("move_database", address(moved[0]))
    assert told.returncode == 1 and "is not empty" in told.stderr
    assert moved[0].whole() == before


@pytest.mark.parametrize(
    ("url", "said"),
    [
        ("mysql://host/name", "only sqlite and postgresql are known"),
        ("sqlite:////no/such/folder/x.sqlite3", "there is no folder"),
        ("postgresql://nobody@127.0.0.1:1/none", "cannot be opened"),
    ],
)
def test_an_address_that_leads_nowhere(sqlite: Place, url: str, said: str) -> None:
    told = sqlite.site.manage("move_database", url)
    assert told.returncode == 1 and said in told.stderr and "Traceback" not in told.stderr


def test_its_own_database_is_no_other(sqlite: Place) -> None:
    told = sqlite.site.manage("move_database", f"sqlite:///{sqlite.site.data / sqlite.name}")
    assert told.returncode == 1 and "the site’s own database" in told.stderr


@pytest.fixture
def in_use(sqlite: Place) -> Iterator[None]:
    with closing(sqlite3.connect(sqlite.site.data / f"{sqlite.name}-in-use", isolation_level=None)) as mark:
        mark.execute("BEGIN")
        mark.execute("SELECT count(*) FROM sqlite_master").fetchone()
        yield


def test_a_site_in_use_is_not_moved(sqlite: Place, in_use: None, tmp_path: Path) -> None:
    place = empty_place(tmp_path)
    told = sqlite.site.manage("move_database", address(place))
    assert told.returncode == 1 and "in use" in told.stderr and not place.tables()


def test_what_goes_wrong_leaves_the_other_empty(sqlite: Place, tmp_path: Path) -> None:
    place = empty_place(tmp_path)
    code = (
        "from weighin.safekeeping.services import moving\n"
        "from django.core.management import call_command\n"
        "moving._compared = lambda table, model: moving.Moved(table, 1, 1, table != 'slips_weighslip')\n"
        f"call_command('move_database', {address(place)!r})"
    )
    told: Any = sqlite.site.manage("shell", "--no-imports", "-c", code)
    assert "slips_weighslip is not the same there" in told.stderr and not place.tables(), told.stderr
    assert ON_POSTGRESQL or (tmp_path / place.name).is_file()
