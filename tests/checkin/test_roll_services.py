"""Writing the roll: in now, words, corrections, voids, a launch, a tow; and what is refused."""

import uuid
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from slips.table import record
from stations.speaking import Speaker, new_id

from weighin.audit.models import HistoryEntry
from weighin.checkin.models import CheckIn
from weighin.checkin.queries.roll import BoatOnRoll, boat_on_roll, roll_of
from weighin.checkin.services import roll as services
from weighin.checkin.services.check_ins import void_check_in as void_line
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.services.slips import correct_slip
from weighin.standings.services import set_closed

__all__ = ["clock"]
NOW = "2026-06-20T14:58:10-05:00"


@pytest.fixture
def event(db: None, clock: Clock) -> Event:
    found = world.event()
    clock(NOW)
    return found


def boat(event: Event, number: int = 1) -> BoatOnRoll:
    found = boat_on_roll(event, 1, number)
    assert found is not None
    return found


def in_now(event: Event, number: int = 1, id: uuid.UUID | None = None, pressed: datetime | None = None) -> CheckIn:
    return services.check_in_now(event, 1, number, "quill", "R. Quill", id or uuid.uuid4(), pressed)


def word(event: Event, number: int = 1, old: CheckIn | None = None, **said: str) -> CheckIn:
    said = {"whereabouts": "in_by_water", "official": "R. Quill", **said}
    return services.take_word(event, 1, number, said, "quill", uuid.uuid4(), old)


def tow(event: Event, id: uuid.UUID | None = None, **said: str) -> list[CheckIn]:
    said = {
        "towing": "1",
        "towed": "2",
        "excuse": "towing",
        "minutes": "20",
        "reason": "dead motor",
        "official": "R. Quill",
        **said,
    }
    return services.record_tow(event, 1, said, "quill", id or uuid.uuid4())


def refused(act: Any, *args: Any, **kwargs: Any) -> dict[str, str]:
    """The faults by field; nothing was written."""
    before = (CheckIn.objects.count(), HistoryEntry.objects.count())
    with pytest.raises(Faults) as found:
        act(*args, **kwargs)
    assert (CheckIn.objects.count(), HistoryEntry.objects.count()) == before
    return {fault.field: fault.message for fault in found.value.faults}


def test_one_tap_and_the_boat_is_in_at_that_second(event: Event, clock: Clock) -> None:
    line = in_now(event)
    assert boat(event).is_in and boat(event).where == "in_by_water"
    assert line.checked_in == clock(NOW) and line.recorded_by == "quill" and line.official == "R. Quill"
    assert [one.entry.boat for one in roll_of(event, 1).out] == [2, 3, 4]
    event.refresh_from_db()
    assert HistoryEntry.objects.filter(event_id=event.pk, act="checkin.recorded").count() == 1


def test_pressed_twice_it_is_in_once(event: Event, clock: Clock) -> None:
    key = uuid.uuid4()
    first = in_now(event, id=key)
    clock("2026-06-20T14:58:40-05:00")
    assert in_now(event, id=key).checked_in == first.checked_in
    assert CheckIn.objects.count() == 1
    # From another tablet, under another id: the second one is told who was first
    assert "in already at 2:58:10 PM, by R. Quill" in refused(in_now, event)["checked_in"]


def test_a_slow_link_makes_no_boat_late(event: Event, clock: Clock) -> None:
    now = clock("2026-06-20T15:00:40-05:00")
    assert in_now(event, 1, pressed=now - timedelta(seconds=41)).checked_in == now - timedelta(seconds=41)
    # A clock that is far off counts for nothing
    assert in_now(event, 2, pressed=now - timedelta(hours=1)).checked_in == now
    assert in_now(event, 3, pressed=now + timedelta(seconds=3)).checked_in == now


def test_a_time_is_typed_for_a_boat_that_came_by_road(event: Event) -> None:
    word(event, whereabouts="in_by_road", time="14:41:07", word="left at the marina")
    found = boat(event)
    assert (found.where, found.came) == ("in_by_road", datetime(2026, 6, 20, 19, 41, 7, tzinfo=UTC))


def test_words_follow_each_other_by_the_moment_they_tell_of(event: Event) -> None:
    word(event, whereabouts="launched", time="06:20")
    word(event, whereabouts="unaccounted", time="14:57")
    assert not boat(event).is_in and boat(event).where == "unaccounted"
    # A tablet sends late what it was told earlier: the boat stays unaccounted for
    word(event, whereabouts="phoned", time="14:30", word="from the dam")
    assert boat(event).where == "unaccounted"
    word(event, whereabouts="phoned", time="14:58", word="ramp at Gravel Point")
    assert (boat(event).where, boat(event).is_in) == ("phoned", False)
    in_now(event)
    assert boat(event).is_in


@pytest.mark.parametrize(
    ("said", "field", "words"),
    [
        ({"time": "15:10"}, "time", "3:10 PM has not come yet: it is 2:58:10 PM by the site’s clock"),
        ({"time": "02:58"}, "time", "before the day started at 6:00 AM"),
        ({"time": "half past"}, "time", "is not a time"),
        ({"time": "2026-07-20T14:58"}, "time", "more than two days"),
        ({"whereabouts": ""}, "whereabouts", "choose where the boat is"),
        ({"whereabouts": "sunk"}, "whereabouts", "sunk"),
        ({"excused_minutes": "some"}, "excused_minutes", "not a number"),
        ({"word": "x" * 501}, "word", "500"),
        ({"word": "a\x00b"}, "word", "control"),
    ],
)
def test_what_cannot_be_is_refused(event: Event, said: dict[str, str], field: str, words: str) -> None:
    assert words in refused(word, event, **said)[field]


