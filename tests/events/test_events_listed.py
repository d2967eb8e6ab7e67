"""The state of an event in its club's list, in words, as the days go by."""

from datetime import datetime

import pytest
import world
from checkin.clock import Clock, clock
from django.urls import reverse
from slips.table import record
from world import member

__all__ = ["clock"]

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("now", "state", "headline"),
    [
        ("2026-06-20T16:00:00-05:00", "going on", "Open table is going on."),
        ("2026-06-21T23:00:00-05:00", "going on", "Open table is going on."),
        ("2026-06-22T01:00:00-05:00", "not published yet", "Open table is not published yet."),
        ("2026-11-01T12:00:00-06:00", "not published yet", "Open table is not published yet."),
    ],
)
def test_it_goes_on_on_its_days_and_waits_for_its_publication_afterwards(
    clock: Clock, now: str, state: str, headline: str
) -> None:
    event = world.event()
    record(event)
    assert clock(now) == datetime.fromisoformat(now)
    director = member(event.club)
    for address in (reverse("events:club", args=[event.club.slug]), reverse("events:mine")):
        shown = director.get(address).content.decode()
        assert headline in shown and state in shown


def test_an_event_that_waits_stands_behind_the_next_one(clock: Clock) -> None:
    event = world.event()
    record(event)
    clock("2026-06-25T12:00:00-05:00")
    other = type(event).objects.create(
        season=event.season, water=event.water, name="Later", slug="later", date="2026-07-04", weight_unit="lb"
    )
    shown = member(event.club).get(reverse("events:club", args=[event.club.slug])).content.decode()
    assert f"{other.name} is next." in shown
