"""Odd but well-formed cells: each gets a fault at its cell or is kept whole, on both databases, never a traceback."""

from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from second_reading.drawing.plant import Planting
from second_reading.plain_event import plain_event
from world import event_of, plain

from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.services.slips import record_slip
from weighin.workbooks.parsing.reading import read_workbook

FAR = ("0001-01-01T00:00+14:00", "9999-12-31T23:59-12:00", "9999-12-31 23:59", "0001-01-01 00:00")


def faults(planting: Planting, folder: Path) -> dict[str, str]:
    file = folder / "odd.xlsx"
    planting.save(file)
    _, report = read_workbook(file)
    return dict(report.faults)


@pytest.mark.parametrize("written", FAR)
@pytest.mark.parametrize(("sheet", "column"), [("Slips", "weighed"), ("Fish care", "launched"), ("Tanks", "time")])
def test_a_time_no_clock_can_hold_is_named(sheet: str, column: str, written: str, tmp_path: Path) -> None:
    planting = Planting("lb")
    (cell,) = planting.put(sheet, 2, column, written)
    assert "more than two days from day 1" in faults(planting, tmp_path)[cell]


@pytest.mark.parametrize("written", ["0001-01-01", "1899-12-31", "9999-12-31", "2201-01-01"])
@pytest.mark.parametrize("zone", ["Pacific/Apia", "Etc/GMT+12"])
def test_a_year_that_no_event_is_in_is_named(written: str, zone: str, tmp_path: Path) -> None:
    planting = Planting("lb")
    planting.put_key("Event", "time_zone", zone)
    (first,) = planting.put_key("Event", "date", written)
    assert "1900 to 2200" in faults(planting, tmp_path)[first]
    planting = Planting("lb")
    (cell,) = planting.put("Days", 3, "date", written)
    assert "1900 to 2200" in faults(planting, tmp_path)[cell]


@pytest.mark.parametrize(
    ("sheet", "column", "written", "unit"),
    [
        ("Slips", "gross", f"5{' ' * 60}lb", "lb"),
        ("Slips", "gross", "000000000005 lbs 000000000004.000000000000 oz", "lb-oz"),
        ("Slips", "largest_weights", ", ".join(["0.000000000001"] * 40), "lb"),
        ("Fish care", "livewell_temp", f"60{' ' * 30}F", "lb"),
        ("Tanks", "temp", f"60{' ' * 30}F", "lb"),
        ("Holding", "started", "2026-06-20T15:30:00.123456+00:00:00.123456", "lb"),
    ],
)
def test_a_text_longer_than_its_line_is_named(sheet: str, column: str, written: str, unit: str, tmp_path: Path) -> None:
    planting = Planting(unit)
    (cell,) = planting.put(sheet, 3 if sheet == "Slips" else 2, column, written)
    assert cell in faults(planting, tmp_path)


def test_a_long_elevation_is_named(tmp_path: Path) -> None:
    planting = Planting("lb")
    row = planting.add("Event", key="elevation_ft", value="620.0000000000000000000000000")
    assert "20 figures" in faults(planting, tmp_path)[f"Event!B{row}"]


@pytest.mark.parametrize("name", ["\u200b", "left\u202eright", "a\x85b", "\ufeff\u2060"])
@pytest.mark.parametrize(("sheet", "column"), [("Teams", "team"), ("Teams", "angler_1"), ("Tanks", "tank")])
def test_a_name_nobody_can_read_is_named(sheet: str, column: str, name: str, tmp_path: Path) -> None:
    planting = Planting("lb")
    (cell,) = planting.put(sheet, 2, column, name)
    assert cell in faults(planting, tmp_path)


def test_a_name_in_any_script_is_kept(tmp_path: Path) -> None:
    for name in (
        "\u0645\u0631\u064a\u0645 \u0648 \u0646\u0648\u0631",
        "\u05d3\u05d5\u05d3",
        "Zo\u00eb & \u0130pek",
        "\u718a\u8c37",
    ):
        planting = Planting("lb")
        planting.put("Teams", 2, "team", name)
        assert not faults(planting, tmp_path)


@pytest.mark.parametrize("number", ["2000000001", 2**31, 10**30])
def test_a_number_that_is_too_large_is_called_too_large(number: Any, tmp_path: Path) -> None:
    planting = Planting("lb")
    (cell,) = planting.put("Slips", 7, "slip", number)
    assert "too large" in faults(planting, tmp_path)[cell]


@pytest.mark.django_db
def test_a_name_that_grows_when_it_is_folded_is_kept() -> None:

    sheets = plain_event()
    sheets["Teams"][0]["team"] = "\u00df" * 120
    event = event_of(sheets)
    assert event.entries.get(boat=1).name == "\u00df" * 120


@pytest.mark.django_db
@pytest.mark.parametrize("written", FAR)
def test_a_slip_with_such_a_time_is_refused(written: str) -> None:

    counts = {"day": "1", "boat": "5", "fish": "0", "alive": "0", "dead": "0"}
    with pytest.raises(Faults, match="more than two days"):
        record_slip(plain(), {**counts, "checked_in": written}, "test")


@pytest.mark.django_db
def test_an_event_of_the_year_9999_changes_nothing(tmp_path: Path) -> None:
    planting = Planting("lb")
    planting.put_key("Event", "date", "9999-12-31")
    planting.save(tmp_path / "odd.xlsx")
    with pytest.raises(SystemExit):
        call_command("import_event", tmp_path / "odd.xlsx")
    assert not Event.objects.exists()
