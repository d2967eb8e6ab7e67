"""What strangers may put behind a question mark: never a broken page, never a page that others then see."""

import re

import pytest
from django.test import Client
from world import member, plain

from weighin.accounts.models import User
from weighin.events.models import Event
from weighin.standings.services import publish_result

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("still_clock")]


@pytest.fixture
def event() -> Event:
    event = plain()
    publish_result(event, "test")
    return event


def boats(page: str) -> list[str]:
    return re.findall(r'id="boat-(\d+)"|data-why="(\d+)"', page)


ASKED = ["sort=-boat&sort=", "utm=else", "sort=-boat&sort=place", "sort=-boat&why=", "q=&sort=-boat", "page=2", "why=1"]


@pytest.mark.parametrize("asked", ASKED)
def test_what_one_visitor_asks_does_not_change_the_standings_of_the_next(event: Event, asked: str) -> None:
    address = f"/results/{event.slug}/standings/"
    by_place = Client().get(f"{address}?sort=place").content
    Event.objects.filter(pk=event.pk).update(revision=event.revision + 10)  # nothing is rendered of it yet
    Client().get(f"{address}?{asked}")
    first = Client().get(address).content
    Event.objects.filter(pk=event.pk).update(revision=event.revision + 20)
    assert first == Client().get(address).content
    assert Client().get(f"{address}?sort=place").content == by_place
    assert b"utm" not in first


def test_an_order_of_the_ledger_is_rendered_once(event: Event, django_assert_max_num_queries) -> None:  # type: ignore[no-untyped-def]
    client, address = Client(), f"/results/{event.slug}/standings/"
    for question in ("", "?sort=-boat", "?sort=boat"):
        client.get(address + question)
        with django_assert_max_num_queries(2):
            client.get(address + question)


@pytest.mark.parametrize("per_page", ["-1", "0", "100000000", "9" * 30, "-0", "x", "\u0661", "\x00"])
@pytest.mark.parametrize("page", ["teams", "slips", "care"])
def test_any_number_of_rows_a_page_may_be_asked_for(event: Event, page: str, per_page: str) -> None:
    client = member(event.club)
    assert client.get(f"/events/{event.slug}/{page}/", {"per_page": per_page, "page": per_page}).status_code == 200
    assert client.get(f"/clubs/{event.club.slug}/members/", {"per_page": per_page}).status_code == 200


ELSEWHERE = [
    "https://evil.example",
    "//evil.example",
    "/\\evil.example",
    "javascript:alert(1)",
    "0",
    "a&b",
    "public:home",
    "?x",
]


@pytest.mark.parametrize("onward", ELSEWHERE)
def test_signing_in_leads_to_pages_of_this_site_only(event: Event, onward: str) -> None:
    User.objects.create_user("ann", password="a pass phrase")
    client, own = Client(), "/clubs/"
    given = {"username": "ann", "password": "a pass phrase", "next": onward}
    assert client.post("/sign-in/", given)["Location"] == own
    assert client.get("/sign-in/", {"next": onward})["Location"] == own
    assert client.get("/sign-in/", {"next": "/password/?x=1"})["Location"] == "/password/?x=1"


def test_pages_for_members_are_kept_by_nobody_else(event: Event) -> None:
    client, slug = member(event.club), event.slug
    pages = (
        "",
        "standings/",
        "teams/",
        "teams/1/",
        "slips/1/",
        "care/",
        "history/",
        "files/json",
        "files/pdf",
        "nowhere/",
    )
    for page in (*(f"/events/{slug}/{page}" for page in pages), "/clubs/", f"/clubs/{event.club.slug}/"):
        said = client.get(page)["Cache-Control"]
        assert "private" in said and "no-cache" in said, page
    assert "private" in Client().get(f"/events/{slug}/")["Cache-Control"]
    assert Client().get(f"/results/{slug}/standings/")["Cache-Control"] == "no-cache"
