"""Backups that the server makes by itself: when, where, how many stay, and what is said when one could not be made."""

import json
import shutil
import sqlite3
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
import world
from django.db import connection
from patience import until
from served import Site

from weighin.events.models import Event, EventDay
from weighin.safekeeping.domain.backup_ages import made_at, name_at, too_old
from weighin.safekeeping.queries.backups import copies, event_today, every, warnings
from weighin.safekeeping.services import keeping_backups
from weighin.safekeeping.services.backups import BackupRefused, restore, sealed
from weighin.safekeeping.services.keeping_backups import BackupKeeper, keep_backup, second_place_said

pytestmark = pytest.mark.django_db(transaction=True)
sqlite_only = pytest.mark.skipif(connection.vendor != "sqlite", reason="the file is SQLite's")
NOW = datetime(2026, 6, 20, 20, 0, tzinfo=UTC)


@pytest.fixture
def places(settings: Any, tmp_path: Path, monkeypatch: Any) -> tuple[Path, Path]:
    """The data folder's backups and a stick. The tests' database lies in memory and is one connection's."""
    settings.DATA = tmp_path / "data"
    settings.DATA.mkdir()
    settings.BACKUP_TO = tmp_path / "stick"
    settings.BACKUP_TO.mkdir()
    whole = keeping_backups.back_up
    monkeypatch.setattr(keeping_backups, "back_up", lambda file, steps: whole(file))
    return settings.DATA / "backups", settings.BACKUP_TO


def files(folder: Path) -> list[str]:
    return sorted(file.name for file in folder.iterdir() if made_at(file.name))


@sqlite_only
def test_a_backup_is_made_in_both_places_and_each_can_be_restored(places: tuple[Path, Path]) -> None:
    event = world.plain()
    found = keep_backup(NOW)
    assert (
        [(one.folder, one.at, one.wrong) for one in found]
        == [(folder, NOW, "") for folder in places]
        == [(one.folder, one.at, one.wrong) for one in copies()]
    )
    for folder in places:
        assert files(folder) == ["by-itself-20260620-200000.sqlite3"] and sealed(folder / files(folder)[0])
        assert not [file for file in folder.iterdir() if file.name.startswith(".by-itself-")]
    Event.objects.filter(pk=event.pk).update(name="Later name")
    restore(places[1] / files(places[1])[0])
    assert Event.objects.get(pk=event.pk).name == event.name
    assert warnings(NOW + timedelta(minutes=14)) == [] and len(warnings(NOW + timedelta(minutes=16))) == 2


@sqlite_only
def test_a_stick_that_is_gone_or_full_is_said_and_the_first_place_goes_on(
    places: tuple[Path, Path], monkeypatch: Any
) -> None:
    own, stick = places
    stick.rename(stick.with_name("in a pocket"))
    keep_backup(NOW)
    assert copies()[0].wrong == "" and "plug the stick in" in copies()[1].wrong
    assert len(warnings(NOW)) == 1 and not stick.exists()
    stick.with_name("in a pocket").rename(stick)
    keep_backup(NOW + timedelta(minutes=1), anew=False)
    assert files(own) == files(stick) and warnings(NOW) == []

    def full(source: Any, target: Any) -> None:
        Path(target).write_bytes(b"half")
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(shutil, "copyfile", full)
        keep_backup(NOW + timedelta(minutes=5))
    first, second = copies()
    assert first.at == NOW + timedelta(minutes=5) and "full" in second.wrong and second.at == NOW
    assert [file.name for file in stick.iterdir()] == files(stick) and len(files(stick)) == 1


@sqlite_only
def test_what_a_stick_gives_back_otherwise_does_not_count(places: tuple[Path, Path], monkeypatch: Any) -> None:
    def worn_out(source: Any, target: Any) -> None:
        written = bytearray(Path(source).read_bytes())
        written[9000] ^= 1
        Path(target).write_bytes(written)

    monkeypatch.setattr(shutil, "copyfile", worn_out)
    keep_backup(NOW)
    assert "another stick" in copies()[1].wrong and files(places[1]) == []


@sqlite_only
def test_a_copy_whose_ledger_is_another_does_not_count(places: tuple[Path, Path], monkeypatch: Any) -> None:
    world.plain()
    whole = keeping_backups.back_up

    def altered(file: Path, steps: Any) -> None:
        whole(file, steps)
        with sqlite3.connect(file) as copy:
            for (trigger,) in copy.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
                copy.execute(f"DROP TRIGGER {trigger}")
            copy.execute(
                "UPDATE slips_weighslip SET link = 'x' WHERE position = (SELECT max(position) FROM slips_weighslip)"
            )
        copy.close()

    monkeypatch.setattr(keeping_backups, "back_up", altered)
    assert all(one.wrong for one in keep_backup(NOW)) and files(places[0]) == files(places[1]) == []


def test_it_is_due_every_few_minutes_on_the_day_and_daily_otherwise() -> None:
    event = world.event()  # 20 June 2026 in Chicago
    assert event_today(NOW) and every(NOW) == timedelta(minutes=5)
    assert event_today(NOW, event) and not event_today(NOW, world.bare_event("Other", date="2026-07-01"))
    for other in (NOW - timedelta(days=1), NOW + timedelta(days=2)):
        assert every(other) == timedelta(days=1)
    assert event_today(datetime(2026, 6, 21, 6, 0, tzinfo=UTC)), "a night event goes on after midnight"
    EventDay.objects.update(status=EventDay.Status.CANCELLED)
    assert not event_today(NOW)


