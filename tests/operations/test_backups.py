"""Backup and restore: whole files, nothing lost on the way, and clear refusals."""

import hashlib
import os
import sqlite3
import stat
import subprocess
import sys
from pathlib import Path
from time import time as now
from typing import Any

import pytest
import world
from django.contrib.sessions.models import Session
from django.core.management import CommandError, call_command
from django.db import connection
from django.db.models import F
from django.test import Client
from served import Site
from stations.speaking import Speaker, message

from weighin.accounts.domain.codes import STEP_SECONDS, code_at, new_key
from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.accounts.services.second_factors import take_code, turn_on
from weighin.audit.models import HistoryEntry
from weighin.clubs.services.invitations import accept_as_new, invite_by_link
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.safekeeping.services import backups
from weighin.safekeeping.services.backups import BackupRefused, back_up
from weighin.slips.models import WeighSlip
from weighin.stations.services.stations import withdraw_station

pytestmark = pytest.mark.django_db(transaction=True)
SAID = {
    "missing": "no file",
    "text": "is damaged",
    "cut": "is damaged",
    "another": "is damaged",
    "newer": "newer version",
}
sqlite_only = pytest.mark.skipif("connection.vendor != 'sqlite'", reason="PostgreSQL has tools of its own for this")


def seal(file: Path) -> None:
    """End a file as 'backup' does, whatever was written into it."""
    whole = file.read_bytes().split(backups.SEAL)[0]
    file.write_bytes(whole + backups.SEAL + hashlib.sha256(whole).hexdigest().encode() + b"\n")


@pytest.fixture
def data(settings: Any, tmp_path: Path) -> Path:
    settings.DATA = tmp_path
    return tmp_path


@sqlite_only
def test_a_backup_is_one_whole_file_for_its_owner_only(data: Path, capsys: Any) -> None:
    world.plain()
    call_command("backup", data / "one.sqlite3")
    said = capsys.readouterr().out
    assert f"1 club, 1 event, {WeighSlip.objects.count()} slips, 0 official results" in said and "SHA-256" in said
    assert sorted(file.name for file in data.iterdir()) == ["one.sqlite3"]
    assert stat.S_IMODE((data / "one.sqlite3").stat().st_mode) == 0o600
    with sqlite3.connect(data / "one.sqlite3") as copy:
        assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert copy.execute("SELECT count(*) FROM slips_weighslip").fetchone() == (WeighSlip.objects.count(),)


@sqlite_only
def test_what_is_restored_is_what_was_backed_up_and_what_was_there_is_kept(data: Path, capsys: Any) -> None:
    event = world.plain()
    back_up(data / "one.sqlite3")
    kept = set(WeighSlip.objects.values_list("pk", flat=True))
    event.slug = "another-name"
    event.save()
    call_command("restore", data / "one.sqlite3")
    event.refresh_from_db()
    assert event.slug == "plain-event-2026" and set(WeighSlip.objects.values_list("pk", flat=True)) == kept
    assert HistoryEntry.objects.get(act="site.restored").sentence.endswith("from the backup one.sqlite3.")
    (aside,) = (data / "backups").iterdir()
    assert str(aside) in capsys.readouterr().out
    with sqlite3.connect(aside) as copy:
        assert copy.execute("SELECT slug FROM events_event").fetchone() == ("another-name",)
    with pytest.raises(Exception, match="only ever added"):
        connection.cursor().execute("UPDATE slips_weighslip SET fish = 9")


@sqlite_only
def test_no_revision_comes_again_with_other_rows(data: Path) -> None:
    event = world.plain()
    back_up(data / "one.sqlite3")
    Event.objects.filter(pk=event.pk).update(revision=event.revision + 2)
    reader = world.member(event.club, username="reader")
    seen = reader.get(f"/api/events/{event.slug}/station")["ETag"]
    call_command("restore", data / "one.sqlite3")
    reader = world.member(event.club, username="reader")
    for _ in range(4):
        fresh = reader.get(f"/api/events/{event.slug}/station", headers={"If-None-Match": seen})
        assert fresh.status_code == 200
        Event.objects.filter(pk=event.pk).update(revision=F("revision") + 1)


