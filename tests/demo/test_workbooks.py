"""The demo's workbooks: what the script writes, and a season that people at the table would believe."""

import json
import subprocess
import sys
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl import load_workbook

from weighin.rules.sheet.keys import BY_NAME

from .workbooks import FOLDER, NEIGHBOURS, SEASON, cells, current, dead_share, pounds, rows, values

EVERY = SEASON + NEIGHBOURS


@pytest.fixture(scope="module")
def written_again(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    script = [sys.executable, str(FOLDER / "make_workbooks.py")]
    subprocess.run([*script, str(folder / "once")], check=True, capture_output=True)
    subprocess.run([*script, str(folder / "twice")], check=True, capture_output=True)
    return folder


def _minutes(clock: str) -> int:
    return int(clock[:2]) * 60 + int(clock[3:5])


def _lake(file: str, day: int) -> int:
    """The day's lake temperature in whole °F."""
    written, unit = next(row["lake_temp"] for row in rows(file, "Days") if row["day"] == day).split()
    return round(float(written) if unit == "F" else float(written) * 1.8 + 32)


def test_the_folder_holds_these_events() -> None:
    assert sorted(file.name for file in FOLDER.glob("*.xlsx")) == sorted(EVERY)


@pytest.mark.parametrize("file", EVERY)
def test_the_script_writes_the_workbook_that_is_there(file: str, written_again: Path) -> None:
    again = load_workbook(written_again / "once" / file)
    assert {s.title: list(s.iter_rows(values_only=True)) for s in again} == cells(file)


@pytest.mark.parametrize("file", EVERY)
def test_the_script_writes_the_same_bytes(file: str, written_again: Path) -> None:
    assert (written_again / "once" / file).read_bytes() == (written_again / "twice" / file).read_bytes()


@pytest.mark.parametrize("file", EVERY)
def test_every_fish_is_alive_or_dead(file: str) -> None:
    slips = [slip for slip in rows(file, "Slips") if slip.get("void") != "yes"]
    assert len(slips) >= 10
    for slip in slips:
        assert slip["fish"] == slip["alive"] + slip["dead"]


@pytest.mark.parametrize("file", SEASON)
def test_crappie_weigh_what_crappie_weigh(file: str) -> None:
    """Common practice, no source: seven crappie over 12 lb is a very good day, a 1.9 lb crappie a giant."""
    bags, big = [], []
    for slip in current(file):
        if slip["fish"] >= 6:
            bags.append(pounds(slip["gross"]) - pounds(slip["tare"]))
        if slip["fish"]:
            big.append(pounds(slip["big_fish"]))
    assert min(bags) > 3.5 and 8 < max(bags) < 12.5
    assert 1.4 < max(big) <= 1.95 and min(big) > 0.6


@pytest.mark.parametrize("file", EVERY)
def test_a_boats_day_runs_in_order(file: str) -> None:
    care = {(note["day"], note["boat"]): note for note in rows(file, "Fish care")}
    for slip in current(file):
        note = care.get((slip["day"], slip["boat"]), {})
        day = [note.get("launched"), note.get("first_fish"), slip["checked_in"], slip.get("bag_issued"),
               slip.get("weighed"), slip.get("bag_emptied"), slip.get("released")]  # fmt: skip
        known = [time[:5] for time in day if time]
        assert known == sorted(known)


def test_the_hot_day_kills_and_the_cool_day_hardly() -> None:
    """From memory: losses rise steeply in warm water. The curve is invented; only the order is claimed."""
    shares = [dead_share(file) for file in SEASON]
    assert shares[3] == max(shares) and 0.15 <= shares[3] <= 0.20
    assert 0.01 <= shares[5] <= 0.02
    assert 0.03 <= shares[6] < shares[7] < shares[3]


def test_whole_livewells_died_on_the_hot_day() -> None:
    lost = [slip for slip in current(SEASON[3]) if slip["fish"] >= 5 and slip["dead"] == slip["fish"]]
    assert len(lost) >= 2
    spared = [slip for slip in current(SEASON[3]) if slip["fish"] and not slip["dead"]]
    assert len(spared) > 8


def test_the_hot_day_was_run_worse_too() -> None:
    """Common practice, no source: boat to scales in ten minutes, ice aboard from 75 °F, seven in the well."""
    bags = {
        file: [_minutes(s["bag_emptied"]) - _minutes(s["bag_issued"]) for s in current(file) if s["bag_issued"]]
        for file in SEASON
    }
    assert min(bags[SEASON[3]]) > 10 and sum(bags[SEASON[3]]) / len(bags[SEASON[3]]) > 15
    assert all(sum(waits) / len(waits) < 10.5 for file, waits in bags.items() if file != SEASON[3])
    iced = {file: [bool(note["ice_lb"]) for note in rows(file, "Fish care")] for file in SEASON}
    share = {file: sum(notes) / len(notes) for file, notes in iced.items()}
    assert share[SEASON[3]] < 0.5 < share[SEASON[4]]


def test_the_water_is_as_warm_as_the_month() -> None:
    """From memory: a reservoir of the middle South is in the fifties in March, in the eighties in July and August, near sixty in October."""
    lakes = {
        int(values(file, "Event")["date"][5:7]): float(values(file, "Event")["lake_temp"].split()[0]) for file in SEASON
    }
    assert sorted(lakes) == [3, 4, 5, 6, 7, 8, 9, 10]
    for month, (low, high) in {
        3: (50, 58),
        4: (58, 66),
        5: (66, 74),
        6: (76, 82),
        7: (85, 88),
        8: (80, 86),
        9: (73, 81),
        10: (58, 66),
    }.items():
        assert low <= lakes[month] <= high


@pytest.mark.parametrize("file", EVERY)
def test_no_livewell_holds_more_oxygen_than_water_can(file: str) -> None:
    """Saturation of fresh water at sea level, mg/L at °F (Benson and Krause, rounded); pure oxygen goes above it."""
    full = {54: 10.8, 62: 9.7, 63: 9.6, 71: 8.8, 73: 8.6, 77: 8.3, 80: 8.0, 83: 7.8, 86: 7.5, 61: 9.9, 65: 9.4}
    for note in rows(file, "Fish care"):
        if note.get("livewell_do"):
            coldest = full[_lake(file, note["day"])] * 1.1
            assert 3 <= note["livewell_do"] <= coldest * (1.2 if note["aeration"] == "oxygen" else 1)


@pytest.mark.parametrize("file", SEASON)
def test_nearly_every_boat_has_a_care_note(file: str) -> None:
    fished = {(slip["day"], slip["boat"]) for slip in current(file)}
    noted = {(note["day"], note["boat"]) for note in rows(file, "Fish care")}
    assert 0.85 * len(fished) < len(noted & fished) < len(fished)


@pytest.mark.parametrize("file", SEASON)
def test_the_tanks_are_read_while_fish_are_in_them(file: str) -> None:
    for day in {tank["day"] for tank in rows(file, "Tanks")}:
        read = [tank["time"] for tank in rows(file, "Tanks") if tank["day"] == day]
        weighed = [slip["weighed"] for slip in current(file) if slip["day"] == day and slip["fish"]]
        assert min(read) <= min(weighed) and max(weighed) <= max(read)


def test_fish_let_go_at_once_saw_no_livewell_and_no_line() -> None:
    assert values(NEIGHBOURS[0], "Event")["handling"] == "immediate_release"
    held = {"bag_issued", "weighed", "bag_emptied", "released"}
    assert not held & set(rows(NEIGHBOURS[0], "Slips")[0])
    assert not {"livewell_gal", "ice_lb", "livewell_do"} & set(rows(NEIGHBOURS[0], "Fish care")[0])


def test_two_teams_tie_at_the_last_paid_place() -> None:
    """By hand: nothing but weight, late minutes, dead and short fish, and then the largest live fish and the live count."""
    teams = {team["boat"]: team for team in rows(SEASON[0], "Teams")}
    places = Decimal(sum(team["paid"] == "yes" for team in teams.values())) // 5
    standing = []
    for slip in current(SEASON[0]):
        if slip["fish"] and teams[slip["boat"]]["paid"] == "yes":
            late = 1 if slip["checked_in"] > "15:00" else 0
            net = round((slip["gross"] - slip["tare"]) * 100) - 25 * slip["dead"] - 100 * (slip["short"] + late)
            big = slip["big_fish"] if slip["big_fish_alive"] == "yes" else 0
            standing.append((net, big, slip["alive"]))
    standing.sort(reverse=True)
    last = int(places) - 1
    assert standing[last] == standing[last + 1]
    assert standing[last - 1] > standing[last] and standing[last + 1] > standing[last + 2]


def test_one_boat_is_late_by_seconds() -> None:
    assert [s["checked_in"] for s in current(SEASON[0]) if s["checked_in"] > "15:00"] == ["15:00:07"]


def test_one_event_shows_every_rule() -> None:
    assert set(values(SEASON[0], "Rules")) == set(BY_NAME)


def test_only_the_boats_above_the_cut_fish_the_second_day() -> None:
    """By hand: weight less a quarter pound for each dead fish, the fifteen best of the first day."""
    first = {
        s["boat"]: round((s["gross"] - s["tare"]) * 100) - 25 * s["dead"]
        for s in current(SEASON[1])
        if s["day"] == 1 and s["fish"]
    }
    line = sorted(first.values(), reverse=True)[14]
    assert {s["boat"] for s in current(SEASON[1]) if s["day"] == 2} == {b for b, net in first.items() if net >= line}


def test_the_same_teams_come_back() -> None:
    seen = Counter(team["team"] for file in SEASON for team in rows(file, "Teams"))
    assert 28 <= len(seen) <= 32
    assert min(seen.values()) >= 4


def test_the_season_shows_what_happens_at_a_table() -> None:
    slips = [slip for file in SEASON for slip in rows(file, "Slips")]
    for told in (
        "replaces",
        "void",
        "disqualified_reason",
        "extra_penalty_reason",
        "well_boat",
        "largest_weights",
        "excused_minutes",
        "kept",
    ):
        assert any(slip.get(told) for slip in slips), told
    assert all(slip["reason"] for slip in slips if slip.get("replaces"))
    teams = [team for file in SEASON for team in rows(file, "Teams")]
    assert {team["status"] for team in teams} == {"entered", "withdrawn", "absent"}
    for told in ("paid", "youth"):
        assert {team[told] for team in teams} == {"yes", "no"}
    assert {pen["kind"] for pen in rows(SEASON[4], "Holding")} == {"tournament", "reference"}
    assert "protest" in values(SEASON[3], "Event")["note"]


def test_the_newest_event_needs_nobody() -> None:
    slips = rows(SEASON[5], "Slips")
    assert len({slip["boat"] for slip in slips}) == len(slips)
    entered = [team for team in rows(SEASON[5], "Teams") if team["status"] == "entered"]
    assert {team["boat"] for team in entered} == {slip["boat"] for slip in slips}


def test_times_and_ounces_are_text() -> None:
    sheet = load_workbook(FOLDER / SEASON[2])["Slips"]
    assert sheet.freeze_panes and all(cell.font.bold for cell in sheet[1])
    header = [cell.value for cell in sheet[1]]
    for name in ("gross", "checked_in", "weighed"):
        assert isinstance(sheet.cell(2, header.index(name) + 1).value, str)
        assert sheet.cell(2, header.index(name) + 1).number_format == "@"


def test_the_people_belong_to_the_clubs_of_the_workbooks() -> None:
    people = json.loads((FOLDER / "people.json").read_text(encoding="utf-8"))
    clubs = {values(file, "Event")["club"] for file in EVERY}
    assert {person["club"] for person in people} == clubs
    main = [person["role"] for person in people if person["club"] == values(SEASON[0], "Event")["club"]]
    assert sorted(main) == ["club_reviewer", "director", "fish_care_official", "weigh_official"]
    assert all(len(person["password"]) >= 10 for person in people)
