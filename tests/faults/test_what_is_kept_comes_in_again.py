"""Whatever the site lets happen to an event, its workbook brings the same event into an empty site."""

import json
from datetime import time
from pathlib import Path
from typing import Any

import pytest
from django.db import transaction
from world import plain

from weighin.care.services.notes import write_care_note
from weighin.events.access import find
from weighin.events.models import Event
from weighin.events.services.events import DAY_FIELDS, FIELDS, change_day, change_event
from weighin.reports.files.event import event_file
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip, move_slip, record_slip, settle, void_slip
from weighin.standings.services import publish_result, set_closed
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import keep_event

pytestmark = pytest.mark.django_db
NOTHING = {"fish": "0", "alive": "0", "dead": "0"}


def slip(number: int) -> WeighSlip:
    return WeighSlip.objects.select_related("event__rule_sheet", "event__season__club", "entry").get(number=number)


def document(event: Event) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(event_file(event, "json"))
    # Ids, times and who published belong to a site, not to the event.
    del found["ledger"]["head"], found["event"]["slug"], found["event"]["status"]
    return found


def brought_in_again(event: Event, folder: Path) -> dict[str, Any]:
    (folder / "again.xlsx").write_bytes(event_file(event, "xlsx"))
    plan, report = read_workbook(folder / "again.xlsx")
    assert plan is not None, report.faults
    again = transaction.savepoint()
    Event.objects.filter(pk=event.pk).update(name="The first")
    second = find(keep_event(plan, "test").slug)
    assert second is not None
    found = document(second)
    transaction.savepoint_rollback(again)
    return found


def the_same(event: Event, folder: Path) -> bool:
    now = find(event.slug)
    assert now is not None
    return document(now) == brought_in_again(now, folder)


def day_of(event: Event, number: int, **values: Any) -> dict[str, Any]:
    day = event.event_days.get(number=number)
    return {name: getattr(day, name) for name in DAY_FIELDS} | values


def test_corrections_voids_and_settled_slips(tmp_path: Path) -> None:
    event = plain()
    record_slip(event, {**NOTHING, "day": "1", "boat": "5"}, "a")
    second = record_slip(event, {"day": "1", "boat": "5", "fish": "1", "alive": "1", "dead": "0", "gross": "0.75"}, "b")
    settle(second, "the other tablet", "c")
    correct_slip(slip(4), {**NOTHING, "day": "1", "boat": "3", "reason": "=1+1", "note": "=cmd"}, "c")
    void_slip(slip(7), "read twice", "c")
    correct_slip(slip(6), {**NOTHING, "day": "2", "boat": "1", "reason": "a\r\nb", "extra_penalty": "0.25",
                           "extra_penalty_reason": "two\r\nlines"}, "c")  # fmt: skip
    publish_result(event, "d")
    set_closed(event, True, "d")
    assert the_same(event, tmp_path)


def test_a_slip_moved_to_another_boat_and_one_to_another_day(tmp_path: Path) -> None:
    event = plain()
    move_slip(slip(6), {**NOTHING, "day": "2", "boat": "2", "reason": "keyed for boat 1"}, "a")
    settle(slip(9), "the right one", "a")
    correct_slip(slip(4), {**NOTHING, "day": "1", "boat": "3", "reason": "again", "well_boat": "5"}, "a")
    assert the_same(event, tmp_path)


def test_a_day_is_cancelled_once_its_slips_are_taken_out(tmp_path: Path) -> None:
    event = plain()
    with pytest.raises(Faults, match="2 slips of this day count: void them first"):
        change_day(event, 2, day_of(event, 2, status="cancelled"), "a")
    for number in (6, 7):
        void_slip(slip(number), "lightning", "a")
    change_day(event, 2, day_of(event, 2, status="cancelled"), "a")
    assert the_same(event, tmp_path)


def test_names_keep_their_spaces(tmp_path: Path) -> None:
    event = plain()
    entry = event.entries.get(boat=2)
    values = EntryValues(2, "No\u00a0Break & \u718a  Co", ("  Z  y ", "", "=cmd"), None, "B", True, note="x\r\ny")
    change_entry(entry, values, "a")
    assert the_same(event, tmp_path)


@pytest.mark.parametrize("whole_event", [True, False])
def test_a_day_does_not_start_after_its_fish_were_weighed(whole_event: bool, tmp_path: Path) -> None:
    event = plain()
    record_slip(event, {**NOTHING, "day": "1", "boat": "5", "weighed": "09:00"}, "a")
    later = {name: getattr(event, name) for name in FIELDS} | {"days": 3, "start_time": time(10)}
    of_day = day_of(event, 1, start_time=time(10))
    with pytest.raises(Faults, match="slip 8 of day 1 was weighed or released at 9:00.AM"):
        change_event(event, later, "a") if whole_event else change_day(event, 1, of_day, "a")
    change_day(event, 1, day_of(event, 1, start_time=time(8)), "a")
    assert the_same(event, tmp_path)


def test_a_slip_of_before_the_start_that_was_corrected_since(tmp_path: Path) -> None:
    event = plain()
    write_care_note(event, {"day": "1", "boat": "5", "launched": "04:30"}, "a")
    early = record_slip(event, {**NOTHING, "day": "1", "boat": "5", "weighed": "05:30"}, "a")
    correct_slip(early, {**NOTHING, "day": "1", "boat": "5", "weighed": "15:30", "reason": "another clock"}, "a")
    write_care_note(event, {"day": "1", "boat": "5"}, "a")
    assert the_same(event, tmp_path)


def test_a_care_note_does_not_lose_the_launch_that_a_slip_hangs_on(tmp_path: Path) -> None:
    event = plain()
    write_care_note(event, {"day": "1", "boat": "5", "launched": "04:30"}, "a")
    record_slip(event, {**NOTHING, "day": "1", "boat": "5", "weighed": "05:30"}, "a")
    with pytest.raises(Faults, match="before the day started: add when the boat launched"):
        write_care_note(event, {"day": "1", "boat": "5"}, "a")
    assert the_same(event, tmp_path)


def test_a_boat_over_which_the_line_of_the_cut_moved_stays_and_is_named(tmp_path: Path) -> None:
    """Boats 1 and 2 made the cut and fished on; 9 lb of boat 4 and a void move the line over them."""
    event = plain()
    heavy = {"day": "1", "boat": "4", "fish": "1", "alive": "1", "dead": "0", "gross": "9.00", "reason": "misread"}
    correct_slip(slip(5), heavy, "a")
    void_slip(slip(3), "was another's", "a")
    assert the_same(event, tmp_path)
    (tmp_path / "again.xlsx").write_bytes(event_file(event, "xlsx"))
    _, report = read_workbook(tmp_path / "again.xlsx")
    assert any("boat 2 made the cut after day 1 by the first readings" in warning for warning in report.warnings)
