"""A weather hold: every due time of a day moves in one act, once, and lateness with it."""

import uuid
from datetime import UTC, datetime, time, timedelta
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from checkin.test_roll_lateness import event_at
from django.db import DatabaseError, connection, transaction
from slips.table import record

from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.checkin.models import DueNotice
from weighin.checkin.pages.words import shortened_said
from weighin.checkin.queries.roll import roll_of
from weighin.checkin.services.notices import move_due, moved_said, seen_as
from weighin.events.models import Event, EventDay
from weighin.events.queries.events import calendar_of
from weighin.events.services.due_times import due_clocks
from weighin.rules.faults import Faults
from weighin.standings.queries.standings import standings_of
from weighin.standings.services import set_closed
from weighin.workbooks.services import may_replace

__all__ = ["clock"]
SAID = {"given_by": "R. Quill", "how": "horn", "reason": "thunder to the west"}


@pytest.fixture
def event(db: None, clock: Clock) -> Event:
    """Two days; flight A is due at 15:00 every day, flight B at 15:30 on day 1, and day 1 itself at 15:10."""
    gone = ("Days", "Rules", "Slips", "Fish care", "Tanks", "Holding")
    sheets = world.plain_sheets(without=gone, days="2", date="2026-06-20", due_time="15:10", event="Hold")
    sheets["Teams"][2].pop("flight")
    clock("2026-06-20T14:20:00-05:00")
    return world.event_of(sheets)


def move(event: Event, id: uuid.UUID | None = None, day: int = 1, **said: Any) -> DueNotice:
    event.refresh_from_db()
    return move_due(event, day, {**SAID, "seen": seen_as(event, day), **said}, "dora", id or uuid.uuid4())


def due(event: Event, day: int = 1) -> dict[str, str]:
    return {flight: f"{clock:%H:%M}" for flight, clock in due_clocks(Event.objects.get(pk=event.pk), day).items()}


def refused(event: Event, **said: Any) -> dict[str, str]:
    before = (due(event), DueNotice.objects.count(), HistoryEntry.objects.count())
    with pytest.raises(Faults) as found:
        move(event, **said)
    assert (due(event), DueNotice.objects.count(), HistoryEntry.objects.count()) == before
    return {fault.field: fault.message for fault in found.value.faults}


def test_one_act_moves_the_day_and_every_flight(event: Event) -> None:
    before = due(event, 2)
    notice = move(event, minutes="45", given="14:15")
    assert due(event) == {"": "15:55", "A": "15:45", "B": "16:15"}
    assert due(event, 2) == before == {"": "15:10", "A": "15:00"}
    assert notice.given_at == datetime(2026, 6, 20, 19, 15, tzinfo=UTC)
    assert moved_said(notice) == (
        "due 3:10 PM is now 3:55 PM; flight A, due 3:00 PM, is now 3:45 PM; flight B, due 3:30 PM, is now 4:15 PM"
    )
    entry = HistoryEntry.objects.get(act="event.due_times")
    assert entry.actor == "dora"
    assert "told at 2:15 PM, horn, by R. Quill: thunder to the west" in entry.sentence
    assert entry.details["due"]["A"] == ["15:00:00", "15:45:00"]


def test_all_boats_are_due_at_one_time(event: Event) -> None:
    notice = move(event, to="14:45", shortened=True)
    assert due(event) == {"": "14:45", "A": "14:45", "B": "14:45"}
    assert [flight.due for flight in roll_of(event, 1).flights] == [datetime(2026, 6, 20, 19, 45, tzinfo=UTC)] * 3
    assert EventDay.objects.get(event=event, number=1).status == EventDay.Status.SHORTENED
    calendar = calendar_of(Event.objects.get(pk=event.pk))
    assert shortened_said(notice, calendar, 1) == [
        "Flight A: 8 h 45 min of 9 h, 97 %",
        "Flight B: 8 h 45 min of 9 h 30 min, 92 %",
    ]


def test_sent_twice_they_move_once(event: Event) -> None:
    key, seen = uuid.uuid4(), seen_as(event, 1)
    first = move(event, key, minutes="30")
    assert move_due(event, 1, {**SAID, "minutes": "30", "seen": seen}, "dora", key) == first
    assert due(event)["A"] == "15:30"
    assert DueNotice.objects.count() == 1
    with pytest.raises(Faults, match="saved already with other words"):
        move(event, key, minutes="30", reason="something else")


