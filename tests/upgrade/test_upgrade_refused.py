"""What is not wholly of the earlier layout is left as it is; and nothing but the upgrade touches what is."""

import hashlib
import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from served import ROOT
from upgrade.earlier_database import ON_POSTGRESQL, SAID, Place, earlier_place, empty_place

from weighin.safekeeping.database.earlier_layout import RUN_UPGRADE
from weighin.safekeeping.services.backups import SEAL

pytestmark = pytest.mark.database
sqlite_only = pytest.mark.skipif(ON_POSTGRESQL, reason="on PostgreSQL it is one transaction, and backups are pg_dump's")
BREAK = """
from django.core.management import call_command
from weighin.safekeeping.services import upgrading
upgrading.{step} = lambda *words: 1 / 0
call_command("upgrade_database")
"""
# Writes the new pages one by one into the database and dies among them, as in a power cut
DIE = """
import os, signal, sqlite3
from django.core.management import call_command
from django.db import connection
from weighin.safekeeping.services import upgrading

def put_in_place(source):
    connection.ensure_connection()
    pages = []
    def progress(status, remaining, total):
        pages.append(remaining)
        if remaining <= total // 2:
            print(len(pages), flush=True)
            os.kill(os.getpid(), signal.SIGKILL)
    sqlite3.connect(source).backup(connection.connection, pages=1, progress=progress)

upgrading.put_file_in_place = put_in_place
call_command("upgrade_database")
"""
DIE_ON_POSTGRESQL = """
import os, signal
from django.core.management import call_command
from weighin.safekeeping.services import upgrading
upgrading._prove = lambda *words: os.kill(os.getpid(), signal.SIGKILL)
call_command("upgrade_database")
"""


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return earlier_place(tmp_path)


def run(place: Place, code: str) -> "subprocess.CompletedProcess[str]":
    """Run Python with the site set up, and nothing asked of its database yet."""
    ready = "import os, django; os.environ['DJANGO_SETTINGS_MODULE'] = 'weighin.settings'; django.setup()\n"
    return subprocess.run(
        [sys.executable, "-c", ready + code], cwd=ROOT, env=place.site.env, capture_output=True, text=True, check=False
    )


def refused(place: Place, because: str) -> None:
    before = place.whole()
    told = place.site.manage("upgrade_database")
    assert told.returncode == 1 and because in told.stderr and "Nothing was changed." in told.stderr
    assert place.whole() == before


@pytest.mark.parametrize("words", [("migrate",), ("serve", "--port", "0"), ("check_ledger",), ("doctor",)], ids=str)
def test_every_other_command_names_the_upgrade_and_does_nothing(place: Place, words: tuple[str, ...]) -> None:
    before = place.whole()
    told = place.site.manage(*(word.replace("0", str(place.site.port)) for word in words))
    assert told.returncode == 1 and told.stderr == f"CommandError: {RUN_UPGRADE}\n"
    assert place.whole() == before


def test_a_database_without_one_of_its_tables(place: Place) -> None:
    place.ask("DROP TABLE standings_holdback")
    refused(place, "the table standings_holdback is missing")


def test_a_database_of_a_version_before_it(place: Place) -> None:
    place.ask("DELETE FROM django_migrations WHERE app = 'scale' AND name LIKE '0008%'")
    refused(place, "the change scale.0008_release_counts_may_be_unknown is missing")


def test_a_database_with_tables_of_both_layouts(place: Place) -> None:
    place.ask("CREATE TABLE slips_weighslip (id integer)")
    refused(place, "the table slips_weighslip of the layout after it is there")


def test_another_programs_database(tmp_path: Path) -> None:
    place = empty_place(tmp_path)
    place.ask("CREATE TABLE recipes (name text)")
    refused(place, "it keeps other things")


@sqlite_only
def test_a_table_of_somebody_elses_is_not_lost(place: Place) -> None:
    place.ask("CREATE TABLE recipes (name text)")
    refused(place, "The table recipes is none of this site's")


