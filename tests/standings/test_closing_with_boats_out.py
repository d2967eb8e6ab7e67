"""An event stays open, and its result unofficial, while a boat is out or unaccounted for."""

from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.urls import reverse
from slips.table import record
from stations.speaking import Speaker, new_id

from weighin.audit.models import HistoryEntry
from weighin.checkin.models import CheckIn
from weighin.checkin.queries.roll import roll_of, still_out
from weighin.events.models import Event
from weighin.events.services.events import FIELDS, change_event
from weighin.events.services.revision import raise_revision
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.standings.models import OfficialResult
from weighin.standings.services import publish_result, set_closed

__all__ = ["clock"]


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def say(table: Speaker, boat: int, day: int = 1, **said: Any) -> None:
    line = {"id": new_id(), "day": day, "boat": boat, "official": "A. Sedge", **said}
    assert table.one(line, "checkins")["state"] == "kept"


def refusal(event: Event) -> str:
    with pytest.raises(Faults) as found:
        set_closed(event, True, "dora")
    event.refresh_from_db()
    assert event.closed_at is None
    return found.value.faults[0].message


def test_it_cannot_close_while_one_boat_is_unaccounted_for(event: Event, table: Speaker) -> None:
    for boat in (1, 2, 3):
        say(table, boat, checked_in="2026-06-20T14:40:00-05:00")
    say(table, 4, whereabouts="unaccounted", word="not seen since noon")
    assert "boat 4 is unaccounted for on day 1" in refusal(event)
    say(table, 4, whereabouts="phoned", word="from the far ramp")
    assert "boat 4 is still out on day 1" in refusal(event)
    say(table, 4, whereabouts="in_by_road")
    set_closed(event, True, "dora")
    event.refresh_from_db()
    assert event.closed_at is not None


def test_every_boat_and_day_is_named(event: Event, table: Speaker) -> None:
    say(table, 2, whereabouts="unaccounted")
    say(table, 1, day=2, whereabouts="launched")
    said = refusal(event)
    assert said.startswith("boat 2 is unaccounted for on day 1; boats 1, 3 and 4 are still out on day 1; ")
    assert "boats 1, 2, 3 and 4 are still out on day 2" in said


def test_a_slip_does_not_prove_that_a_boat_is_in(event: Event, table: Speaker, clock: Clock) -> None:
    say(table, 1, checked_in="2026-06-20T14:40:00-05:00")
    for boat in "23":
        record(event, boat=boat, weighed="15:10")
    Entry.objects.filter(event=event, boat=4).update(status=Entry.Status.ABSENT)
    assert [boat.entry.boat for boat in roll_of(event, 1).out] == [2, 3]
    assert [boat.entry.boat for boat in still_out(event)] == [2, 3]
    Entry.objects.filter(event=event).exclude(boat__in=(1, 2, 3)).update(status=Entry.Status.ABSENT)
    event.event_days.filter(number=2).update(status="cancelled")
    clock("2026-06-20T18:00:00-05:00")
    assert "boats 2 and 3 were weighed but not checked in" in refusal(event)
    set_closed(event, True, "dora", accounted=True)


def test_a_slip_makes_no_boat_safe_that_was_said_to_be_missing(event: Event, table: Speaker) -> None:
    for boat in "1234":
        record(event, boat=boat, weighed="15:10")
    say(table, 3, whereabouts="unaccounted")
    assert "boat 3 is unaccounted for" in refusal(event)


def test_a_day_that_was_called_off_still_awaits_its_boats(event: Event, table: Speaker) -> None:
    for boat in (1, 2, 3, 4):
        say(table, boat, whereabouts="launched")
    event.event_days.filter(number=1).update(status="cancelled")
    raise_revision(event)
    assert "boats 1, 2, 3 and 4 are still out on day 1" in refusal(event)
    for boat in (1, 2, 3, 4):
        say(table, boat, whereabouts="in_by_water")
    set_closed(event, True, "dora")


def test_a_disqualified_boat_is_awaited(event: Event, table: Speaker) -> None:
    for boat in (1, 2, 3):
        say(table, boat, checked_in="2026-06-20T14:40:00-05:00")
    Entry.objects.filter(event=event, boat=4).update(status=Entry.Status.DISQUALIFIED)
    assert refusal(event).startswith("boat 4 is still out on day 1:")


def test_a_day_whose_roll_nobody_kept_closes(event: Event) -> None:
    record(event, weighed="15:10")
    set_closed(event, True, "dora")
    assert not CheckIn.objects.exists()


def test_the_close_page_says_which_boats(event: Event, table: Speaker) -> None:
    say(table, 3, whereabouts="unaccounted")
    answer = world.member(event.club).post(f"/events/{event.slug}/close/", {"sure": "on"})
    assert answer.status_code == 200
    assert "Day 1: boats 1, 2, 3 and 4 are still out." in answer.content.decode()
    event.refresh_from_db()
    assert event.closed_at is None


def test_no_result_is_official_while_a_boat_is_out(event: Event, table: Speaker) -> None:
    record(event, weighed="15:10")
    say(table, 1, whereabouts="unaccounted")
    with pytest.raises(Faults, match="boat 1 is unaccounted for"):
        publish_result(event, "dora")
    assert not OfficialResult.objects.exists()
    for boat in (1, 2, 3, 4):
        say(table, boat, whereabouts="in_by_water")
    assert publish_result(event, "dora").version == 1


def test_a_day_with_words_of_boats_stays(event: Event, table: Speaker) -> None:
    say(table, 1, day=2, whereabouts="launched")
    said = {name: getattr(event, name) for name in FIELDS} | {"days": 1}
    with pytest.raises(Faults, match="there are check-ins for day 2"):
        change_event(event, said, "dora")


def test_a_day_of_today_without_a_roll_closes_only_when_the_director_says_so(event: Event, clock: Clock) -> None:
    """Five boats pressed away by one button would be five boats nobody looks for."""
    clock("2026-06-20T16:00:00-05:00")
    record(event, boat="1")
    said = refusal(event)
    assert said.startswith("there is no check-in and no slip of boats 2, 3 and 4")
    director = world.member(event.club)
    where = reverse("operations:close", args=[event.slug])
    assert "of boats 2, 3 and 4" in director.get(where).content.decode()
    because = dict.fromkeys(("not_weighed_1", "day_not_fished_2", "care_not_recorded_1"), "seen on their trailers")
    because["release_not_recorded_1"] = "the crew let them go"
    assert "Settle it, or give a reason here" in director.post(where, {"sure": "on", **because}).content.decode()
    event.refresh_from_db()
    assert event.closed_at is None
    director.post(where, {"sure": "on", **because, "nobody_kept_the_roll_1": "seen on their trailers"})
    event.refresh_from_db()
    assert event.closed_at is not None
    said = HistoryEntry.objects.get(act="event.closed").sentence
    assert said.startswith("Event closed: every boat is accounted for; Day 1: no check-in and no slip of")
    assert "seen on their trailers" in said


def test_an_old_day_without_a_roll_is_history(event: Event, clock: Clock) -> None:
    clock("2026-06-23T16:00:00-05:00")
    record(event, boat="1")
    set_closed(event, True, "dora")
    event.refresh_from_db()
    assert event.closed_at is not None
