"""Help in place: the words of the trade, the steps of a first event by what is kept, the addresses for programs."""

import re

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.clubs.models import Club, Season, Water
from weighin.public.pages.glossary import GROUPS
from weighin.public.pages.openapi import document
from weighin.public.pages.programs import for_tablets, open_to_all
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
WORDS = {word.key: word for _, words in GROUPS for word in words}


def test_the_glossary_has_the_words_of_the_trade_with_their_cautions() -> None:
    html = Client().get(reverse("public:glossary")).content.decode()
    for key in (
        "bag", "livewell", "slip", "flight", "cut", "culling", "big-fish-pot", "side-pot", "purse", "check-in", "weigh-in", "ramp",
        "tare", "live-release", "delayed-mortality", "dissolved-oxygen", "barotrauma", "venting",
    ):  # fmt: skip
        assert f'id="{key}"' in html
    assert "Do not vent crappie" in WORDS["venting"].caution and "never lift it" in html
    assert html.count('id="') == len(re.findall(r'id="([^"]+)"', html)) and len(WORDS) == sum(len(w) for _, w in GROUPS)


def test_every_address_for_programs_is_listed_and_no_other() -> None:
    paths = {
        (method.upper(), path.replace("{slug}", "EVENT"))
        for path, told in document()["paths"].items()
        for method in told
        if method != "parameters"
    }
    listed = {(method, address) for method, address, _ in (*open_to_all(), *for_tablets())}
    feeds = {("GET", "/clubs/CLUB/feed.json"), ("GET", "/clubs/CLUB/calendar.ics")}
    assert listed == paths | feeds
    html = Client().get(reverse("public:programs")).content.decode()
    assert all(f"<code>{method} {address}</code>" in html for method, address in listed)
    assert reverse("public:programs") in Client().get(reverse("planning:planner")).content.decode()


def test_the_steps_are_worked_out_from_what_is_kept() -> None:
    club = Club.objects.create(name="New Cove Club", slug="new-cove")
    director = world.member(club)
    where = reverse("public:club_first_event", args=[club.slug])

    def said() -> str:
        return re.sub(r"\s+", " ", director.get(where).content.decode())

    assert "Next: Add a season" in said() and said().count(">done<") == 2
    Season.objects.create(club=club, name="2026", slug="2026")
    Water.objects.create(club=club, name="Cove Lake")
    assert "Next: Add an event" in said()
    assert reverse("events:new", args=[club.slug]) in said()


def test_the_steps_end_with_the_official_result() -> None:
    event = world.plain()
    where = reverse("public:club_first_event", args=[event.club.slug])
    director = world.member(event.club)
    assert "Next: Publish the result" in director.get(where).content.decode()
    publish_result(event, "test")
    assert "Every step is done." in director.get(where).content.decode()
    assert where in director.get(reverse("events:club", args=[event.club.slug])).content.decode()


@pytest.mark.parametrize("role", list(Role))
def test_the_steps_lead_nobody_where_they_may_not_go(role: str) -> None:
    event = world.plain()
    member = world.member(event.club, role)
    html = member.get(reverse("public:club_first_event", args=[event.club.slug])).content.decode()
    links = re.findall(r'href="([^"]+)"', html.split("<main", 1)[1].split("</main>", 1)[0])
    assert links and all(member.get(link).status_code == 200 for link in links)


def test_strangers_see_the_steps_and_sign_in_first() -> None:
    html = Client().get(reverse("public:first_event")).content.decode()
    assert reverse("accounts:sign_in") in html and "Publish the result" in html
    assert Client().get(reverse("public:club_first_event", args=["no-such"])).status_code == 302