@sqlite_only
def test_a_file_that_is_no_database(tmp_path: Path) -> None:
    place = empty_place(tmp_path)
    (tmp_path / place.name).write_text("a letter to the club" * 100)
    told = place.site.manage("upgrade_database")
    assert told.returncode == 1 and told.stderr.startswith("CommandError: The database cannot be read")


def test_where_nothing_is_kept_there_is_nothing_to_do(tmp_path: Path) -> None:
    place = empty_place(tmp_path)
    told = place.site.manage("upgrade_database")
    assert told.returncode == 0 and "manage.py migrate" in told.stdout and not place.tables()


def test_a_ledger_that_does_not_hold(place: Place) -> None:
    on = " ON scale_weighslip" if ON_POSTGRESQL else ""
    place.ask(f"DROP TRIGGER scale_weighslip_refuses_update{on}")
    place.ask("UPDATE scale_weighslip SET fish = fish + 1, alive = alive + 1 WHERE position = 2")
    refused(place, "The ledgers do not hold")
    told = place.site.manage("upgrade_database", "--unproven")
    assert told.returncode == 0 and "was altered" in told.stdout, told.stdout


@pytest.mark.parametrize("step", ["carry_rows", "_prove"])
def test_a_fault_in_the_midst_leaves_it_whole(place: Place, step: str) -> None:
    before = place.whole()
    told = run(place, BREAK.format(step=step))
    assert "ZeroDivisionError" in told.stderr and place.whole() == before
    assert place.tables() == set(SAID["rows"])
    assert not list(place.site.data.glob(".upgrading*")) and not list(place.site.data.glob("backups/*"))


def test_killed_in_the_midst_it_is_whole_and_is_upgraded_the_next_time(place: Place) -> None:
    before = place.whole()
    told = run(place, DIE_ON_POSTGRESQL if ON_POSTGRESQL else DIE)
    assert told.returncode == -signal.SIGKILL, told.stderr
    if not ON_POSTGRESQL:
        assert int(told.stdout.split()[-1]) > 20, "it died among the pages"
        assert place.ask("PRAGMA integrity_check") == [("ok",)]
    assert place.whole() == before
    told = place.site.manage("upgrade_database")
    assert told.returncode == 0 and place.site.manage("check_ledger").stdout == SAID["check_ledger"]


@sqlite_only
def test_a_database_in_use_is_left_alone(place: Place) -> None:
    with closing(sqlite3.connect(place.site.data / f"{place.name}-in-use", isolation_level=None)) as mark:
        mark.execute("BEGIN")
        mark.execute("SELECT count(*) FROM sqlite_master").fetchone()
        refused(place, "The site is in use")


@pytest.mark.skipif(not ON_POSTGRESQL, reason="the schema is PostgreSQL's")
def test_what_an_upgrade_kept_aside_is_not_lost_to_another(place: Place) -> None:
    place.ask("CREATE SCHEMA before_upgrade")
    refused(place, "a schema before_upgrade already")


@sqlite_only
def test_a_backup_of_the_earlier_layout_is_restored_into_the_present_one(tmp_path: Path) -> None:
    (tmp_path / "earlier").mkdir()
    earlier = earlier_place(tmp_path / "earlier")
    whole = (earlier.site.data / earlier.name).read_bytes()
    backup = tmp_path / "earlier.sqlite3"
    backup.write_bytes(whole + SEAL + hashlib.sha256(whole).hexdigest().encode() + b"\n")
    told = earlier.site.manage("restore", str(backup))
    assert told.returncode == 1 and told.stderr == f"CommandError: {RUN_UPGRADE}\n"
    (tmp_path / "new").mkdir()
    place = empty_place(tmp_path / "new")
    assert place.site.manage("migrate", "--verbosity", "0").returncode == 0
    told = place.site.manage("restore", str(backup))
    assert told.returncode == 0 and "Every ledger holds" in told.stdout, told.stderr
    assert place.site.manage("check_ledger").stdout == SAID["check_ledger"]
    assert os.listdir(place.site.data / "backups") != []
