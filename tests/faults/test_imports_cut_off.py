"""Workbooks on their way in when the server breaks, and addresses that never were a workbook's."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
import world
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connections
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.operations.services import imports
from weighin.operations.services.imports import Job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(tmp_path: Path) -> Job:
    club = Club.objects.create(name="Heron Bend Anglers", slug="heron-bend-anglers")
    write(plain_event(), tmp_path / "plain.xlsx")
    return Job.start(club, SimpleUploadedFile("plain.xlsx", (tmp_path / "plain.xlsx").read_bytes()))


def test_a_workbook_that_was_coming_in_when_the_server_broke_can_come_in_again(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as broken:
        broken.setattr("weighin.workbooks.services.log_history", lambda *words, **more: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            job.bring_in("test", replace=False)
    assert not job.slug and not Event.objects.exists()
    page = world.member(job.club).get(f"/clubs/{job.club.slug}/import/{job.key}/").content.decode()
    assert "plain.xlsx" in page and "Import the event" in page
    job.bring_in("test", replace=False)
    assert job.slug == Event.objects.get().slug


@pytest.mark.django_db(transaction=True)
def test_a_workbook_sent_in_twice_comes_in_once(job: Job) -> None:
    def press(_: int) -> None:
        try:
            job.bring_in("test", replace=False)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(3) as presses:
        assert list(presses.map(press, range(3))) == [None] * 3
    assert Event.objects.get().slips.count() == 7


def test_what_came_in_meanwhile_is_said_on_the_page(job: Job) -> None:
    imports.keep_event(job.read()[0], "somebody else")  # type: ignore[arg-type]
    page = world.member(job.club).post(f"/clubs/{job.club.slug}/import/{job.key}/").content.decode()
    assert "Not imported." in page and "is here already" in page
    assert Event.objects.count() == 1


@pytest.mark.parametrize("key", ["a" * 31, "a" * 33, "f" * 1000, "0" * 32, "G" * 32])
def test_an_address_that_is_no_workbook_is_not_found(job: Job, key: str) -> None:
    client = world.member(job.club)
    assert client.get(f"/clubs/{job.club.slug}/import/{key}/").status_code == 404
