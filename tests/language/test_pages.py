"""No text was forgotten: every page of the demo, for everybody, in the language of brackets."""

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
import world
from django.conf import settings
from django.core.management import call_command
from django.db import transaction
from django.template.loader import render_to_string
from django.test import Client, RequestFactory
from django.urls import reverse
from language.catalogue import catalogue, of_packages
from language.data import Data, written
from language.outside import outside, outside_of_pdf
from language.pseudo import CODE, OPENS, Asked, spoken
from walking import Opened, busy_club, walk

from weighin.accounts.domain.roles import Role
from weighin.clubs.models import Club
from weighin.events.models import Event

pytestmark = pytest.mark.django_db
FOLDER = settings.BASE / "templates"
FORM = re.compile(r'<form\b[^>]*\bmethod="post"')


@dataclass
class Read:
    """What was read: texts outside the brackets by view with the page that shows them, and how much was read."""

    found: dict[str, dict[str, str]] = field(default_factory=lambda: defaultdict(dict))
    asked: Asked = field(default_factory=Asked)
    pages: int = 0
    papers: int = 0
    refused: int = 0

    def take(self, view: str, address: str, page: str, data: Data) -> None:
        """A page as it was answered."""
        pieces, broken = outside(page)
        for text in [*(piece for piece in pieces if data.left(piece)), *broken]:
            self.found[view].setdefault(text, address)

    def take_paper(self, opened: Opened, data: Data) -> None:
        """A PDF: its cells stand one after the other, so only the words of ours in them are told."""
        answer = opened.answer
        pieces, broken = outside_of_pdf(b"".join(answer.streaming_content) if answer.streaming else answer.content)
        for text in [*(data.left(piece)[:200] for piece in pieces if data.left(piece)), *broken]:
            self.found[opened.view].setdefault(text, opened.address)

    def __str__(self) -> str:
        return "\n".join(
            f"{view}, {address}: {text}"
            for view, texts in sorted(self.found.items())
            for text, address in texts.items()
        )


@pytest.fixture(scope="module")
def read(django_db_setup: None, django_db_blocker: Any) -> Iterator[Read]:
    """Every page and PDF of the demo for everybody, and every form sent back because it was empty."""
    with django_db_blocker.unblock(), transaction.atomic():
        call_command("load_demo", verbosity=0)
        club, busy = Club.objects.order_by("pk")[0], busy_club()
        director, of_busy = world.member(club, Role.DIRECTOR), world.member(busy, Role.DIRECTOR)
        others = [world.member(club, role) for role in Role if role is not Role.DIRECTOR]
        event = Event.objects.filter(season__club=club, is_public=True)[0]
        starts = (
            "/",
            reverse("clubs:new"),
            *(reverse(name, args=(event.slug, 1)) for name in ("standings:why", "public:why")),
        )
        data, found = Data(written()), Read()
        with spoken() as found.asked:
            for client, of_a_view in [
                (Client(), 3),
                (director, 3),
                *((c, 1) for c in [of_busy, *others, world.stranger()]),
            ]:
                for opened in walk(client, of_a_view, starts):
                    if opened.is_pdf:
                        found.papers += 1
                        found.take_paper(opened, data)
                    if opened.is_page:
                        found.pages += 1
                        found.take(opened.view, opened.address, opened.answer.content.decode(), data)
                        if client in (director, of_busy) and FORM.search(opened.answer.content.decode()):
                            _send_empty(client, opened, data, found)
            for file in sorted(FOLDER.glob("[45]*.html")):
                page = render_to_string(file.name, request=RequestFactory().get("/"))
                found.take(f"refused:{file.stem}", file.name, page, data)
        yield found
        transaction.set_rollback(True)


def _send_empty(client: Client, opened: Opened, data: Data, found: Read) -> None:
    """A form without any answer comes back with what is wrong; what it may have written is undone."""
    with transaction.atomic():
        answer = client.post(opened.address, {})
        transaction.set_rollback(True)
    if answer.status_code in (200, 422) and answer.headers["Content-Type"].startswith("text/html"):
        found.refused += 1
        found.take(opened.view, opened.address, answer.content.decode(), data)


def test_nothing_is_outside_the_brackets(read: Read) -> None:
    assert not read.found, f"not looked up:\n{read}"


def test_the_walk_is_long_enough(read: Read) -> None:
    assert read.pages > 300 and read.papers > 10 and read.refused > 30 and len(read.asked.messages) > 1000


def test_every_text_that_is_looked_up_is_in_the_catalogue(read: Read) -> None:
    lost = read.asked.messages - catalogue() - of_packages()
    assert not lost, "looked up, but found by no makemessages:\n" + "\n".join(sorted(map(str, lost)))


def test_a_page_kept_in_one_language_is_not_shown_in_another(db: None) -> None:
    event = world.plain("Kept event")
    director = world.member(event.club)
    standings = reverse("standings:live", args=[event.slug])
    season = reverse("advice:season", args=[event.club.slug, event.season.slug])
    for address, heading in ((standings, "Standings, provisional"), (season, "Event by event")):
        assert f">{heading}" in director.get(address).content.decode()
        with spoken():
            page = director.get(address).content.decode()
        assert f">{OPENS}{heading}" in page and f'<html lang="{CODE}">' in page
        assert f">{heading}" in director.get(address).content.decode()
