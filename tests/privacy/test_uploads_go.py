"""Workbooks hold names: they are gone once the event is in, after a day, and when all of them take too much room."""

import os
import time
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.files.uploadedfile import SimpleUploadedFile
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.clubs.models import Club
from weighin.operations.services import imports
from weighin.operations.services.imports import BOOK, KEPT_SECONDS, Job, NoSuchJob, sweep

pytestmark = pytest.mark.django_db


@pytest.fixture
def club() -> Club:
    return Club.objects.create(name="Heron Bend Anglers", slug="heron-bend-anglers")


@pytest.fixture(autouse=True)
def data(tmp_path: Path, settings: Any) -> Path:
    settings.DATA = tmp_path
    return tmp_path


@pytest.fixture
def book(tmp_path: Path) -> bytes:
    write(plain_event(), tmp_path / "plain.xlsx")
    return (tmp_path / "plain.xlsx").read_bytes()


def job(club: Club, content: bytes) -> Job:
    return Job.start(club, SimpleUploadedFile("plain.xlsx", content))


def older(found: Job, seconds: float) -> None:
    then = time.time() - seconds
    os.utime(found.folder, (then, then))


def test_it_is_gone_once_the_event_is_in(club: Club, book: bytes) -> None:
    found = job(club, book)
    assert (found.folder / BOOK).exists()
    found.bring_in("mara", replace=False)
    assert found.slug and not (found.folder / BOOK).exists()
    client = world.member(club)
    again = client.post(f"/clubs/{club.slug}/import/{found.key}/")
    assert again.status_code == 302 and found.slug in again["Location"]


def test_it_stays_while_it_has_faults(club: Club) -> None:
    found = job(club, b"no workbook")
    found.bring_in("mara", replace=False)
    assert not found.slug and (found.folder / BOOK).exists()


def test_after_a_day_it_is_gone_with_the_next_upload_or_at_a_start(club: Club, book: bytes) -> None:
    old, young = job(club, book), job(club, book)
    older(old, KEPT_SECONDS + 60)
    sweep()
    assert not old.folder.exists() and young.folder.exists()
    with pytest.raises(NoSuchJob):
        Job(club, old.key)


def test_the_oldest_goes_when_all_take_too_much(club: Club, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(imports, "MOST_KEPT", 3500)
    first, second, third = (job(club, b"x" * 1000) for _ in range(3))
    for age, found in ((300, second), (200, first), (100, third)):
        older(found, age)
    fourth = job(club, b"x" * 1000)
    assert not second.folder.exists()
    assert first.folder.exists() and third.folder.exists() and fourth.folder.exists()
