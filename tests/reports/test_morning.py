"""The morning's set: that every part is in it, every page numbered through, every font embedded, and what is missing said."""

import io
import re
from hashlib import sha256
from time import process_time

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event, EventDay, Flight
from weighin.registration.services.draws import draw
from weighin.roster.models import Entry
from weighin.slips.models import PaperPad

PARTS = ("Sign-in sheet", "Launch order", "Livewell checklist", "Rules in words", "Care plan")


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Early paper", 9, lake_temp="82 F")


def pad(event: Event, first: int = 1, last: int = 6) -> PaperPad:
    return PaperPad.objects.create(event=event, name="Green", first=first, last=last, handed_to="R. Quill")


def read(client: Client, event: Event, **asked: str) -> list[str]:
    answer = client.get(reverse("reports:morning", args=[event.slug]), asked)
    assert answer.status_code == 200 and answer["Content-Type"] == "application/pdf"
    reader = PdfReader(io.BytesIO(answer.content))
    fonts = [
        font.get_object()
        for page in reader.pages
        for font in page["/Resources"]["/Font"].values()  # type: ignore[index]
    ]
    assert fonts and all("/FontFile2" in font["/FontDescriptor"] for font in fonts)
    return [" ".join(page.extract_text().split()) for page in reader.pages]


@pytest.mark.database
def test_every_part_is_in_it_and_the_pages_are_numbered_through(event: Event) -> None:
    pad(event)
    pages = read(world.member(event.club, Role.CLUB_REVIEWER), event, scales="2")
    said = " ".join(pages)
    assert [f"page {n} of {len(pages)}" in page for n, page in enumerate(pages, 1)] == [True] * len(pages)
    for part in PARTS:
        assert any(page.startswith(f"{part}, Early paper") for page in pages), part
    # Nine cards on three sheets, six slips on two
    assert sum("Show this at check-in" in page for page in pages) == 3 and said.count("Boat card ") >= 9
    assert sum("Spoiled? Cross it out" in page for page in pages) == 2
    for words in (
        "9 boats: plan for",
        "Oxygen feeds fire",
        "Electricity near water",
        "never lift it",
        "K.A.R. 115-7-8",
    ):
        assert words in said
    assert all(f"Early paper angler {n}" in said for n in range(1, 10))


@pytest.mark.database
def test_the_plan_in_it_is_the_one_that_was_asked(event: Event) -> None:
    client = world.member(event.club)
    page = client.get(reverse("planning:care_plan", args=[event.slug]), {"boats": "24", "anglers": "48", "lake": "70"})
    address = re.search(r'href="([^"]*morning\.pdf[^"]*)"', page.content.decode())
    assert address is not None
    answer = client.get(address[1].replace("&amp;", "&"))
    said = " ".join(" ".join(one.extract_text().split()) for one in PdfReader(io.BytesIO(answer.content)).pages)
    assert "24 boats: plan for" in said and "none is called for" in said


@pytest.mark.database
def test_what_is_missing_is_said_and_the_rest_is_printed(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(lake_temp="")
    EventDay.objects.update(lake_temp="")
    Entry.objects.filter(event=event, boat=9).update(boat=None)
    said = " ".join(read(world.member(event.club), event))
    assert "add a set of paper slips" in said and "1 team waits for its boat number" in said
    assert "The care plan is not worked out" in said and "Lake: Write a figure." in said
    assert said.count("Early paper pair 8") == 4 and said.count("Early paper pair 9") == 1  # it signs in


@pytest.mark.database
def test_the_launch_order_goes_by_the_flights_launch(event: Event) -> None:
    Flight.objects.create(event=event, name="Late", launch="07:00", due_time="16:00")
    Entry.objects.filter(event=event, boat__in=(1, 2)).update(flight_name="Late")
    pages = read(world.member(event.club), event)
    launch = next(page for page in pages if page.startswith("Launch order"))
    assert launch.index("Early paper pair 3") < launch.index("Early paper pair 9") < launch.index("7:00 AM")
    assert launch.index("7:00 AM") < launch.index("Early paper pair 1") < launch.index("Early paper pair 2")


@pytest.mark.database
def test_a_drawn_launch_order_is_printed_with_its_seed_and_recipe(event: Event) -> None:
    draw(event, "launch", "R. Quill", "river coin heads 7")
    launch = next(page for page in read(world.member(event.club), event) if page.startswith("Launch order"))
    hashes = {n: sha256(f"river coin heads 7|launch|{n}".encode()).hexdigest() for n in range(1, 10)}
    places = [launch.index(f"Early paper pair {n} ") for n in sorted(hashes, key=lambda n: hashes[n])]
    assert places == sorted(places)
    assert "Drawn with the seed: river coin heads 7" in launch and "SHA-256" in launch


@pytest.mark.database
def test_an_empty_event_gets_what_there_is(db: None) -> None:
    said = " ".join(read(world.member((event := world.bare_event()).club), event))
    assert "No team has a boat number yet" in said and "Rules in words" in said and "Sign-in sheet" not in said


@pytest.mark.database
def test_sixty_boats_take_seconds_and_the_same_statements_as_nine(event: Event) -> None:
    sixty = world.event("Many boats", 60, lake_temp="82 F")
    pad(sixty, 1, 60)
    pad(event, 61, 66)
    read(world.member(event.club), event)  # what is loaded once
    counts, spent = [], []
    for one in (event, sixty):
        before = process_time()
        with CaptureQueriesContext(connection) as asked:
            pages = read(world.member(one.club), one)
        counts.append(len(asked))
        spent.append(process_time() - before)
    assert len(pages) > 40 and spent[1] < 10 * spent[0], spent
    assert counts[0] == counts[1]


@pytest.mark.database
def test_strangers_get_nothing(event: Event) -> None:
    where = reverse("reports:morning", args=[event.slug])
    assert world.stranger().get(where).status_code == 404
    assert world.member(event.club).get(where, {"day": "9"}).status_code == 404