def test_wrong_boats_days_and_closed_events_are_refused(event: Event) -> None:
    assert "no boat 77" in refused(in_now, event, 77)["boat"]
    assert "no day 9" in refused(services.check_in_now, event, 9, 1, "quill", "q", uuid.uuid4())["day"]
    set_closed(event, True, "dora", accounted=True)
    assert "closed" in refused(in_now, event)[""]
    assert "closed" in refused(word, event, whereabouts="phoned")[""]
    assert "closed" in refused(tow, event)[""]


def test_a_line_taken_out_makes_the_boat_out_again_and_stays_in_the_history(event: Event) -> None:
    line = in_now(event)
    assert "reason" in refused(void_line, line, " ", "quill", "R. Quill")
    void_line(line, "boat 4 it was", "quill", "R. Quill")
    assert not boat(event).is_in and boat(event).where == ""
    assert "voided by check-in 2" in refused(void_line, line, "again", "quill", "R. Quill")["replaces"]
    assert [(row.number, row.void) for row in CheckIn.objects.filter(event=event)] == [(1, False), (2, True)]
    assert HistoryEntry.objects.filter(act="checkin.voided").get().sentence.endswith("boat 4 it was")
    in_now(event)
    assert boat(event).is_in


def test_a_correction_keeps_what_it_does_not_say(event: Event) -> None:
    line = in_now(event)
    word(event, 1, line, whereabouts="in_by_road", reason="came by the road")
    assert (boat(event).where, boat(event).came) == ("in_by_road", line.checked_in)
    assert "reason" in refused(word, event, 1, CheckIn.objects.get(number=2), time="14:50")
    word(event, 1, CheckIn.objects.get(number=2), time="14:50", reason="the marshal's watch")
    assert boat(event).came == datetime(2026, 6, 20, 19, 50, tzinfo=UTC)


def test_a_flight_is_launched_in_one_act(event: Event) -> None:
    word(event, 2, whereabouts="phoned", word="trailer broke, comes later")
    assert services.launch(event, 1, "", "quill", "R. Quill") == [1, 3, 4]
    assert services.launch(event, 1, "", "quill", "R. Quill") == []
    assert [(one.entry.boat, one.where) for one in roll_of(event, 1).boats] == [
        (1, "launched"), (2, "phoned"), (3, "launched"), (4, "launched"),
    ]  # fmt: skip


def test_a_tow_excuses_the_boat_that_is_in_and_the_one_to_come(event: Event, clock: Clock) -> None:
    clock("2026-06-20T15:18:30-05:00")
    in_now(event, 1)
    assert boat(event).late is not None and boat(event).late.begun == 19 and boat(event).late.day_lost
    key = uuid.uuid4()
    tow(event, key, excuse="both")
    assert tow(event, key, excuse="both") and CheckIn.objects.count() == 3
    assert HistoryEntry.objects.filter(act="checkin.tow").get().sentence == (
        "Boat 1 towed boat 2 in, day 1: boat 1 and boat 2 excused 20 minutes: dead motor"
    )
    first = boat(event)
    assert (first.late.begun, first.excused) == (0, "20")
    assert [line.number for line in first.lines] == [2] and "towed boat 2" in first.lines[0].reason
    assert not boat(event, 2).is_in
    clock("2026-06-20T15:21:00-05:00")
    in_now(event, 2)
    assert (boat(event, 2).late.begun, boat(event, 2).excused) == (1, "20")


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"towed": "1"}, "towed"),
        ({"towing": "88"}, "towing"),
        ({"towing": ""}, "towing"),
        ({"minutes": "0"}, "minutes"),
        ({"minutes": "-5"}, "minutes"),
        ({"minutes": "99999"}, "minutes"),
        ({"reason": " "}, "reason"),
        ({"excuse": "everybody"}, "excuse"),
    ],
)
def test_a_tow_that_cannot_be_is_refused(event: Event, said: dict[str, str], field: str) -> None:
    in_now(event, 1)
    assert field in refused(tow, event, **said)


def test_what_stations_send_stands_on_the_roll(event: Event) -> None:
    said = {"id": new_id(), "day": 1, "boat": 3, "checked_in": "2026-06-20T15:02:10-05:00", "official": "A. Sedge"}
    Speaker(event, can=("checkin",)).one(said, "checkins")
    found = boat(event, 3)
    assert found.is_in and found.late is not None and found.late.begun == 3


def test_a_slip_that_counts_other_minutes_is_named(event: Event, clock: Clock) -> None:
    clock("2026-06-20T15:02:10-05:00")
    in_now(event, 1)
    assert boat(event).slip_differs is None
    slip = record(event, boat="1", weighed="15:10")
    assert boat(event).slip_differs is None  # without a time of its own it counts the roll's
    other = correct_slip(slip, world.slip(boat="1", weighed="15:10", checked_in="14:59", reason="own clock"), "quill")
    assert boat(event).slip_differs == other
    correct_slip(other, world.slip(boat="1", weighed="15:10", checked_in="15:02:10", reason="late"), "quill")
    assert boat(event).slip_differs is None
