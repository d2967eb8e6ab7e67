"""Names of anglers, children and officials, and ways to reach them, are in nothing that a visitor gets, nor in the log.

Every address that answers without a log-in is asked, with searches for the names too; pages, files with what is written
in them and what they are called, headers, refusals, and the site's log.
"""

import io
import logging
import re
from collections.abc import Iterator
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import URLResolver, get_resolver
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Angler
from weighin.roster.services.contacts import keep_contact
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import record_slip
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
# Each stands where a person wrote it, and nowhere else
ANGLERS = ("Zebulon Quarrington", "Philippa Quince")
OFFICIALS = ("Ottoline Quaife", "quaife.o", "quaife@example.org", "555-0161", "Rosalind Quenby", "555-0162", "Quilter")
CONTACTS = ("555-0163", "Xanthe Quillon", "555-0164", "herons@quillfeather.example")
PLANTED = (*ANGLERS, *OFFICIALS, *CONTACTS)
WORDS = re.compile("|".join(re.escape(part) for name in PLANTED for part in {name, name.split()[-1]}), re.IGNORECASE)


@pytest.fixture
def event() -> Event:
    teams = [
        {"boat": "1", "team": "Heron one", "angler_1": ANGLERS[0], "note": "Call 555-0161", "paid": "yes"},
        {"boat": "2", "team": "Young herons", "angler_1": ANGLERS[1], "youth": "yes", "note": "Mother: Quilter"},
    ]
    found = world.event(
        "Planted", teams, [world.slip(boat="1", official="Ottoline Quaife", note="Quilter asked twice")]
    )
    Club.objects.update(contact="Rosalind Quenby, 555-0162")
    Event.objects.filter(pk=found.pk).update(note="Call Quilter", permit="Quilter's permit")
    world.member(found.club, Role.DIRECTOR, "quaife.o")
    User.objects.filter(username="quaife.o").update(first_name="Ottoline Quaife", email="quaife@example.org")
    record_slip(found, world.slip(boat="2", gross="6.00", official="Ottoline Quaife"), "quaife.o")
    reached = ContactValues("555-0163", "Xanthe Quillon 555-0164", "herons@quillfeather.example")
    for entry in found.entries.all():
        keep_contact(entry, reached, "quaife.o")
    publish_result(found, "quaife.o")
    found.refresh_from_db()
    return found


def _routes(patterns: list[Any], before: str = "") -> Iterator[str]:
    for pattern in patterns:
        route = before + str(pattern.pattern)
        yield from _routes(pattern.url_patterns, route) if isinstance(pattern, URLResolver) else [route]


def _addresses(event: Event) -> list[str]:
    """Every address there is, filled in for the event, and some that are not."""
    known = {
        "event_slug": event.slug,
        "club_slug": event.club.slug,
        "season_slug": event.season.slug,
        "version": 1,
        "boat": 2,
        "day": 1,
        "number": 1,
        "form": "csv",
        "key": "0" * 32,
        "language": "en",
    }
    found = []
    for route in sorted(set(_routes(get_resolver().url_patterns))):
        filled = "/" + re.sub(r"<(?:\w+:)?(\w+)>", lambda part: str(known.get(part[1], 1)), route)
        found.append(filled)
    odd = [
        f"/results/{event.slug}/official/99/",
        f"/results/{event.slug}/standings/why/99/",
        "/results/nowhere/",
        "/nowhere",
    ]
    return [*found, *odd]


def _said(answer: Any) -> str:
    """All of an answer that can be read: headers, cookies, body; of a PDF the words on its pages and about it."""
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    if body.startswith(b"%PDF"):
        file = PdfReader(io.BytesIO(body))
        text = " ".join(page.extract_text() for page in file.pages) + str(file.metadata)
    else:
        text = body.decode(errors="ignore")
    return f"{answer.headers} {answer.cookies} {text}"


def test_the_names_are_kept_and_members_find_them(event: Event) -> None:
    assert set(Angler.objects.values_list("name", flat=True)) == set(ANGLERS)
    assert (
        WeighSlip.objects.filter(recorded_by="quaife.o").exists()
        and HistoryEntry.objects.filter(actor="quaife.o").exists()
    )
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    assert ANGLERS[1] in client.get(f"/events/{event.slug}/teams/").content.decode()


def test_no_answer_to_a_stranger_holds_one(event: Event) -> None:
    answered = 0
    for address in _addresses(event):
        for query in ("", "?why=1", "?q=Quince", "?q=Quaife", "?search=Quarrington", "?sort=-team"):
            answer = Client().get(address + query)
            said = _said(answer)
            # What somebody searched for themselves stands in the field they wrote it in, and in addresses that go on
            said = re.sub(
                r'value="(Quince|Quaife|Quarrington)"|(q|search)(=|%3D)(Quince|Quaife|Quarrington)|“(Quince|Quaife|Quarrington)”',
                "",
                said,
            )
            found = WORDS.search(said)
            assert not found, (address + query, found and said[max(0, found.start() - 80) : found.end() + 40])
            answered += answer.status_code == 200
    assert answered > 60


@pytest.mark.parametrize("searched", ["Quince", "Zebulon", "555-0161"])
def test_the_public_search_finds_no_angler(event: Event, searched: str) -> None:
    rows = Client().get(f"/results/{event.slug}/standings/", {"q": searched}).content.decode()
    assert "Young herons" not in rows and "Heron one" not in rows
    member = world.member(event.club).get(f"/events/{event.slug}/standings/", {"q": "Quince"}).content.decode()
    assert "Young herons" in member


def test_refusals_of_posts_hold_none(event: Event) -> None:
    for address in _addresses(event):
        said = _said(Client().post(address, {"q": "x"}))
        assert not WORDS.search(said), address


def test_public_pages_give_readers_no_cookie(event: Event) -> None:
    for page in ("", "standings/", "rules/", "fish/", "briefing/", "official/1/", "crowd/", "screen/"):
        answer = Client().get(f"/results/{event.slug}/{page}")
        assert answer.status_code == 200 and not answer.cookies, page
    assert not Client().get("/").cookies and not Client().get(f"/privacy/{event.club.slug}/").cookies


def test_the_log_holds_none(event: Event, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither of what is asked, nor when a page or an act breaks with the names in its hands."""
    member = Client(raise_request_exception=False)
    member.force_login(User.objects.get(username="quaife.o"))
    caplog.set_level(logging.INFO)
    with caplog.at_level(logging.INFO):
        for address in _addresses(event):
            Client(raise_request_exception=False).get(f"{address}?q=Quince")
        member.get(f"/events/{event.slug}/teams/?q=Quince")
        monkeypatch.setattr("weighin.roster.services.teams._note_entered", lambda *words: 1 / 0)
        broken = member.post(
            f"/events/{event.slug}/teams/new/",
            {"boat": "9", "name": "Third", "angler_1": "Zebulon Quarrington the younger", "status": "entered"},
        )
        assert broken.status_code == 500
        member.post(f"/clubs/{event.club.slug}/privacy/angler/", {"act": "find", "name": "Philippa Quince"})
    told = "\n".join(f"{record.getMessage()} {record.exc_text or ''}" for record in caplog.records)
    assert "ZeroDivisionError" in told or "Internal Server Error" in told
    found = WORDS.search(told)
    assert not found, told[max(0, found.start() - 200) : found.end() + 100] if found else ""