def test_two_directors_do_not_move_them_twice(event: Event) -> None:
    seen = seen_as(event, 1)
    move(event, minutes="30")
    assert "changed meanwhile: day 15:40:00, A 15:30:00" in refused(event, minutes="30", seen=seen)[""]


@pytest.mark.parametrize(
    ("said", "field", "words"),
    [
        ({}, "minutes", "write by how many minutes"),
        ({"minutes": "30", "to": "16:00"}, "minutes", "both"),
        ({"minutes": "0"}, "minutes", "whole minutes"),
        ({"minutes": "7.5"}, "minutes", "whole minutes"),
        ({"minutes": "700"}, "minutes", "480"),
        ({"to": "later"}, "to", "not a time"),
        ({"to": "02:40"}, "to", "more than eight hours"),
        ({"to": "14:00"}, "to", "2:00 PM had passed when the boats were told at 2:20 PM"),
        ({"minutes": "-60"}, "to", "2:10 PM had passed"),
        ({"minutes": "30", "given": "14:40"}, "given", "has not come yet"),
        ({"minutes": "30", "given_by": " "}, "given_by", "who gave"),
        ({"minutes": "30", "how": "drum"}, "how", "horn"),
        ({"minutes": "30", "reason": ""}, "reason", "why"),
        ({"minutes": "30", "reason": "x" * 501}, "reason", "500"),
    ],
)
def test_what_cannot_be_is_refused(event: Event, said: dict[str, str], field: str, words: str) -> None:
    assert words in refused(event, **said)[field]


def test_a_cancelled_day_and_a_closed_event_are_refused(event: Event) -> None:
    EventDay.objects.filter(event=event, number=2).update(status=EventDay.Status.CANCELLED)
    assert "not fished" in refused(event, day=2, minutes="30")[""]
    set_closed(event, True, "dora", accounted=True)
    assert "closed" in refused(event, minutes="30")[""]


def test_lateness_follows_and_the_rule_lock_does_not_forbid_it(event: Event) -> None:
    record(event, boat="2", checked_in="15:02:10", weighed="15:10", fish="5", alive="5", gross="5")

    def late() -> list[int]:
        event.refresh_from_db()
        ranked = next(one for one in standings_of(event).outcome.ranked if one.result.team.boat == 2)
        return [one.count for one in ranked.result.days[0].score.deductions if one.reason == "late"]

    assert event.entries.get(boat=2).flight_name == "A"
    assert late() == [3]
    move(event, minutes="2")
    assert late() == [1]
    move(event, minutes="1")
    assert late() == []


@pytest.mark.django_db
def test_over_midnight_and_over_a_change_of_the_clocks(clock: Clock) -> None:
    clock("2026-06-20T20:00:00-05:00")
    late_evening = event_at("2026-06-20", "12:00", "23:45")
    move(late_evening, minutes="30")
    assert roll_of(late_evening, 1).flights[0].due == datetime(2026, 6, 21, 5, 15, tzinfo=UTC)
    # Due 01:30 in the night in which the clocks go from 01:59 to 03:00: an hour later it is 03:30
    clock("2026-03-07T20:00:00-06:00")
    spring = event_at("2026-03-07", "19:00", "01:30")
    was = roll_of(spring, 1).flights[0].due
    move(spring, minutes="60")
    assert due(spring)[""] == "03:30"
    assert roll_of(spring, 1).flights[0].due - was == timedelta(hours=1)
    # In autumn 01:30 comes twice and its second passing cannot be written
    clock("2026-10-31T20:00:00-05:00")
    autumn = event_at("2026-10-31", "19:00", "01:30")
    assert "another moment" in refused(autumn, minutes="60")["minutes"]
    assert "does not exist" in refused(spring, to="02:30")["to"]


def test_flights_that_midnight_would_tear_apart_are_refused(event: Event, clock: Clock) -> None:
    event.flights.filter(name="B").update(due_time=time(23, 50))
    assert "flight B" in refused(event, minutes="20")["minutes"]
    move(event, to="22:30")
    assert set(due(event).values()) == {"22:30"}


def test_notices_are_only_ever_added(event: Event) -> None:
    assert may_replace(event)
    notice = move(event, minutes="30")
    assert not may_replace(event)
    with pytest.raises(AppendOnlyError):
        notice.save()
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE checkin_duenotice SET reason = 'none'")
