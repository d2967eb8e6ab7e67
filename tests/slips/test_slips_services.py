"""Keeping slips: new ones, replays, corrections, moves, voids, and settling two of one day."""

import uuid
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import world
from django.utils import timezone
from slips.table import record

from weighin.audit.models import HistoryEntry
from weighin.care.services.notes import write_care_note
from weighin.checkin.domain.arrival import lateness
from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.parsing import read_slip
from weighin.slips.queries.slips import beside, counting_slips, current_slips, doubled, history_of, state_in_words
from weighin.slips.services import slips as services
from weighin.standings.queries.standings import standings_of


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


def faults_of(act: Callable[[], Any]) -> dict[str, str]:
    """The faults by field, with nothing written."""
    before = (WeighSlip.objects.count(), HistoryEntry.objects.count())
    with pytest.raises(Faults) as found:
        act()
    assert (WeighSlip.objects.count(), HistoryEntry.objects.count()) == before
    return {fault.field: fault.message for fault in found.value.faults}


def status(event: Event, boat: int) -> str:
    ranked = standings_of(event).outcome.ranked
    return next(row.result.status for row in ranked if row.result.team.boat == boat)


def test_a_slip_is_kept_as_written_with_its_history(event: Event) -> None:
    before = Event.objects.get(pk=event.pk).revision
    slip = record(event, gross="8.5 lb", checked_in="14:55:30")
    assert (slip.number, slip.position, slip.gross, slip.recorded_by) == (1, 1, "8.5 lb", "quill")
    assert slip.checked_in == datetime(2026, 6, 20, 14, 55, 30, tzinfo=ZoneInfo("America/Chicago"))
    entry = HistoryEntry.objects.latest("id")
    assert (entry.actor, entry.act, entry.subject) == ("quill", "slip.recorded", "slip 1")
    assert entry.details["gross"] == "8.5 lb" and entry.event_id == event.pk
    assert Event.objects.get(pk=event.pk).revision > before


def test_every_fault_is_named_at_once(event: Event) -> None:
    found = faults_of(lambda: record(event, boat="9", alive="x", gross="9,47", checked_in="25:00"))
    assert set(found) == {"boat", "alive", "gross", "checked_in"} and "comma" in found["gross"]


def test_the_same_slip_sent_again_is_the_first_row(event: Event) -> None:
    key = uuid.uuid4()
    first = services.record_slip(event, world.slip(), "quill", key)
    # Another spelling of the same: a blank and the default are one, as are 8.5 and 8.50
    again = services.record_slip(
        event, world.slip(gross="8.5 lb", short="0", tare="0", excused_minutes="0"), "quill", key
    )
    assert again.pk == first.pk and WeighSlip.objects.count() == 1


def test_the_same_id_with_other_content_changes_nothing(event: Event) -> None:
    key = uuid.uuid4()
    services.record_slip(event, world.slip(), "quill", key)
    for other in (world.slip(gross="9.50"), world.slip(boat="2"), world.slip(note="x"), world.slip(checked_in="14:00")):
        found = faults_of(lambda said=other: services.record_slip(event, said, "quill", key))
        assert "slip 1 already" in found["id"]


def test_an_id_of_another_event_is_refused(event: Event) -> None:
    key = uuid.uuid4()
    services.record_slip(event, world.slip(), "quill", key)
    other = world.event("Second table")
    assert "id" in faults_of(lambda: services.record_slip(other, world.slip(), "quill", key))


def test_a_used_number_is_refused(event: Event) -> None:
    record(event, slip="7")
    assert "7 already" in faults_of(lambda: record(event, boat="2", slip="7"))["slip"]
    assert record(event, boat="2").number == 8


def test_a_second_slip_is_kept_and_neither_counts(event: Event) -> None:
    first, second = record(event), record(event, gross="9.00")
    assert doubled(current_slips(event)) == {(1, 1)} and counting_slips(event) == []
    assert [slip.pk for slip in beside(second)] == [first.pk, second.pk]
    assert status(event, 1) == "in_question"
    # Another day is another matter
    assert record(event, day="2").pk in {slip.pk for slip in counting_slips(event)}


def test_settling_lets_one_count_and_voids_the_other(event: Event) -> None:
    first, second = record(event), record(event, gross="9.00")
    assert "reason" in faults_of(lambda: services.settle(second, "  ", "marrow"))
    voids = services.settle(second, "weighed again on the checked scale", "marrow")
    assert [void.replaces_id for void in voids] == [first.pk]
    assert voids[0].reason == "Slip 2 counts: weighed again on the checked scale"
    assert [slip.pk for slip in counting_slips(event)] == [second.pk] and status(event, 1) == "ranked"
    assert "replaced by slip 3" in faults_of(lambda: services.settle(first, "no, this one", "marrow"))["replaces"]


def test_settling_three_leaves_one(event: Event) -> None:
    slips = [record(event, gross=weight) for weight in ("8.00", "9.00", "10.00")]
    assert len(services.settle(slips[1], "the middle one", "marrow")) == 2
    assert [slip.pk for slip in counting_slips(event)] == [slips[1].pk]


