"""The state of an event, by what is kept of it and by its clock, in one word for every page."""

from datetime import date

import pytest
import world
from checkin.clock import Clock, clock
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from slips.table import record

from weighin.clubs.services.clubs import open_club
from weighin.events.models import Event
from weighin.events.queries.states import Stage
from weighin.registration.services.draws import draw
from weighin.schedule.queries.states import state_of, states_of
from weighin.schedule.services.calling_off import cancel_event, postpone_event
from weighin.signup.models import SignUpTerms
from weighin.standings.models import Posting
from weighin.standings.services import publish_result

__all__ = ["clock"]
pytestmark = pytest.mark.django_db


def test_a_planned_event_goes_from_planned_to_open_to_closed(clock: Clock) -> None:
    clock("2026-06-01T12:00:00-05:00")
    event = world.bare_event()
    assert state_of(event).words == "planned"
    teams = world.event("Teams")
    assert state_of(teams).words == "entries open"
    draw(teams, "launch", "test", "heads")
    assert state_of(teams).words == "entries closed"


@pytest.mark.parametrize(
    ("now", "words"),
    [
        ("2026-06-19T23:59:00-05:00", "entries open"),
        ("2026-06-20T00:01:00-05:00", "today"),
        ("2026-06-20T20:59:00-05:00", "today"),
        ("2026-06-21T00:01:00-05:00", "past, no boat weighed"),
    ],
)
def test_its_day_is_today_by_its_own_clock(clock: Clock, now: str, words: str) -> None:
    event = world.event()
    clock(now)
    assert state_of(event).words == words


@pytest.mark.parametrize(
    ("now", "stage"),
    [
        ("2026-06-20T16:00:00-05:00", Stage.WEIGHING),
        ("2026-06-20T20:59:00-05:00", Stage.WEIGHING),
        ("2026-06-21T03:00:00-05:00", Stage.PROVISIONAL),
    ],
)
def test_with_slips_it_is_weighed_until_its_weigh_in_is_long_past(clock: Clock, now: str, stage: Stage) -> None:
    event = world.event()
    record(event)
    clock(now)
    assert state_of(event).stage == stage


def test_a_sign_up_opens_and_closes_the_entries(clock: Clock) -> None:
    clock("2026-06-01T12:00:00-05:00")
    event = world.bare_event()
    terms = SignUpTerms.objects.create(event=event, is_open=True, was_open=True, closes="2026-06-10T12:00:00Z")
    assert state_of(event).words == "entries open"
    clock("2026-06-11T12:00:00-05:00")
    assert state_of(event).words == "entries closed"
    SignUpTerms.objects.filter(pk=terms.pk).update(opens="2026-06-12T12:00:00Z", closes=None)
    assert state_of(event).words == "planned"


def test_a_posted_result_is_provisional_and_says_until_when_protests_are_taken(clock: Clock) -> None:
    event = world.event()
    for boat in "1234":
        record(event, boat=boat)
    now = clock("2026-06-20T16:00:00-05:00")
    assert state_of(event).stage == Stage.WEIGHING
    said = {"posted_by": "test", "ledger_length": 4, "ledger_head": "", "document": {}}
    Posting.objects.create(event=event, posted_at=now, minutes=30, **said)
    assert state_of(event).words == "provisional, protests until 4:30 PM"
    clock("2026-06-20T16:30:00-05:00")
    assert state_of(event).words == "provisional"


def test_a_night_event_is_weighed_after_midnight(clock: Clock) -> None:
    event = world.event(start_time="20:00", due_time="02:00")
    record(event)
    clock("2026-06-21T02:30:00-05:00")
    assert state_of(event).stage == Stage.WEIGHING


def test_between_its_days_it_is_provisional_and_an_early_result_says_after_which_day(clock: Clock) -> None:
    event = world.event(days=2)
    record(event)
    clock("2026-06-20T22:30:00-05:00")
    assert state_of(event).stage == Stage.PROVISIONAL
    for boat in "234":
        record(event, boat=boat)
    publish_result(event, "test")
    assert state_of(event).words == "official, after day 1 of 2"
    clock("2026-06-21T14:00:00-05:00")
    assert state_of(event).stage == Stage.WEIGHING


def test_an_official_result_stands(clock: Clock) -> None:
    event = world.plain()
    publish_result(event, "test")
    assert state_of(event).words == "official"


def test_called_off(clock: Clock) -> None:
    clock("2026-06-01T12:00:00-05:00")
    event, other, third = world.event(), world.event("Other"), world.event("Third")
    cancel_event(event, "Thunderstorms", "test")
    postpone_event(other, date(2026, 7, 4), "High water", "test")
    postpone_event(third, None, "High water", "test")
    found = states_of(Event.objects.all())
    assert [found[one.pk].words for one in (event, other, third)] == [
        "cancelled", "postponed to Jul 4", "postponed, date to follow",
    ]  # fmt: skip
    clock("2026-06-20T12:00:00-05:00")
    assert state_of(third).words == "postponed, date to follow"
    clock("2026-07-04T12:00:00-05:00")
    assert state_of(other).words == "today"


def test_one_query_more_for_no_event_more(clock: Clock) -> None:
    world.event("First")
    with CaptureQueriesContext(connection) as one:
        states_of(Event.objects.all())
    for number in range(5):
        world.event(f"More {number}")
    with CaptureQueriesContext(connection) as many:
        states_of(Event.objects.all())
    assert len(many) == len(one)


def test_every_page_says_the_same_word(clock: Clock) -> None:
    clock("2026-06-01T12:00:00-05:00")
    event = world.event()
    postpone_event(event, date(2026, 7, 4), "High water", "test")
    open_club(event.club, True, "test")
    director = world.member(event.club)
    club = reverse("events:club", args=[event.club.slug])
    for client, address in (
        (director, club),
        (director, reverse("events:mine")),
        (director, reverse("operations:day", args=[event.slug])),
        (world.stranger(), club),
    ):
        assert "postponed to Jul 4" in client.get(address).content.decode(), address
