"""Care notes: written, changed, refused with every fault, and never written over unseen."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
import world
from django.utils import timezone
from slips.table import record

from weighin.audit.models import HistoryEntry
from weighin.care.models import CareNote
from weighin.care.queries.care import care_rows, fingerprint, note_of, without_note
from weighin.care.services.notes import write_care_note
from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.slips.services import slips as scale


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


def write(event: Event, by: str = "lunt", **values: str) -> CareNote:
    return write_care_note(event, {"day": "1", "boat": "1", **values}, by)


def faults_of(act: Callable[[], Any]) -> dict[str, str]:
    before = (list(CareNote.objects.values()), HistoryEntry.objects.count())
    with pytest.raises(Faults) as found:
        act()
    assert (list(CareNote.objects.values()), HistoryEntry.objects.count()) == before
    return {fault.field: fault.message for fault in found.value.faults}


def test_a_note_is_kept_as_written_and_a_change_tells_before_and_after(event: Event) -> None:
    write(event, pump_ok="yes", livewell_temp="76 F", ice_lb="20.0", aeration="Oxygen", first_fish="07:10")
    note = write(event, pump_ok="no", livewell_temp="76 F", ice_lb="20.0", note="lid kept shut")
    assert CareNote.objects.count() == 1 and (note.ice_lb, note.livewell_temp, note.aeration) == ("20.0", "76 F", "")
    first, second = HistoryEntry.objects.filter(act__startswith="care").order_by("id")
    assert (first.act, second.act) == ("care.written", "care.changed")
    assert second.details["before"]["aeration"] == "oxygen" and second.details["after"]["pump_ok"] is False
    assert second.subject == "boat 1, day 1" and second.actor == "lunt"


def test_every_fault_is_named_at_once(event: Event) -> None:
    found = faults_of(
        lambda: write(event, boat="9", pump_ok="perhaps", aeration="bubbles", ice_lb="-1", livewell_temp="76", livewell_do="61",
                      most_on_board="seven", first_fish="25:00", reflexes_absent="3", reflexes_checked="2", note="x" * 501)
    )  # fmt: skip
    assert set(found) == {
        "boat", "pump_ok", "aeration", "ice_lb", "livewell_temp", "livewell_do", "most_on_board", "first_fish", "reflexes_absent", "note",
    }  # fmt: skip
    assert "recirculated, pumped, oxygen, none" in found["aeration"] and "82 °F or 27.8 °C" in found["livewell_temp"]


def test_water_outside_0_to_45_degrees_is_a_fault(event: Event) -> None:
    for warmth, sound in (("32 F", True), ("31.9 F", False), ("45 C", True), ("45.1 C", False)):
        if sound:
            assert write(event, livewell_temp=warmth).livewell_temp == warmth
        else:
            assert (
                "outside the range of water"
                in faults_of(lambda w=warmth: write(event, livewell_temp=w))["livewell_temp"]
            )


def test_times_keep_their_order_with_each_other_and_with_the_slip(event: Event) -> None:
    record(event, checked_in="14:30", weighed="14:50", released="15:10")
    assert "first_fish" in faults_of(lambda: write(event, launched="07:00", first_fish="06:30"))
    assert "first_fish" in faults_of(lambda: write(event, first_fish="14:31"))
    assert "launched" in faults_of(lambda: write(event, launched="14:31"))
    assert write(event, launched="06:05", first_fish="06:05").first_fish is not None
    # The slip of another day does not matter
    assert write(event, day="2", first_fish="14:31").day == 2


def test_a_closed_event_takes_no_note(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    assert "is closed" in faults_of(lambda: write(event, pump_ok="yes"))[""]


def test_a_note_that_changed_meanwhile_is_not_written_over(event: Event) -> None:
    empty = fingerprint(note_of(event, 1, 1))
    mine = {"day": "1", "boat": "1", "pump_ok": "yes"}
    write(event, ice_lb="20")
    assert "meanwhile" in faults_of(lambda: write_care_note(event, mine, "bell", seen=empty))["seen"]
    now = fingerprint(note_of(event, 1, 1))
    assert write_care_note(event, mine, "bell", seen=now).pump_ok is True
    assert "seen" in faults_of(lambda: write_care_note(event, mine, "lunt", seen=now))


def test_the_fingerprint_knows_every_field(event: Event) -> None:
    note = write(event, pump_ok="yes")
    first = fingerprint(note)
    for name, value in (
        ("pump_ok", False),
        ("ice_lb", "0"),
        ("most_on_board", 0),
        ("note", "x"),
        ("first_fish", timezone.now()),
    ):
        other = CareNote.objects.get(pk=note.pk)
        setattr(other, name, value)
        assert fingerprint(other) != first, name
    assert fingerprint(None) == "" and fingerprint(CareNote.objects.get(pk=note.pk)) == first


def test_there_is_a_row_for_every_slip_or_note(event: Event) -> None:
    write(event, boat="1", pump_ok="yes", launched="06:10")
    record(event, boat="2", dead="1", alive="6", weighed="15:10")
    record(event, boat="3", day="2")
    for _ in range(2):  # two slips of one day: neither counts
        record(event, boat="4", weighed="15:10")
    write(event, boat="4", pump_ok="no")
    scale.void_slip(record(event, boat="1", day="2"), "wrong page", "quill")
    rows = {(row.day, row.entry.boat): row for row in care_rows(event)}
    assert sorted(rows) == [(1, 1), (1, 2), (1, 4), (2, 3)]
    assert rows[1, 1].slip is None and rows[1, 2].note is None
    assert rows[1, 2].care.minutes_held == Decimal("550.0") and rows[1, 2].care.held_is_upper_bound is True
    assert rows[1, 4].slip is None and rows[1, 4].care.minutes_held is None and rows[1, 4].care.failed == ("pump",)


def test_who_still_lacks_a_note(event: Event) -> None:
    write(event, boat="1", pump_ok="yes")
    Entry.objects.filter(event=event, boat=4).update(status="withdrawn")
    entries = list(event.entries.all())
    lacking = without_note(event, care_rows(event), entries, table_of(event))
    assert {day: [entry.boat for entry in boats] for day, boats in lacking.items()} == {1: [2, 3], 2: [1, 2, 3]}


def test_boats_that_missed_the_cut_owe_no_note_afterwards(db: None) -> None:
    event = world.event("Cut", days=2, rules={"cut_after_day": "1", "cut_keep": "2"})
    for boat, gross in (("1", "9.00"), ("2", "8.00"), ("3", "7.00")):
        record(event, boat=boat, gross=gross)
    lacking = without_note(event, care_rows(event), list(event.entries.all()), table_of(event))
    assert {day: [entry.boat for entry in boats] for day, boats in lacking.items()} == {1: [1, 2, 3, 4], 2: [1, 2]}
