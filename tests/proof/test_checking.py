"""Anyone may hold a published file against what the site keeps."""

import json
import re
from typing import Any

import pytest
import world
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from weighin.audit.database.triggers import install, remove
from weighin.audit.domain.reading_out import read_out
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.operations.services import checking
from weighin.slips.services.slips import record_slip
from weighin.standings.models import OfficialResult
from weighin.standings.services import publish_result, set_public, start_embargo

pytestmark = pytest.mark.django_db
PAGE = "/check/"


@pytest.fixture
def event() -> Event:
    event = world.event(slips=[world.slip(boat="1"), world.slip(boat="2", gross="9.10")])
    publish_result(event, "mara")
    return event


def given_out(event: Event) -> dict[str, Any]:
    answer = Client().get(reverse("public:api_event", args=[event.slug]))
    assert answer.status_code == 200
    return dict(answer.json())


def checked(told: Any, text: bytes | None = None) -> HttpResponse:
    checking.forget()
    whole = json.dumps(told).encode() if text is None else text
    # No token of a form: nothing is written
    client = Client(enforce_csrf_checks=True)
    return client.post(PAGE, {"file": SimpleUploadedFile("result.json", whole)})  # type: ignore[return-value]


def said(answer: HttpResponse) -> str:
    return " ".join(answer.content.decode().replace("&#x27;", "'").split())


def test_what_the_site_gives_out_is_what_it_keeps(event: Event) -> None:
    before = HistoryEntry.objects.count()
    found = said(checked(given_out(event)))
    assert "result.json is official result 1 of Open table" in found and "on this site was altered" in found
    assert "no part of a result: mortality" in found and HistoryEntry.objects.count() == before


def test_the_figures_to_read_out_are_on_paper_and_the_file_beside_them(event: Event) -> None:
    page = Client().get(reverse("public:result", args=[event.slug, 1])).content.decode()
    on_paper = page.split('class="small only-print">')[1].split("</p>")[0]
    assert read_out(OfficialResult.objects.get().ledger_head) in on_paper and "of history" in on_paper
    file = re.search(r'href="([^"]+)" download', page)
    assert file and "is official result 1" in said(checked(Client().get(file[1]).json()))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (
            lambda told: told["standings"][0].update(total="99.99"),
            "boat 2: total 99.99 in the file, 9.10 in official result 1",
        ),
        (
            lambda told: told["standings"][0]["days"][0].update(fish=1),
            "boat 2: its days differ: day 1 fish 1 in the file",
        ),
        (lambda told: told["standings"].pop(), "not in the file"),
        (
            lambda told: told["event"].update(name="<b>Other</b>"),
            "the event: name &lt;b&gt;Other&lt;/b&gt; in the file",
        ),
        (lambda told: told["purse"].update(purse="1.00"), "the purse differs: purse 1.00 in the file"),
        (lambda told: told["ledger"].update(head="0" * 64), "the file was made from other slips"),
    ],
)
def test_what_differs_is_named_row_by_row(event: Event, change: Any, words: str) -> None:
    told = given_out(event)
    change(told)
    found = said(checked(told))
    assert "result.json does not agree with Open table" in found and words in found


def test_of_what_is_not_published_nothing_is_said(event: Event) -> None:
    told = given_out(event)
    set_public(event, False, "mara")
    hidden = said(checked(told))
    told["event"]["slug"] = "nowhere"
    assert "There is no such result here" in hidden and hidden == said(checked(told))


def test_what_is_held_back_stays_so(event: Event) -> None:
    start_embargo(event, timezone.now(), "mara")
    told = given_out(event)
    record_slip(event, {**world.slip(boat="3", gross="12.34")}, "mara")
    found = said(checked(told))
    assert "is official result 1" in found and "12.34" not in found
    told["ledger"]["length"] = 3
    assert "made from other slips" in said(checked(told))


@pytest.mark.parametrize(
    "text", [b"", b"[]", b"{", b"\xff", b'{"event": {"slug": 3}}', b"[" * 100_000, b"9" * 9_000, b'{"event": {"slug": "x"}, "purse": {}, "standings": [{"boat": []}], "ledger": {"length": 1, "head": ""}}']
)  # fmt: skip
def test_what_is_no_result_is_refused_in_a_sentence(event: Event, text: bytes) -> None:
    assert "choose the JSON of an event" in said(checked(None, text))


@pytest.mark.parametrize("slug", ["\ud800", "\0", "", "a b", ["x"], None])
def test_a_slug_that_no_event_can_have_is_no_result(event: Event, slug: Any) -> None:
    told = given_out(event)
    told["event"]["slug"] = slug
    assert "choose the JSON of an event" in said(checked(told))


def test_a_large_file_none_and_two_at_once_are_refused(event: Event) -> None:
    large = checked(None, b" " * (checking.MOST_BYTES + 1))
    assert large.status_code == 413 and "at most 4 MB" in said(large)
    none = Client().post(PAGE, {})
    assert none.status_code == 400 and "No file was chosen" in said(none)  # type: ignore[arg-type]
    told = given_out(event)
    assert checked(told).status_code == 200
    again = Client().post(PAGE, {"file": SimpleUploadedFile("a.json", json.dumps(told).encode())})
    assert again.status_code == 429 and "in a few seconds" in said(again)  # type: ignore[arg-type]


def test_records_altered_here_are_said_without_what_they_are(event: Event) -> None:
    told = given_out(event)
    remove(connection, "slips_weighslip")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE slips_weighslip SET note = 'secret note' WHERE position = 1")
    install(connection, "slips_weighslip")
    found = said(checked(told))
    assert "of the event was altered" in found and "secret" not in found


def test_the_page_is_found_from_the_public_ones(event: Event) -> None:
    assert Client().get(PAGE).status_code == 200
    page = Client().get(reverse("public:result", args=[event.slug, 1])).content.decode()
    assert f'href="{PAGE}"' in page
