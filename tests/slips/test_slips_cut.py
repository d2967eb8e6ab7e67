"""The cut: a doubled day counts its larger total, corrections are never refused, and who went out stays."""

import pytest
import world
from slips.table import record
from stations.speaking import Speaker, message

from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.services.slips import correct_slip, settle, void_slip
from weighin.standings.queries.standings import standings_of

DAY_2 = {"day": 2, "weighed": "2026-06-21T15:10:00-05:00"}


@pytest.fixture
def event(db: None) -> Event:
    """After day 1 boats 1 and 2 of four fish on."""
    found = world.event(days=2, rules={"cut_after_day": "1", "cut_keep": "2"})
    for boat, gross in (("1", "9.00"), ("2", "8.00"), ("3", "7.00"), ("4", "6.00")):
        record(found, boat=boat, gross=gross)
    return found


def made(event: Event) -> list[int]:
    return sorted(row.result.team.boat for row in standings_of(event).outcome.ranked if row.made_cut)


def test_a_doubled_day_counts_its_larger_total(event: Event) -> None:
    record(event, boat="1", gross="1.00")
    assert made(event) == [1, 2]
    record(event, boat="1", gross="8.80", day="2")
    with pytest.raises(Faults, match="boat 3 missed the cut"):
        record(event, boat="3", day="2")


def test_a_second_slip_and_its_settling_are_never_refused(event: Event) -> None:
    record(event, boat="2", day="2")
    second = record(event, boat="2", gross="1.00")
    settle(second, "the first was boat 5's", "quill")
    assert made(event) == [1, 2, 3]  # 3 makes it as the slips stand; 2 had gone out by the first readings
    record(event, boat="2", day="2", gross="1.00")


def test_corrections_and_voids_move_the_line_under_nobody_who_went_out(event: Event) -> None:
    first, fourth = (s for s in standings_of(event).counting if s.entry.boat in (2, 4))
    record(event, boat="2", day="2")
    correct_slip(fourth, world.slip(boat="4", gross="9.50", reason="misread"), "quill")
    assert made(event) == [1, 2, 4]
    void_slip(first, "not theirs", "quill")
    rows = standings_of(event).outcome.ranked
    assert [(r.result.team.boat, r.place) for r in rows] == [(4, 1), (1, 2), (2, 3), (3, 4)]


def test_who_did_not_go_out_does_not_stay(event: Event) -> None:
    fourth = next(s for s in standings_of(event).counting if s.entry.boat == 4)
    correct_slip(fourth, world.slip(boat="4", gross="9.50", reason="misread"), "quill")
    assert made(event) == [1, 4]
    record(event, boat="2", day="2")  # it may still go out: it made the cut when the boats were told
    assert made(event) == [1, 2, 4]


def test_a_first_slip_that_would_turn_out_a_boat_is_refused(db: None) -> None:
    event = world.event(days=2, rules={"cut_after_day": "1", "cut_keep": "1"})
    record(event, boat="1")
    record(event, boat="1", day="2")
    with pytest.raises(Faults, match="with this, boat 1 would have missed the cut"):
        record(event, boat="2", gross="9.00")


def test_a_station_may_send_second_slips_and_corrections_after_the_cut(event: Event) -> None:
    table = Speaker(event)
    assert table.one(message(boat=2, **DAY_2))["state"] == "kept"
    sent = message(boat=2, gross="1.00")
    assert table.one(sent)["state"] == "second"
    assert table.one(message(boat=2, gross="1.00", **DAY_2))["state"] == "second"