@sqlite_only
def test_a_restore_begins_another_life_and_leaves_the_tablets_their_tokens(data: Path) -> None:
    event = world.event()
    withdrawn = Speaker(event, "Table 1")
    back_up(data / "one.sqlite3")
    withdraw_station(event, "Table 1", "quill")
    paired = Speaker(event, "Table 1")
    slip = message()
    assert paired.one(slip)["state"] == "kept"
    life = paired.ask().json()["life"]
    call_command("restore", data / "one.sqlite3")
    assert withdrawn.ask().status_code == 401
    papers = paired.ask().json()
    assert papers["life"] != life and slip["id"] not in {one["id"] for one in papers["slips"]}
    assert [paired.one(slip)["state"] for _ in range(2)] == ["kept", "already"]


@sqlite_only
def test_what_was_over_does_not_open_again_after_a_restore(data: Path) -> None:
    event = world.event()
    person = User.objects.create_user("r.castellan", password="bump table at noon")
    gone, stays = Client(), Client()
    for one in (gone, stays):
        one.force_login(person)
    codes = turn_on(person, key := new_key(), code_at(key, int(now()) // STEP_SECONDS))
    used, left = (invite_by_link(event.club, name, Role.WEIGH_OFFICIAL, person)[1] for name in ("Ann Bell", "Cy Dunn"))
    back_up(data / "one.sqlite3")
    gone.logout()
    take_code(person, codes[0], "10.0.0.1")
    accept_as_new(used, "a.bell", "bump table at noon", "Ann Bell")
    call_command("restore", data / "one.sqlite3")
    assert [one.session_key for one in Session.objects.all()] == [stays.session.session_key]
    with pytest.raises(Faults):
        take_code(person, codes[0], "10.0.0.1")
    take_code(person, codes[1], "10.0.0.2")
    with pytest.raises(Faults):
        accept_as_new(used, "a.bell", "bump table at noon", "Ann Bell")
    accept_as_new(left, "c.dunn", "bump table at noon", "Cy Dunn")


@sqlite_only
def test_a_file_copied_into_place_is_another_life(tmp_path: Path) -> None:
    site = Site(tmp_path)
    ask = (
        "shell",
        "--no-imports",
        "-c",
        "from weighin.audit.database.life import database_life; print(database_life())",
    )
    site.manage("migrate", "--verbosity", "0")
    life = site.manage(*ask).stdout
    assert len(life.strip()) == 32 and site.manage(*ask).stdout == life
    (tmp_path / "copy.sqlite3").write_bytes((tmp_path / "weighin.sqlite3").read_bytes())
    (tmp_path / "copy.sqlite3").replace(tmp_path / "weighin.sqlite3")
    assert site.manage(*ask).stdout != life


@sqlite_only
def test_no_backup_is_written_over(data: Path) -> None:
    (data / "one.sqlite3").write_text("mine")
    with pytest.raises(CommandError, match="is there already"):
        call_command("backup", data / "one.sqlite3")
    assert (data / "one.sqlite3").read_text() == "mine"


@sqlite_only
def test_a_folder_that_is_not_there_is_named(data: Path) -> None:
    with pytest.raises(CommandError, match="There is no folder"):
        call_command("backup", data / "nowhere" / "one.sqlite3")


@sqlite_only
@pytest.mark.parametrize("kind", ["missing", "text", "cut", "another", "newer"])
def test_what_is_no_whole_backup_is_refused_and_changes_nothing(data: Path, kind: str) -> None:
    world.plain()
    file = data / "bad.sqlite3"
    if kind == "text":
        file.write_text("a letter to the club" * 100)
    elif kind == "cut":
        back_up(file)
        whole = file.read_bytes()
        file.write_bytes(whole[: len(whole) // 2])
    elif kind == "another":
        with sqlite3.connect(file) as other:
            other.execute("CREATE TABLE recipes (name TEXT)")
    elif kind == "newer":
        back_up(file)
        with sqlite3.connect(file) as newer:
            newer.execute(
                "INSERT INTO django_migrations (app, name, applied) VALUES ('slips', '9999_later', '2030-01-01')"
            )
        newer.close()
        seal(file)
    before = WeighSlip.objects.count()
    with pytest.raises(CommandError, match=SAID[kind]):
        call_command("restore", file)
    assert WeighSlip.objects.count() == before
    assert not (data / "backups").exists() or not list((data / "backups").iterdir())


@sqlite_only
@pytest.mark.parametrize("share", [0.0001, 0.002, *[n / 16 for n in range(1, 16)], 0.9999])
def test_a_backup_with_a_changed_byte_is_refused(data: Path, share: float) -> None:
    world.plain()
    file = data / "one.sqlite3"
    back_up(file)
    written = bytearray(file.read_bytes())
    written[int(len(written) * share)] ^= 0x41
    file.write_bytes(written)
    with pytest.raises(CommandError, match="is damaged"):
        call_command("restore", file)
    assert WeighSlip.objects.exists() and sorted(one.name for one in data.iterdir()) == ["one.sqlite3"]


@sqlite_only
def test_an_altered_slip_is_found_before_the_good_rows_are_gone(data: Path) -> None:
    event = world.plain()
    file = data / "one.sqlite3"
    back_up(file)
    with sqlite3.connect(file) as copy:
        for (trigger,) in copy.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            copy.execute(f"DROP TRIGGER {trigger}")
        copy.execute("UPDATE slips_weighslip SET fish = fish + 1, alive = alive + 1 WHERE position = 1")
    copy.close()
    seal(file)
    kept = list(WeighSlip.objects.order_by("pk").values_list("fish", flat=True))
    with pytest.raises(CommandError, match="ledgers in .* do not hold"):
        call_command("restore", file)
    assert list(WeighSlip.objects.order_by("pk").values_list("fish", flat=True)) == kept
    with pytest.raises(CommandError, match=f"ledger of {event.slug} does not hold"):
        call_command("restore", file, "--unproven")


@sqlite_only
def test_what_was_there_comes_back_when_restoring_fails_midway(data: Path, monkeypatch: Any) -> None:
    event = world.plain()
    back_up(data / "one.sqlite3")
    Event.objects.filter(pk=event.pk).update(name="Later name")
    monkeypatch.setattr(backups, "log_history", lambda *words: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        backups.restore(data / "one.sqlite3")
    assert Event.objects.get(pk=event.pk).name == "Later name"


def test_a_running_server_is_never_restored_under(tmp_path: Path) -> None:
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    assert site.manage("backup", str(tmp_path / "one.sqlite3")).returncode == 0
    site.start()
    told = site.manage("restore", str(tmp_path / "one.sqlite3"))
    assert told.returncode == 1 and "end the server" in told.stderr
    assert site.ask("/begin/")[0] == 200
    site.kill()
    assert site.manage("restore", str(tmp_path / "one.sqlite3")).returncode == 0


def test_a_database_that_somebody_writes_to_is_left_alone(tmp_path: Path) -> None:
    def manage(*words: str) -> "subprocess.CompletedProcess[str]":
        env = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"} | {
            "WEIGHIN_DATA": str(tmp_path)
        }
        return subprocess.run(
            [sys.executable, "manage.py", *words], env=env, capture_output=True, text=True, check=False
        )

    assert manage("migrate").returncode == 0
    assert manage("backup", str(tmp_path / "one.sqlite3")).returncode == 0
    with sqlite3.connect(tmp_path / "weighin.sqlite3", timeout=0) as other:
        other.execute("INSERT INTO django_session VALUES ('key', 'data', '2030-01-01')")
        told = manage("restore", str(tmp_path / "one.sqlite3"))
        assert told.returncode == 1 and "end the server" in told.stderr
    with sqlite3.connect(tmp_path / "weighin.sqlite3") as again:
        assert again.execute("SELECT session_key FROM django_session").fetchall() == [("key",)]
    assert manage("restore", str(tmp_path / "one.sqlite3")).returncode == 0
    with sqlite3.connect(tmp_path / "weighin.sqlite3") as again:
        assert again.execute("SELECT session_key FROM django_session").fetchall() == []


def test_postgresql_is_sent_to_its_own_tools(monkeypatch: Any, data: Path) -> None:
    monkeypatch.setattr(backups.connection, "vendor", "postgresql", raising=False)
    with pytest.raises(BackupRefused, match="pg_dump"):
        back_up(data / "one.sqlite3")
    with pytest.raises(BackupRefused, match="pg_restore"):
        backups.restore(data / "one.sqlite3")


@sqlite_only
def test_revisions_rise_by_one_with_each_restore_and_never_double(data: Path, monkeypatch: Any) -> None:
    event = world.plain()
    monkeypatch.setattr(backups, "_refuse_unfit", lambda *_: None)
    first = Event.objects.get(pk=event.pk).revision
    for time in range(1, 4):
        back_up(data / f"{time}.sqlite3")
        backups.restore(data / f"{time}.sqlite3")
        assert Event.objects.get(pk=event.pk).revision == first + time
