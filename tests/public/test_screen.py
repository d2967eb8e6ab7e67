"""The big screen and the crowd's phone page: who sees them, what they say, what they cost when nothing changed."""

from datetime import UTC, datetime

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from line.in_line import checked_in, said

from weighin.events.models import Event
from weighin.public.pages.screen import screen_of
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip
from weighin.standings.services import publish_result, set_public, start_embargo

pytestmark = pytest.mark.django_db
PAGES = ("screen", "crowd")
CHANGED = {"boat": "4", "day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "1.50", "reason": "misread"}


def opened(boats: int = 0) -> Event:
    event = world.large(boats, f"Large {boats}") if boats else world.plain()
    set_public(event, True, "test")
    return Event.objects.get(pk=event.pk)


@pytest.mark.parametrize("name", PAGES)
def test_unchanged_is_304_and_a_slip_is_not(name: str) -> None:
    event = opened()
    where = reverse(f"public:{name}", args=[event.slug])
    first = Client().get(where)
    assert first.status_code == 200 and "no-cache" in first["Cache-Control"]
    assert Client().get(where, headers={"if-none-match": first["ETag"]}).status_code == 304
    correct_slip(WeighSlip.objects.current().get(event=event, entry__boat=4, day=1), CHANGED, "test")
    assert Client().get(where, headers={"if-none-match": first["ETag"]}).status_code == 200
    set_public(event, False, "test")
    assert Client().get(where).status_code == 404


@pytest.mark.parametrize("name", PAGES)
def test_leaders_and_the_newest_slip_are_said(name: str) -> None:
    event = opened()
    correct_slip(WeighSlip.objects.current().get(event=event, entry__boat=4, day=1), CHANGED, "test")
    shown = screen_of(event)
    assert shown.change is not None and shown.change.slip.entry.boat == 4
    assert shown.fish.presented >= shown.alive > 0
    said = Client().get(reverse(f"public:{name}", args=[event.slug])).content.decode()
    assert shown.leaders[0].result.team.name.replace("&", "&amp;") in said and ">new<" in said
    assert "style=" not in said and "No new weights since" not in said


@pytest.mark.parametrize("name", PAGES)
def test_held_back_is_said_and_the_address_chooses_the_light(name: str) -> None:
    event = opened()
    start_embargo(event, timezone.now(), "test")
    where = reverse(f"public:{name}", args=[event.slug])
    said = "No new weights since" if name == "screen" else "are not shown yet."
    assert said in Client().get(where).content.decode()
    if name == "screen":
        assert 'data-light="night"' in Client().get(where + "?light=night").content.decode()


def test_as_many_queries_for_many_boats() -> None:
    counts = []
    for boats in (3, 40):
        event = opened(boats)
        with CaptureQueriesContext(
            connection,
        ) as asked:
            assert Client().get(reverse("public:screen", args=[event.slug])).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_a_boat_without_a_place_is_passed_over() -> None:
    event = opened()
    entry = event.slips.order_by("-position").select_related("entry").first().entry
    before = client_page(event)
    entry.status = "disqualified"
    entry.status_reason = "by ruling"
    entry.save()
    event.revision += 1
    event.save()
    after = client_page(event)
    assert "nobody yet" not in before and "nobody yet" not in after and entry.name not in after


def client_page(event: Event) -> str:
    return Client().get(reverse("public:crowd", args=[event.slug])).content.decode()


def test_the_crowd_is_told_the_state_once() -> None:
    event = opened()
    publish_result(event, "test")
    assert client_page(event).count("Official results, version 1") == 1


def test_every_place_comes_by_whole_screens_and_nobody_is_called_after_the_event() -> None:
    event = opened(15)
    shown = screen_of(event)
    assert [len(page) for page in shown.pages] == [6, 6, 3]
    html = Client().get(reverse("public:screen", args=[event.slug])).content.decode()
    assert html.count("data-whole") == 4 and "no boat" not in html and "of 15 boats" in html
    assert screen_of(world.event("Nobody", 2)).pages == [[]]


def test_a_boat_that_never_weighed_is_not_called_once_the_result_is_official() -> None:
    event = world.event("Open table", 3, [world.slip()])
    set_public(event, True, "test")
    for boat in (2, 3):
        checked_in(event, boat, datetime(2026, 6, 20, 15, 30, tzinfo=UTC))
    said(event, "bag_issued", 2)
    shown = screen_of(event)
    assert (shown.at_scales, shown.then) == (2, [3])
    publish_result(event, "test")
    shown = screen_of(event)
    assert (shown.at_scales, shown.then) == (None, [])
    assert "No boat is called." in client_page(event) and "Then" not in client_page(event)
