"""One fault does not hide another: not in the row, not on the sheet, not on sheets that are read by what is wrong."""

import re
from pathlib import Path

import pytest
from second_reading.drawing.plant import FAULTS, Cells, Planting

from weighin.workbooks.parsing.reading import read_workbook

BY_NAME = {fault.name: fault for fault in FAULTS}
# Faults of the first sheets, by which all others are read
FIRST = [
    "no date",
    "words for a date",
    "words for days",
    "no weight_unit",
    "unknown unit",
    "unknown time zone",
    "a start time that does not exist",
    "words for a limit",
    "unknown short_fish",
    "two values for one penalty",
    "no boat in Teams",
    "words for a lot",
    "neither yes nor no",
    "unknown aeration",
    "part of a fish",
]
# Faults that hang on none of those
OTHERS = [
    "species more than fish",
    "an angler in two teams",
    "replaces another boat's slip",
    "two notes for a boat and day",
    "dead + missing > held",
    "reflexes_absent > reflexes_checked",
    "no held in Holding",
    "unknown kind",
    "pen without a unit",
    "slip number used twice",
    "a correction without a reason",
    "place shares all zero",
    "unknown well_boat",
    "a lake too hot",
]


def named(planting: Planting, folder: Path) -> Cells:
    """Every cell that is named, at the head of a line or beside it."""
    file = folder / "faulty.xlsx"
    planting.save(file)
    plan, report = read_workbook(file)
    assert plan is None
    beside = [cell for _, said in report.faults for cell in re.findall(r"[A-Z][a-z ]+![A-Z]+\d+", said)]
    return {place for place, _ in report.faults} | set(beside)


@pytest.mark.parametrize("first", FIRST, ids=lambda name: name.replace(" ", "-"))
def test_a_fault_of_the_first_sheets_hides_no_other(first: str, tmp_path: Path) -> None:
    hidden = []
    for other in OTHERS:
        planting = Planting("lb")
        planted, beside = BY_NAME[first].plant(planting), BY_NAME[other].plant(planting)
        found = named(planting, tmp_path)
        hidden += [other] if planted.isdisjoint(found) or beside.isdisjoint(found) else []
    assert hidden == []


def slip_row(**values: str) -> tuple[Planting, dict[str, str]]:
    """The plain event with values written into its first slip, and the cell of each."""
    planting = Planting("lb")
    cells = {name: next(iter(planting.put("Slips", 2, name, value))) for name, value in values.items()}
    return planting, cells


@pytest.mark.parametrize(
    "values",
    [
        {"gross": "heavy", "fish": "7"},
        {"fish": "7", "largest_weights": "1.00, 2.00", "dead_at_release": "9"},
        {"gross": "0.10", "dead_at_release": "9", "species": ""},
        {"official": "x" * 501, "extra_penalty": "0.5", "fish": "9"},
        {"weighed": "14:30", "gross": "0.10", "kept": "8"},
        {"checked_in": "25:00", "released": "14:41", "tare": "1 kg"},
        {"note": "x" * 501, "well_boat": "99", "excused_minutes": "some", "big_fish_alive": "perhaps"},
        {"minutes_late": "3", "gross": "-1"},
        {"black_crappie": "9", "largest_weights": "9, 9"},
    ],
    ids=lambda values: "-".join(values),
)
def test_every_fault_of_a_row_is_named(values: dict[str, str], tmp_path: Path) -> None:
    values = {name: value for name, value in values.items() if name != "species"}
    planting, cells = slip_row(**values)
    found = named(planting, tmp_path)
    assert [name for name, cell in cells.items() if cell not in found] == []


def test_a_faulty_slip_is_held_against_the_others(tmp_path: Path) -> None:
    planting = Planting("lb")
    row = planting.add("Slips", slip="1", day="1", boat="5", fish="one", alive="1", dead="0", gross="1.00")
    again = planting.add("Slips", slip="9", day="1", boat="5", fish="1", alive="x", dead="0", gross="1.00")
    found = named(planting, tmp_path)
    assert planting.at("Slips", row, "slip") <= found and planting.at("Slips", row, "fish") <= found
    assert planting.at("Slips", again, "boat") <= found and planting.at("Slips", again, "alive") <= found


def test_every_fault_of_a_pen_is_named(tmp_path: Path) -> None:
    planting = Planting("lb")
    cells = planting.put("Holding", 2, "kind", "control") | planting.put("Holding", 2, "dead", "20")
    assert cells <= named(planting, tmp_path)


def test_a_sheet_that_lacks_a_column_is_read_for_the_rest(tmp_path: Path) -> None:
    planting = Planting("lb")
    cell = planting.put("Slips", 6, "gross", "heavy")
    planting.book["Slips"].cell(1, 3).value = None  # the boats
    found = named(planting, tmp_path)
    assert cell <= found and "Slips!A1" in found


def test_nothing_is_said_of_what_hangs_on_a_fault(tmp_path: Path) -> None:
    """A workbook without its unit, date and zone, and sound beside: only those three are named."""
    planting = Planting("lb-oz")
    cells = {cell for key in ("weight_unit", "date", "time_zone") for cell in planting.put_key("Event", key, "?")}
    assert named(planting, tmp_path) == cells
