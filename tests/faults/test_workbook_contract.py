"""Sentences of the workbook's contract that hold rows and sheets against each other."""

from pathlib import Path

import pytest
import world
from django.core.management import CommandError, call_command
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.checkin.models import CheckIn
from weighin.reports.writers.event_workbook import write_event_workbook
from weighin.rules.look_alikes import look_of
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import record_slip
from weighin.standings.queries.standings import standings_of
from weighin.workbooks.parsing.reading import read_workbook

pytestmark = pytest.mark.django_db
Sheets = dict[str, list[dict[str, str]]]


def faults(sheets: Sheets, folder: Path) -> list[tuple[str, str]]:
    write(sheets, folder / "event.xlsx")
    return read_workbook(folder / "event.xlsx")[1].faults


def rule(sheets: Sheets, key: str, value: str) -> None:
    sheets["Rules"] = [row for row in sheets["Rules"] if row["key"] != key] + [{"key": key, "value": value}]


def test_a_missing_teams_sheet_is_said_once(tmp_path: Path) -> None:
    sheets = plain_event()
    del sheets["Teams"]
    assert [place for place, _ in faults(sheets, tmp_path)] == ["Teams!A1"]


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"cut_after_day": "3"}, "a cut falls before the last day"),
        ({"cut_after_day": "none"}, "cut_keep needs cut_after_day"),
        ({"cut_keep": "none"}, "a cut needs cut_keep"),
        ({"ties": "big_fish, big_fish, share"}, "big_fish stands in the list twice"),
        ({"season_ties": "total_weight, total_weight"}, "total_weight stands in the list twice"),
        ({"ties": "share, big_fish"}, "share ends the list"),
    ],
)
def test_rules_that_contradict_are_faults(keys: dict[str, str], said: str, tmp_path: Path) -> None:
    sheets = plain_event()
    for key, value in keys.items():
        rule(sheets, key, value)
    found = faults(sheets, tmp_path)
    assert any(said in message for _, message in found), found


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Team 1", "TEAM  1"),
        ("Perch", "Р\u0435rch"),  # a Cyrillic capital and a small letter
        ("Cove", "C\u03bfve"),  # a Greek omicron
        ("Reed", "Re\u200bed"),
        ("\ufb01n", "fin"),
    ],
)
def test_teams_that_read_alike_are_a_fault(one: str, other: str, tmp_path: Path) -> None:
    assert look_of(one) == look_of(other)
    sheets = plain_event()
    sheets["Teams"][0]["team"], sheets["Teams"][3]["team"] = one, other
    assert [place for place, _ in faults(sheets, tmp_path)] == ["Teams!B5"]


def test_names_that_differ_to_the_eye_stay_apart() -> None:
    assert len({look_of(name) for name in ("Perch", "Pearch", "Pérch", "Дельта", "湖")}) == 5


def test_a_care_note_of_a_cancelled_day_is_a_fault(tmp_path: Path) -> None:
    sheets = plain_event()
    sheets["Fish care"].append({"day": "3", "boat": "1", "pump_ok": "yes"})
    assert [message for _, message in faults(sheets, tmp_path)] == ["day 3 was cancelled: it has no care notes"]


def test_a_reference_pen_of_another_species_is_a_fault(tmp_path: Path) -> None:
    sheets = plain_event()
    sheets["Holding"][0]["species"], sheets["Holding"][1]["species"] = "White crappie", "bluegill"
    assert len(faults(sheets, tmp_path)) == 1
    sheets["Holding"][1]["species"] = "white-crappie"
    assert faults(sheets, tmp_path) == []
    sheets["Holding"][1]["species"] = ""
    assert faults(sheets, tmp_path) == []


def test_a_day_before_the_event_is_a_fault(tmp_path: Path) -> None:
    sheets = plain_event()
    sheets["Days"][1]["date"] = "2026-02-28"
    assert any("begins on 2026-03-07" in message for _, message in faults(sheets, tmp_path))


def test_an_excuse_beside_minutes_late_is_a_fault_and_a_zero_is_none(tmp_path: Path) -> None:
    sheets = plain_event()
    slip = sheets["Slips"][4]
    slip |= {"minutes_late": "4", "excused_minutes": "0"}
    assert faults(sheets, tmp_path) == []
    slip["excused_minutes"] = "2"
    assert len(faults(sheets, tmp_path)) == 1
    sheets["Check-ins"] = [{"day": "1", "boat": "1", "minutes_late": "4", "excused_minutes": "2"}]
    assert len(faults(sheets, tmp_path)) == 2


def test_check_ins_come_in_count_and_go_out_again(tmp_path: Path) -> None:
    sheets = plain_event()
    sheets["Check-ins"] = [
        {"day": "1", "boat": "4", "excused_minutes": "1", "word": "towed boat 9"},
        {"day": "1", "boat": "4", "checked_in": "15:02:10", "whereabouts": "in_by_water", "told_at": "15:03"},
        {"day": "1", "boat": "4", "checked_in": "15:09"},
        {"day": "3", "boat": "2", "whereabouts": "in_by_road", "official": "R. Quill", "note": "trailer"},
    ]
    event = world.event_of(sheets)
    (late,) = [
        line
        for row in standings_of(event).outcome.ranked
        if row.result.team.boat == 4
        for day in row.result.days
        for line in day.score.deductions
        if line.reason == "late"
    ]
    assert (late.count, str(late.amount)) == (2, "2.00")  # due 15:00, in 15:02:10, one minute excused
    write_event_workbook(event, tmp_path / "out.xlsx")
    plan, report = read_workbook(tmp_path / "out.xlsx")
    assert plan is not None, report.faults
    kept = [
        (line.entry.boat, line.day, line.checked_in, line.excused_minutes, line.whereabouts, line.word, line.note)
        for line in CheckIn.objects.filter(event=event).select_related("entry").order_by("number")
    ]
    names = ("boat", "day", "checked_in", "excused_minutes", "whereabouts", "word", "note")
    assert [tuple(line[name] for name in names) for line in plan.checkins] == kept


def test_a_check_in_that_says_nothing_is_a_fault(tmp_path: Path) -> None:
    sheets = plain_event()
    sheets["Check-ins"] = [{"day": "1", "boat": "4", "note": "blue boat"}, {"day": "1", "boat": "44", "word": "x"}]
    assert len(faults(sheets, tmp_path)) == 2


def test_what_nobody_counted_at_the_release_stays_blank(tmp_path: Path) -> None:
    event = world.plain()
    counts = dict(WeighSlip.objects.filter(event=event).values_list("number", "dead_at_release"))
    assert (counts[1], counts[2]) == (1, None)
    write_event_workbook(event, tmp_path / "out.xlsx")
    plan, _ = read_workbook(tmp_path / "out.xlsx")
    assert plan is not None
    assert {slip.number: slip.dead_at_release for slip in plan.slips} == counts
    assert {slip.kept for slip in plan.slips} == {1, None}


def test_an_export_says_which_doubled_day_stands_in_its_way(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    event = world.plain()
    record_slip(event, {"boat": "2", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "test")
    call_command("export_event", event.slug, format="xlsx", out=tmp_path / "out.xlsx")
    assert "Boat 2 has two slips on day 1" in capsys.readouterr().err
    with pytest.raises((CommandError, SystemExit)):
        call_command("import_event", tmp_path / "out.xlsx", check=True)
