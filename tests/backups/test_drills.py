"""A restore is drilled beside the site and dated; and what a copy kept aside has comes in again, once."""

import os
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from django.db import connection
from served import Site
from stations.speaking import Speaker, message, new_id

from weighin.audit.models import HistoryEntry
from weighin.care.models import CareNote
from weighin.checkin.models import CheckIn
from weighin.operations.queries.ledgers import ledger_of
from weighin.operations.services.trying import try_writing
from weighin.safekeeping.queries.backups import DRILLED, drilled, own_folder
from weighin.safekeeping.services import keeping_backups
from weighin.safekeeping.services.backup_notes import write_drilled
from weighin.safekeeping.services.backups import back_up
from weighin.safekeeping.services.bringing_back import bring_back
from weighin.safekeeping.services.keeping_backups import keep_backup
from weighin.slips.models import WeighSlip

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(connection.vendor != "sqlite", reason="PostgreSQL has tools of its own for this"),
]


@pytest.fixture
def data(settings: Any, tmp_path: Path, monkeypatch: Any) -> Path:
    settings.DATA, settings.BACKUP_TO = tmp_path, None
    monkeypatch.setattr(keeping_backups, "back_up", lambda file, steps: back_up(file))
    return tmp_path


def drills() -> list[str]:
    return [point.sentence for point in try_writing() if "drill" in point.sentence.lower()]


def test_the_newest_backup_is_restored_beside_the_site_and_dated(data: Path, capsys: Any) -> None:
    event = world.plain()
    assert "No restore was ever tried here" in drills()[0]
    keep_backup(datetime(2026, 6, 20, 15, 0, tzinfo=UTC))
    newest = keep_backup(datetime(2026, 6, 20, 15, 5, tzinfo=UTC))[0]
    call_command("restore", "--drill")
    said = capsys.readouterr().out
    assert newest.name in said and f"{WeighSlip.objects.count()} slips" in said
    at, name, held = drilled() or (None, "", False)
    assert at is not None and name == newest.name and held and "and held" in drills()[0]
    assert not HistoryEntry.objects.filter(act="site.restored").exists() and not list(data.glob(".restoring*"))
    page = world.member(event.club).get(event.get_absolute_url()).content.decode()
    assert "A restore was tested" in page


def test_what_is_said_of_drills_is_the_owners_alone(data: Path) -> None:
    before = os.umask(0)
    try:
        write_drilled("x", held=True)
    finally:
        os.umask(before)
    kept = own_folder() / DRILLED
    assert oct(kept.stat().st_mode)[-3:] == ("600" if os.name == "posix" else "666")


def test_a_backup_that_does_not_hold_fails_the_drill(data: Path) -> None:
    keep_backup(datetime(2026, 6, 20, 15, 0, tzinfo=UTC))
    (file,) = (data / "backups").glob("by-itself-*.sqlite3")
    written = bytearray(file.read_bytes())
    written[5000] ^= 1
    file.write_bytes(written)
    with pytest.raises(CommandError, match="is damaged"):
        call_command("restore", "--drill")
    assert "failed" in drills()[0] and drilled() is not None and not drilled()[2]  # type: ignore[index]


def test_of_postgresql_nothing_is_tried_and_no_earlier_drill_is_said(
    data: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    call_command("backup", str(data / "one.sqlite3"))
    call_command("restore", "--drill", str(data / "one.sqlite3"))
    event = world.plain()
    monkeypatch.setattr("weighin.safekeeping.queries.backups.connection", SimpleNamespace(vendor="postgresql"))
    with pytest.raises(CommandError, match="pg_restore --clean --if-exists --dbname"):
        call_command("restore", "--drill")
    assert drilled() is None
    page = world.member(event.club).get(event.get_absolute_url()).content.decode()
    assert 'id="backups"' in page and "drill" not in page


def test_without_a_backup_there_is_nothing_to_drill(data: Path) -> None:
    with pytest.raises(CommandError, match="No backup was made by itself yet"):
        call_command("restore", "--drill")
    with pytest.raises(CommandError, match="Name the backup"):
        call_command("restore")
    assert drilled() is None


def test_what_the_copy_kept_aside_has_comes_in_once(data: Path, capsys: Any) -> None:
    event = world.event()
    table = Speaker(event)
    first = message(boat=1)
    table.one(first)
    back_up(data / "morning.sqlite3")
    wrong, void = message(boat=2), message(boat=3)
    table.send(wrong, void)
    table.one(message(boat=2, fish=6, alive=6, replaces=wrong["id"], reason="Counted again"))
    table.one({"id": new_id(), "day": 1, "boat": 3, "official": "R. Quill", "replaces": void["id"], "void": True, "reason": "Another boat's"})  # fmt: skip
    table.one({"id": new_id(), "day": 1, "boat": 4, "checked_in": "2026-06-20T14:58:10-05:00", "official": "A. Sedge"}, "checkins")  # fmt: skip
    table.one({"id": new_id(), "day": 1, "boat": 4, "pump_ok": True, "official": "A. Sedge"}, "care")
    before = rows()
    call_command("restore", data / "morning.sqlite3")
    assert WeighSlip.objects.count() == 1 and not CheckIn.objects.exists()
    (aside,) = (data / "backups").glob("before-restore-*")
    capsys.readouterr()
    call_command("bring_back", aside)
    assert "1 check-ins, 1 care notes, 4 slips came in" in capsys.readouterr().out
    assert rows() == before and CareNote.objects.get().pump_ok
    assert not ledger_of(event).faults
    assert HistoryEntry.objects.get(act="site.brought_back").sentence.startswith("6 rows were imported")
    call_command("bring_back", aside)
    assert "lacks nothing" in capsys.readouterr().out and rows() == before


def rows() -> Counter[tuple[Any, ...]]:
    slips = WeighSlip.objects.values_list("pk", "entry__boat", "fish", "gross", "void", "replaces_id", "recorded_by")
    return Counter([*slips, *CheckIn.objects.values_list("pk", "entry__boat", "checked_in", "recorded_by")])


def test_tablets_and_the_copy_together_double_nothing(data: Path) -> None:
    event = world.event()
    table = Speaker(event)
    back_up(data / "morning.sqlite3")
    sent = [message(boat=1 + n) for n in range(4)]
    table.send(*sent)
    call_command("restore", data / "morning.sqlite3")
    table.send(*sent[:2])
    (aside,) = (data / "backups").glob("before-restore-*")
    (brought,) = bring_back(aside, "quill")
    assert brought.kept == {"slips": 2} and not brought.refused
    assert [one["state"] for one in table.send(*sent)] == ["already"] * 4 and WeighSlip.objects.count() == 4


def test_an_event_that_the_site_lacks_is_named(data: Path, capsys: Any) -> None:
    back_up(data / "empty.sqlite3")
    event = world.event()
    Speaker(event).one(message())
    call_command("restore", data / "empty.sqlite3")
    (aside,) = (data / "backups").glob("before-restore-*")
    with pytest.raises(CommandError, match="1 could not come in"):
        call_command("bring_back", aside)
    assert "this event is not here" in capsys.readouterr().out


def test_a_drill_goes_beside_a_running_server(tmp_path: Path) -> None:
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    assert site.manage("backup", str(tmp_path / "one.sqlite3")).returncode == 0
    site.start()
    told = site.manage("restore", "--drill", str(tmp_path / "one.sqlite3"))
    assert told.returncode == 0 and "The site was not touched" in told.stdout, told.stderr
    assert "A restore was drilled on" in site.manage("doctor").stdout
    assert site.stop() == 0
