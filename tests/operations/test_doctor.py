"""The look at machine and site before the day."""

import shutil
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
import world
from django.contrib.sessions.models import Session
from django.core.management import call_command
from django.db import OperationalError, connection
from django.db.migrations.recorder import MigrationRecorder
from django.utils import timezone

from weighin.accounts.models import User
from weighin.audit.database.triggers import install, remove
from weighin.clubs.models import Membership
from weighin.operations.queries import demo_people, doctor
from weighin.operations.services import trying

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def data(settings: Any, tmp_path: Path) -> Path:
    settings.DATA = tmp_path
    key = tmp_path / "secret-key"
    key.write_text("k" * 64)
    key.chmod(0o600)
    return tmp_path


@pytest.fixture(autouse=True)
def on_disk(monkeypatch: Any) -> None:
    """The tests' database lies in memory, which has no write-ahead log."""
    if connection.vendor == "sqlite":
        monkeypatch.setitem(doctor.PRAGMAS, "journal_mode", doctor._pragma(connection.cursor(), "journal_mode"))


def faults() -> list[str]:
    return [point.sentence for point in doctor.examine() if not point.well]


def test_all_is_well(capsys: Any) -> None:
    world.plain()
    assert faults() == []
    call_command("doctor")
    assert capsys.readouterr().out.strip().endswith("Fit for the day.")


def written() -> list[str]:
    return [point.sentence for point in trying.try_writing() if not point.well]


def test_it_writes_and_leaves_nothing(data: Path) -> None:
    assert written() == [] and not Session.objects.exists()
    assert list((data / "backups").iterdir()) == []


@pytest.mark.parametrize("cause", ["disk I/O error", "attempt to write a readonly database"])
def test_a_database_that_takes_nothing(monkeypatch: Any, cause: str) -> None:
    def fail(*args: Any, **kwargs: Any) -> None:
        raise OperationalError(cause)

    monkeypatch.setattr(Session.objects, "create", fail)
    (said,) = written()
    assert said.startswith(f"Nothing can be written into the database ({cause}).")


def test_a_backup_folder_that_takes_nothing_and_one_that_is_gone(settings: Any, data: Path, monkeypatch: Any) -> None:
    settings.BACKUP_TO = data / "stick"
    assert [line.split(":")[0] for line in written()] == [f"There is no folder {data}/stick"]
    settings.BACKUP_TO.mkdir()
    assert [line.split(":")[0] for line in written()] == [f"{data}/stick is on the same disk as the site"]

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(trying.os, "fsync", full)
    said = [line for line in written() if line.startswith("Nothing can be written at")]
    assert len(said) == 2 and all("No space left on device" in line for line in said)
    assert not list(data.rglob(".doctor-*"))


def test_a_database_of_a_later_version_is_named() -> None:
    MigrationRecorder(connection).record_applied("slips", "9999_later")
    (said,) = faults()
    assert said == "A later version of the site has been at the database (slips.9999_later): start that version."


def test_a_full_disk(monkeypatch: Any, capsys: Any) -> None:
    monkeypatch.setattr(shutil, "disk_usage", lambda path: shutil._ntuple_diskusage(10**9, 10**9, 10**6))  # type: ignore[attr-defined]
    with pytest.raises(SystemExit) as left:
        call_command("doctor")
    assert left.value.code == 1 and "Only 0 MB are free" in capsys.readouterr().out


@pytest.mark.skipif("__import__('os').name != 'posix'")
def test_a_key_that_others_can_read(data: Path) -> None:
    (data / "secret-key").chmod(0o644)
    assert [line.split(":")[1] for line in faults()] == [" chmod 600 it."]


@pytest.mark.skipif("__import__('os').name != 'posix'")
def test_a_folder_and_a_database_that_others_can_read(data: Path, settings: Any, monkeypatch: Any) -> None:
    database = data / "weighin.sqlite3"
    database.touch(mode=0o644)
    monkeypatch.setitem(settings.DATABASES["default"], "NAME", database)
    database.chmod(0o644)
    data.chmod(0o755)
    assert [line.split(":")[1] for line in faults()] == [" chmod 700 it.", " chmod 600 it."]


def test_slips_that_nothing_guards() -> None:
    remove(connection, "slips_weighslip")
    assert faults() == ["Nothing guards slips_weighslip from being changed: run 'manage.py migrate' again."]
    install(connection, "slips_weighslip")
    assert faults() == []


def test_an_altered_slip() -> None:
    world.plain()
    remove(connection, "slips_weighslip")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE slips_weighslip SET fish = 1 WHERE position = 2")
    install(connection, "slips_weighslip")
    assert faults() == ["The ledger of plain-event-2026 does not hold: 'manage.py check_ledger' says where."]


def test_a_clock_behind_the_last_slip(monkeypatch: Any) -> None:
    world.plain()
    past = timezone.now() - timedelta(days=400)
    monkeypatch.setattr(doctor.timezone, "now", lambda: past)
    (said,) = faults()
    assert "before the last slip came in" in said


def test_a_network_drive(monkeypatch: Any) -> None:
    if connection.vendor != "sqlite":
        pytest.skip("SQLite's own trouble")
    monkeypatch.setitem(doctor.PRAGMAS, "synchronous", 3)
    (said,) = faults()
    assert said.startswith("SQLite does not keep to synchronous")


def test_the_demos_log_ins_are_a_fault_where_a_club_is_at_work() -> None:
    person = demo_people.demo_people()[0]
    user = User.objects.create_user(person["username"], password=person["password"])
    Membership.objects.create(user=user, club=world.club(person["club"], "demo"), role=person["role"])
    assert faults() == []
    assert any(point.sentence.startswith("This is the demo") for point in doctor.examine())
    mara = User.objects.create_user("mara", password="quill reservoir at dawn")
    (said,) = faults()
    assert said.startswith(f"Everyone knows the password of {person['username']}:") and "reset_password" in said
    mara.delete()
    world.club()
    assert len(faults()) == 1
    user.set_password("quill reservoir at dusk")
    user.save()
    assert faults() == []
