"""Where a page lies: every page names its club and event and marks one way, and nobody is shown a way that is shut."""

import re
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse
from walking import Opened, busy_club, walk

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.ui.ways import CLUB, EVENT, ways_at

pytestmark = pytest.mark.django_db
ROW = re.compile(r'<nav class="ways".*?<details|<nav class="ways".*?</nav>', re.S)
CRUMBS = re.compile(r'<nav class="crumbs".*?</nav>', re.S)
SHELLS = {"stations:scales_table", "care:ramp"}  # work without the network, with a head of their own


def pages(client: Client) -> list[Opened]:
    return [
        found
        for found in walk(client)
        if found.is_page and found.view not in SHELLS and '<header class="running">' in found.answer.content.decode()
    ]


def test_every_page_says_its_club_and_event_and_marks_one_way() -> None:
    club = busy_club()
    seen = set()
    for found in pages(world.member(club)):
        html, path = found.answer.content.decode(), found.address
        of_event = re.match(r"/events/([-\w]+)/(?!sign-up/)", path)
        if not of_event and not re.match(rf"/clubs/{club.slug}/", path):
            continue
        seen.add(found.view)
        row, crumbs = ROW.search(html), CRUMBS.search(html)
        assert row and crumbs, path
        assert row[0].count("aria-current") == 1, f"{path}: {row[0]}"
        assert f'href="/clubs/{club.slug}/"' in crumbs[0], path
        if of_event:
            assert f'href="/events/{of_event[1]}/"' in crumbs[0], path
    for view in (
        "checkin:roll", "line:line", "slips:scales", "slips:pads", "stations:stations", "events:setup",
        "seasons:standings", "advice:season", "holding:holding", "tanks:tanks",
    ):  # fmt: skip
        assert view in seen


@pytest.mark.parametrize(
    ("page", "way"),
    [
        ("checkin:roll", "checkin:roll"), ("line:line_plan", "line:line"), ("scales:scales_new", "slips:scales"),
        ("schedule:call_off", "events:setup"), ("tanks:tanks_new", "tanks:tanks"), ("holding:pens_new", "holding:holding"),
        ("tanks:crappie", "care:notes"), ("operations:close", "operations:day"), ("reports:morning", "operations:day"),
        ("registration:pay_outs", "registration:pay_outs"), ("registration:desk_boats", "registration:desk"),
    ],
)  # fmt: skip
def test_a_page_lies_on_the_way_whose_address_it_goes_on(page: str, way: str) -> None:
    from weighin.accounts.domain.roles import Can

    found = ways_at(reverse(page, args=["x"]), EVENT, ["x"], {can.value for can in Can}).current
    assert found is not None and found.url == reverse(way, args=["x"])


@pytest.mark.parametrize("role", list(Role))
def test_all_ways_that_are_shown_are_open(role: str) -> None:
    event = world.plain()
    member = world.member(event.club, role)
    html = member.get(reverse("operations:day", args=[event.slug])).content.decode()
    html += member.get(reverse("events:club", args=[event.club.slug])).content.decode()
    links = {link for nav in re.findall(r'<nav class="ways".*?</nav>', html, re.S) for link in re.findall(r'href="([^"]+)"', nav)}  # fmt: skip
    assert len(links) > 20
    assert not {link: code for link in links if (code := member.get(link).status_code) not in (200, 302)}


def test_a_closed_event_and_a_rehearsal_lead_nowhere_that_is_gone() -> None:
    event = world.plain()
    cans = {"record_care", "record_slip", "manage_event"}

    def names(**without: Any) -> set[str]:
        return {way.url for way in ways_at("", EVENT, [event.slug], cans, **without)}

    assert names() - names(without={"open"}) == {
        reverse("care:ramp", args=[event.slug]),
        reverse("stations:scales_table", args=[event.slug]),
    }
    assert names() - names(without={"real"}) == {
        reverse("rehearsal:rehearsal", args=[event.slug]),
        reverse("operations:next_event", args=[event.slug]),
    }


def test_the_public_event_leads_to_its_club_where_that_is_open() -> None:
    event = world.plain()
    Event.objects.filter(pk=event.pk).update(is_public=True)
    where = reverse("public:standings", args=[event.slug])
    crumbs = CRUMBS.search(Client().get(where).content.decode())
    assert crumbs and event.club.name not in crumbs[0] and 'aria-current="page">Standings' in crumbs[0]
    event.club.is_open = True
    event.club.save()
    Event.objects.filter(pk=event.pk).update(revision=event.revision + 1)
    crumbs = CRUMBS.search(Client().get(where).content.decode())
    assert crumbs and f'href="/clubs/{event.club.slug}/"' in crumbs[0]


def test_the_first_group_of_each_begins_with_its_first_page() -> None:
    assert EVENT[0][1][0].name == "operations:day" and CLUB[0][1][0].name == "events:club"