def test_a_correction_replaces_and_both_stay(event: Event) -> None:
    first = record(event)
    assert set(faults_of(lambda: services.correct_slip(first, world.slip(dead="1", alive="6"), "quill"))) == {"reason"}
    second = services.correct_slip(first, world.slip(dead="1", alive="6", big_fish="", reason="one was dead"), "quill")
    assert second.replaces_id == first.pk and [slip.pk for slip in counting_slips(event)] == [second.pk]
    assert HistoryEntry.objects.latest("id").sentence == "Slip 2 replaces slip 1 of boat 1: one was dead"
    stale = faults_of(lambda: services.correct_slip(first, world.slip(reason="again"), "marrow"))
    assert "replaced by slip 2 meanwhile" in stale["replaces"]


def test_a_chain_of_corrections_is_told_from_any_of_its_slips(event: Event) -> None:
    first = record(event)
    second = services.correct_slip(first, world.slip(gross="8.60", reason="misread"), "quill")
    third = services.void_slip(second, "not theirs", "marrow")
    record(event, boat="2")
    for asked in (first, second, third):
        chain = history_of(WeighSlip.objects.get(pk=asked.pk))
        assert [slip.number for slip in chain] == [1, 2, 3]
    said = [state_in_words(WeighSlip.objects.get(pk=slip.pk), False) for slip in (first, second, third)]
    assert said == ["replaced by slip 2", "voided by slip 3", "voids slip 2"]


def test_a_correction_stays_with_its_boat(event: Event) -> None:
    """The workbook contract: a slip may not replace another boat's."""
    slip = record(event)
    found = faults_of(lambda: services.correct_slip(slip, world.slip(boat="4", reason="keyed wrong"), "quill"))
    assert "boat 1’s" in found["boat"]


def test_a_slip_keyed_for_the_wrong_boat_moves_in_one_act(event: Event) -> None:
    slip = record(event)
    assert "reason" in faults_of(lambda: services.move_slip(slip, world.slip(boat="4"), "quill"))
    assert "gross" in faults_of(
        lambda: services.move_slip(slip, world.slip(boat="4", gross="", reason="keyed"), "quill")
    )
    moved = services.move_slip(slip, world.slip(boat="4", reason="14 keyed for 41"), "quill")
    void = WeighSlip.objects.get(replaces=slip)
    assert void.void and void.reason == moved.reason == "14 keyed for 41" and moved.replaces_id is None
    assert [slip.entry.boat for slip in counting_slips(event)] == [4]


def test_a_void_takes_a_slip_out_and_a_new_one_may_come(event: Event) -> None:
    slip = record(event)
    assert set(faults_of(lambda: services.void_slip(slip, "", "quill"))) == {"reason"}
    void = services.void_slip(slip, "wrong page", "quill")
    assert void.void and current_slips(event) == []
    assert "is a void" in faults_of(lambda: services.correct_slip(void, world.slip(reason="x"), "quill"))["replaces"]
    new = record(event)
    assert [kept.pk for kept in counting_slips(event)] == [new.pk]


def test_a_new_slip_cannot_pretend_to_be_a_correction(event: Event) -> None:
    record(event)
    assert "replaces" in faults_of(lambda: record(event, replaces="1", reason="x"))
    assert "replaces" in faults_of(lambda: record(event, void="yes"))


def test_a_closed_event_takes_no_slip(event: Event) -> None:
    slip = record(event)
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now() - timedelta(minutes=1))
    for act in (
        lambda: record(event, boat="2"),
        lambda: services.correct_slip(slip, world.slip(reason="x"), "quill"),
        lambda: services.void_slip(slip, "x", "quill"),
        lambda: services.move_slip(slip, world.slip(boat="2", reason="x"), "quill"),
        lambda: services.settle(slip, "x", "quill"),
    ):
        assert "is closed" in faults_of(act)[""]


def test_times_are_held_against_the_care_note(event: Event) -> None:
    write_care_note(event, {"day": "1", "boat": "1", "first_fish": "14:40"}, "lunt")
    for boat in ("1", "1.0"):
        assert set(faults_of(lambda boat=boat: record(event, boat=boat, checked_in="14:30"))) == {"checked_in"}
    assert record(event, boat="2", checked_in="14:30").number == 1


@pytest.mark.parametrize("boat", ["²", "١", "1e3", "99999999999999999999", "-1"])
def test_odd_figures_are_faults_not_errors(event: Event, boat: str) -> None:
    assert "boat" in faults_of(lambda: record(event, boat=boat))


def test_after_a_missed_cut_there_are_no_slips(db: None) -> None:
    event = world.event("Cut", days=2, rules={"cut_after_day": "1", "cut_keep": "1"})
    record(event, boat="1", gross="9.00")
    record(event, boat="2", gross="8.00")
    assert record(event, boat="1", day="2").day == 2
    assert "missed the cut after day 1" in faults_of(lambda: record(event, boat="2", day="2"))["boat"]


def test_lateness_is_real_time_where_the_clocks_go_forward(db: None) -> None:
    """The night of 8 March 2026 in Chicago has no hour from 2 to 3: 01:50 to 03:05 are 15 minutes."""
    said = {"date": "2026-03-07", "start_time": "19:00", "due_time": "01:50"}
    night = world.event("Plain event", world.pairs(1, "Night pair", "Ash"), **said)
    table = table_of(night)
    written = world.slip(checked_in="03:05")
    read = read_slip(written, table)
    assert lateness(read, table.calendar, "") == 15
    kept = WeighSlip.objects.get(pk=services.record_slip(night, written, "quill").pk)
    assert lateness(kept, table.calendar, "") == 15
