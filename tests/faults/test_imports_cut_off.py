"""Workbooks on their way in when the server ends, and addresses that never were a workbook's."""

import threading
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.files.uploadedfile import SimpleUploadedFile
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.operations import imports
from weighin.operations.imports import Job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(tmp_path: Path) -> Job:
    club = Club.objects.create(name="Heron Bend Anglers", slug="heron-bend-anglers")
    write(plain_event(), tmp_path / "plain.xlsx")
    return Job.start(club, SimpleUploadedFile("plain.xlsx", (tmp_path / "plain.xlsx").read_bytes()))


def test_a_workbook_that_was_coming_in_when_the_server_ended_can_come_in_again(job: Job) -> None:
    job.write_status(state="going", done=3, of=7, word="slips")  # by a server that is no more
    page = world.member(job.club).get(f"/clubs/{job.club.slug}/import/{job.key}/").content.decode()
    assert "The server was ended while this was coming in" in page and "Bring the event in" in page
    job._bring_in("test", replace=False)
    assert job.status["state"] == "done" and Event.objects.count() == 1


def test_a_workbook_sent_in_twice_comes_in_once(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[Any] = []
    monkeypatch.setattr(threading.Thread, "start", lambda thread: started.append(thread))
    for _ in range(3):
        job.run("test", replace=False)
    assert len(started) == 1 and job.status["state"] == "going"
    imports._going.clear()


@pytest.mark.parametrize("key", ["a" * 31, "a" * 33, "f" * 1000, "0" * 32, "G" * 32])
def test_an_address_that_is_no_workbook_is_not_found(job: Job, key: str) -> None:
    client = world.member(job.club)
    for page in ("", "progress/"):
        assert client.get(f"/clubs/{job.club.slug}/import/{key}/{page}").status_code == 404
