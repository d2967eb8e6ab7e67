"""The page on which draws are made, the launch sheet for members and the public, and its PDF."""

import io
import re

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.registration.domain.drawing import hash_of
from weighin.registration.models import Draw
from weighin.registration.services.draws import draw, draw_anew, show_draws
from weighin.standings.services import set_public

pytestmark = pytest.mark.django_db
SEED = "river coin heads 7"


@pytest.fixture
def event() -> Event:
    return world.event("Drawn", 4)


def page_of(event: Event, client: Client, name: str = "registration:draws") -> str:
    return re.sub(r"\s+", " ", client.get(reverse(name, args=[event.slug])).content.decode())


def words_of(content: bytes) -> str:
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)


@pytest.mark.parametrize("role", [Role.DIRECTOR, Role.DESK_OFFICIAL])
def test_directors_and_the_desk_draw_and_void_on_one_page(event: Event, role: Role) -> None:
    client = world.member(event.club, role)
    page = page_of(event, client)
    assert "Nothing is drawn yet." in page and "Entries are open." in page and "4 teams would be in it" in page
    sent = {"launch-seed": f" {SEED} ", "launch-way": "seed"}
    client.post(reverse("registration:draw_now", args=[event.slug, "launch"]), sent)
    page = page_of(event, client)
    assert f"Seed: <b>{SEED}</b>" in page and hash_of(SEED, "launch", 1) in page
    assert "Entries are closed." in page and "Drawn: Launch order" in page
    sent = {"launch-void-reason": "The coin was not seen", "launch-void-seed": "tails"}
    client.post(reverse("registration:draw_void", args=[event.slug, "launch"]), sent)
    page = page_of(event, client)
    assert "Draw 1, voided: The coin was not seen" in page and "Seed: <b>tails</b>" in page
    client.post(
        reverse("registration:draw_void", args=[event.slug, "launch"]),
        {"launch-void-reason": "No", "launch-void-seed": ""},
    )
    assert Draw.objects.current().count() == 0 and "Nothing is drawn yet." in page_of(event, client)


def test_what_is_wrong_stands_at_its_field_and_nothing_typed_is_lost(event: Event) -> None:
    client = world.member(event.club)
    url = reverse("registration:draw_now", args=[event.slug, "launch"])
    page = client.post(url, {"launch-seed": "  ", "launch-way": "seed"}).content.decode()
    assert "The seed is missing: write the words or figures that everybody heard." in page
    draw(event, "launch", "mara", SEED)
    url = reverse("registration:draw_void", args=[event.slug, "launch"])
    page = client.post(url, {"launch-void-reason": "", "launch-void-seed": "typed already"}).content.decode()
    assert "write why the draw is voided" in page and 'value="typed already"' in page
    assert Draw.objects.count() == 1
    assert client.post(reverse("registration:draw_now", args=[event.slug, "else"])).status_code == 404


def test_other_members_read_it_and_draw_nothing(event: Event) -> None:
    draw(event, "lots", "mara", SEED)
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    page = page_of(event, client)
    assert SEED in page and "Void the draw" not in page and "Show the draws" not in page


def test_the_public_sees_seed_recipe_and_table_when_the_director_shows_them(event: Event) -> None:
    set_public(event, True, "mara")
    draw(event, "lots", "mara quill", "first seed")
    draw_anew(event, "lots", "mara quill", "Reason within the club", SEED)
    anybody = Client()
    page, paper = (reverse(name, args=[event.slug]) for name in ("public:draws", "public:launch_sheet"))
    assert "are not shown" in page_of(event, anybody, "public:draws") and SEED not in anybody.get(page).content.decode()
    assert "are not shown" in words_of(anybody.get(paper).content)
    director = world.member(event.club)
    director.post(reverse("registration:draws_shown", args=[event.slug]), {"shown": "yes"})
    said, printed = anybody.get(page).content.decode(), words_of(anybody.get(paper).content)
    printed = printed.replace("\n", "")  # a long figure stands on two lines
    for text in (SEED, hash_of(SEED, "lots", 1), "SHA-256", "Drawn pair 1"):
        assert text in said and text in printed
    assert "first seed" in said and "mara" not in said + printed and "Reason within" not in said + printed
    assert reverse("public:draws", args=[event.slug]) in page_of(event, anybody, "public:event")
    show_draws(event, False, "mara")
    assert SEED not in anybody.get(page).content.decode()


def test_the_launch_sheet_has_every_team_in_its_order(event: Event) -> None:
    client = world.member(event.club)
    assert "No launch order is drawn" in page_of(event, client, "registration:launch_sheet")
    made = draw(event, "launch", "mara", SEED)
    page = page_of(event, client, "registration:launch_sheet")
    places = [page.index(f">{row['team']}<") for row in made.order]
    assert places == sorted(places)
    printed = words_of(client.get(reverse("reports:launch_sheet", args=[event.slug])).content)
    assert SEED in printed and "mara" in printed and all(row["hash"] in printed.replace("\n", "") for row in made.order)


def test_the_page_asks_as_often_for_three_hundred_teams_as_for_four(event: Event) -> None:
    large = world.event("Large", 300)
    counts = []
    for one in (event, large):
        draw(one, "launch", "mara", SEED)
        client = world.member(one.club)
        page_of(one, client)
        with CaptureQueriesContext(connection) as asked:
            page_of(one, client)
        counts.append(len(asked))
    assert counts[0] == counts[1]
