"""The event's day, histories, and a workbook on its way in through the web."""

import io
from pathlib import Path
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from second_reading.workbook import write

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.slips.services.slips import record_slip

__all__ = ["clock"]


@pytest.fixture(autouse=True)
def _own_folder(settings: Any, tmp_path: Path) -> None:
    settings.DATA = tmp_path


def upload(name: str = "event.xlsx", **keys: str) -> SimpleUploadedFile:
    out = io.BytesIO()
    write(world.plain_sheets(**keys), out)  # type: ignore[arg-type]
    return SimpleUploadedFile(name, out.getvalue())


@pytest.mark.django_db
def test_the_day_says_what_needs_whom() -> None:
    event = world.plain()
    director = world.member(event.club)
    where = reverse("operations:day", args=[event.slug])
    html = director.get(where).content.decode()
    assert "Day 1: 4 of 5 weighed." in html
    record_slip(event, {"boat": "4", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "test")
    assert "Day 1: boat 4 has two slips. Neither counts until one is chosen." in director.get(where).content.decode()
    reviewer = world.member(event.club, "club_reviewer")
    assert "Neither counts" not in reviewer.get(where).content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("now", "missing"), [("2026-06-19T09:00:00-05:00", False), ("2026-06-20T09:00:00-05:00", True)]
)
def test_the_day_misses_slips_from_its_morning_on(now: str, missing: bool, clock: Clock) -> None:
    clock(now)
    event = world.event("Teams")
    html = world.member(event.club).get(reverse("operations:day", args=[event.slug])).content.decode()
    assert ("No slip yet" in html) is missing


@pytest.mark.django_db
def test_the_day_costs_the_same_for_one_boat_and_many() -> None:
    def queries(event: Event) -> int:
        client = world.member(event.club)
        with CaptureQueriesContext(connection) as found:
            assert client.get(reverse("operations:day", args=[event.slug])).status_code == 200
        return len(found)

    assert queries(world.large(1, "One")) == queries(world.large(60, "Many"))


@pytest.mark.django_db
def test_the_history_names_who_did_what_and_walks_the_ledger() -> None:
    event = world.plain()
    record_slip(event, {"boat": "5", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "ruth")
    html = world.member(event.club).get(reverse("operations:history", args=[event.slug])).content.decode()
    assert "No slip was altered" in html and "ruth" in html and "saved for boat 5" in html
    club = world.member(event.club).get(reverse("operations:club_history", args=[event.club.slug])).content.decode()
    assert "imported from a workbook" in club


@pytest.mark.django_db
def test_a_faulty_workbook_is_listed_by_cell_and_nothing_is_written() -> None:
    club = Club.objects.create(name="Heron Bend Anglers", slug="heron-bend-anglers")
    client = world.member(club)
    answer = client.post(
        reverse("operations:import", args=[club.slug]),
        {"workbook": upload(date="yesterday", weight_unit="stone")},
        follow=True,
    )
    html = answer.content.decode()
    assert "Event!B" in html and "yesterday" in html and "2 faults" in html
    assert not Event.objects.exists()


@pytest.mark.django_db
def test_another_clubs_workbook_and_other_files_are_refused() -> None:
    club = Club.objects.create(name="Far Bank", slug="far-bank")
    client = world.member(club)
    where = reverse("operations:import", args=[club.slug])
    assert (
        "This workbook is of Heron Bend Anglers"
        in client.post(where, {"workbook": upload()}, follow=True).content.decode()
    )
    assert "is not an .xlsx workbook" in client.post(where, {"workbook": upload("event.csv")}).content.decode()
    assert (
        "broken or no workbook"
        in client.post(where, {"workbook": SimpleUploadedFile("x.xlsx", b"no")}, follow=True).content.decode()
    )
    assert client.get(reverse("operations:import_job", args=[club.slug, "0" * 32])).status_code == 404
    job = client.post(where, {"workbook": upload()})["Location"]
    assert world.stranger().get(job).status_code == 404


@pytest.mark.django_db
def test_a_sound_workbook_comes_in_and_the_page_goes_on_to_the_event() -> None:
    club = Club.objects.create(name="Heron Bend Anglers", slug="heron-bend-anglers")
    client = world.member(club)
    preview = client.post(reverse("operations:import", args=[club.slug]), {"workbook": upload()})["Location"]
    assert "Plain event is ready to import." in client.get(preview).content.decode()
    for answer in (client.post(preview), client.post(preview), client.get(preview)):  # the button pressed twice
        assert answer["Location"] == "/events/plain-event-2026/"
    assert Event.objects.get().slips.count() == 7