def test_old_ones_go_hour_by_hour_and_day_by_day() -> None:
    first = NOW - timedelta(days=260)
    made = [name_at(first + timedelta(minutes=30 * n), "sqlite3") for n in range(260 * 48 + 1)]
    left = sorted(set(made) - set(too_old([*made, "before-restore-20260101-000000.sqlite3", "mine.sqlite3"], NOW)))
    ages = [(NOW - at) for name in left if (at := made_at(name))]
    assert sum(age <= timedelta(days=1) for age in ages) == 49
    assert sum(timedelta(days=1) < age <= timedelta(days=7) for age in ages) in (144, 145)
    assert sum(age > timedelta(days=7) for age in ages) in (193, 194) and max(ages) <= timedelta(days=201)
    assert too_old([made[0]], NOW) == [], "the newest stays whatever its age"
    assert too_old([name_at(NOW + timedelta(hours=1), "sqlite3"), made[-1]], NOW) == [], "the clock was set back"


@sqlite_only
def test_the_days_page_says_when_and_where_and_warns(places: tuple[Path, Path], monkeypatch: Any) -> None:
    event = world.event()
    director = world.member(event.club)
    monkeypatch.setattr("weighin.operations.queries.day.timezone.now", lambda: NOW)
    page = director.get(event.get_absolute_url()).content.decode()
    assert page.count("is older than 15 minutes") == 2 and "No backup yet" in page
    keep_backup(NOW)
    page = director.get(event.get_absolute_url()).content.decode()
    assert "is older than" not in page and "Last backup: Jun 20, 3:00" in page and str(places[1]) in page
    official = world.member(event.club, "weigh_official")
    assert str(places[0]) not in official.get(event.get_absolute_url()).content.decode()


def test_who_starts_the_server_is_told_where_they_go(settings: Any, tmp_path: Path) -> None:
    settings.DATA, settings.BACKUP_TO = tmp_path, None
    assert "WEIGHIN_BACKUP_TO names a second disk" in second_place_said()
    settings.BACKUP_TO = tmp_path / "stick"
    assert "plug the stick in" in second_place_said()
    settings.BACKUP_TO.mkdir()
    assert "same disk" in second_place_said()


@sqlite_only
def test_one_of_two_servers_makes_them(places: tuple[Path, Path]) -> None:
    first, second = keeping_backups._lock(), keeping_backups._lock()
    assert keeping_backups._alone(first) and not keeping_backups._alone(second) and keeping_backups._alone(first)
    first.close()
    assert keeping_backups._alone(second)
    second.close()


@sqlite_only
def test_a_fault_is_told_and_the_next_one_is_tried(places: tuple[Path, Path], monkeypatch: Any, caplog: Any) -> None:
    tried: list[Any] = []

    def refuse(*words: Any) -> None:
        tried.append(words)
        raise BackupRefused("no room")

    monkeypatch.setattr(keeping_backups, "_make", refuse)
    monkeypatch.setattr(keeping_backups, "LOOK_SECONDS", 0.01)
    monkeypatch.setattr(keeping_backups, "AFTER_A_FAULT_SECONDS", 0.01)
    keeper = BackupKeeper()
    assert not keeper._look() and not keeper._look()
    assert len(tried) == 2 and copies()[0].wrong == "no room"
    assert sum("no room" in record.getMessage() for record in caplog.records) == 1, "told once, not every minute"


def test_a_server_makes_one_soon_after_its_start(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "stick").mkdir()
    site = Site(tmp_path / "data", WEIGHIN_BACKUP_TO=str(tmp_path / "stick"))
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    site.start()
    assert "Backups go to" in site.said()
    made = until(lambda: files(tmp_path / "stick"))
    told = until(lambda: (tmp_path / "data/backups/by-itself.json").is_file()) and json.loads(
        (tmp_path / "data/backups/by-itself.json").read_text()
    )
    assert site.stop() == 0 and {one["name"] for one in told.values()} == set(made)
    assert site.manage("restore", str(tmp_path / "stick" / made[0])).returncode == 0
    assert "Traceback" not in site.said()


def test_it_goes_on_while_slips_come_in(tmp_path: Path) -> None:
    """Small steps from a snapshot: slips that come in meanwhile neither wait for it nor make it begin anew."""
    file = tmp_path / "live.sqlite3"
    with sqlite3.connect(file, isolation_level=None) as live:
        live.execute("PRAGMA journal_mode=WAL")
        live.execute("CREATE TABLE slips (n INTEGER, said TEXT)")
        live.executemany("INSERT INTO slips VALUES (?, ?)", [(n, "x" * 2000) for n in range(2000)])
    source, copy = sqlite3.connect(file, isolation_level=None), sqlite3.connect(tmp_path / "copy.sqlite3")
    source.execute("BEGIN")
    source.execute("SELECT count(*) FROM sqlite_master").fetchone()
    steps: list[int] = []

    def between(status: int, remaining: int, pages: int) -> None:
        steps.append(remaining)
        live.execute("INSERT INTO slips VALUES (?, 'meanwhile')", (10_000 + len(steps),))

    source.backup(copy, pages=keeping_backups.STEP_PAGES, progress=between)
    assert steps == sorted(steps, reverse=True) and len(steps) > 10
    assert copy.execute("SELECT count(*) FROM slips").fetchone() == (2000,)
    assert live.execute("SELECT count(*) FROM slips").fetchone() == (2000 + len(steps),)
    for one in (live, source, copy):
        one.close()
