"""The random events themselves: the same for the same seed, valid, and with every case among them."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from openpyxl import load_workbook

from . import workbook
from .amounts import given, weight, weights, whole, yes
from .drawing.chance import Chance
from .drawing.generate import random_event
from .one_slip import count
from .reading import current_slips, keyed, read_days, read_event
from .rule_sheet import read_rules

MANY = 150


def test_a_seed_always_gives_the_same_event() -> None:
    assert random_event(7) == random_event(7)
    assert random_event(7) != random_event(8)


def test_a_draw_more_shifts_no_other_value(monkeypatch: pytest.MonkeyPatch) -> None:
    before = [random_event(seed) for seed in range(12)]
    of = Chance.of

    def after_a_draw(chance: Chance, *names: object) -> Chance:
        chance.random()
        return of(chance, *names)

    monkeypatch.setattr(Chance, "of", after_a_draw)
    assert [random_event(seed) for seed in range(12)] == before


def test_every_case_of_the_contract_is_among_them() -> None:
    seen: Counter[str] = Counter()
    for seed in range(MANY):
        sheets = random_event(seed)
        found = read_event(sheets)
        seen.update(["no slips sheet"] * ("Slips" not in sheets))
        for row in keyed(sheets, "Rules"):
            seen[row] += 1
        for standing in found["standings"]:
            seen.update([standing["status"], f"tied {standing['tied']}"])
            seen.update(["negative"] * (standing["total"] < 0) + ["pot"] * (standing["big_fish_payout"] > 0))
            seen.update(["shared prize"] * bool(standing["tied"] and standing["payout"]))
            for day in standing["days"]:
                seen.update([f"lost {day['lost']}", *(line["reason"] for line in day["deductions"])])
        for row in found["fish_care"]:
            seen.update(f"passed {name}" for name in row["checks_passed"])
            seen.update(f"failed {name}" for name in row["checks_failed"])
        seen.update([f"basis {found['mortality']['delayed_basis']}"])
        seen.update(["unclaimed"] * (found["purse"]["unclaimed"] > 0))
        seen.update(name for row in sheets.get("Slips", []) for name in row)
    expected = {
        "no slips sheet",
        "negative",
        "pot",
        "shared prize",
        "tied True",
        "unclaimed",
        "cut_after_day",
    }
    expected |= {"ranked", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn"}
    expected |= {"lost ruling", "lost over_limit", "lost short_fish", "lost late", "lost None"}
    expected |= {"over_limit", "short_fish", "dead_fish", "late", "extra", "void", "replaces", "well_boat"}
    expected |= {"basis None", "basis reference", "basis no_reference", "minutes_late", "excused_minutes"}
    checks = ("pump", "thermometer", "ice", "on_board", "held", "bag", "cooling", "oxygen")
    expected |= {f"{verdict} {name}" for verdict in ("passed", "failed") for name in checks}
    assert expected - seen.keys() == set()


@pytest.mark.parametrize("seed", range(0, MANY, 10))
def test_they_hold_no_fault(seed: int) -> None:
    """The rules of a slip that the generator could break by its own doing."""
    sheets = random_event(seed)
    unit = keyed(sheets, "Event")["weight_unit"]
    rules = read_rules(keyed(sheets, "Rules"), unit)
    days = read_days(sheets)
    for slip in sheets.get("Slips", []):
        fish, alive, dead = (whole(slip[name]) for name in ("fish", "alive", "dead"))
        counts = count(fish, alive, dead, whole(slip.get("short", "0")), rules)
        listed = weights(slip["largest_weights"], unit) if "largest_weights" in slip else []
        tare = weight(slip["tare"], unit) if "tare" in slip else rules["bag_tare"]
        net = weight(slip["gross"], unit) - tare if "gross" in slip else Fraction(0)
        assert fish == alive + dead
        assert net >= 0
        assert (net > 0) == (counts.on_scale > 0)
        assert listed == sorted(listed, reverse=True)
        assert sum(listed) <= net
        assert len(listed) >= counts.removed or counts.removed >= counts.on_scale
        if "big_fish" in slip:
            assert weight(slip["big_fish"], unit) <= net - sum(listed[: counts.removed])
            assert yes(slip["big_fish_alive"]) if "big_fish_alive" in slip and not dead else True
        assert not days[whole(slip["day"])].cancelled
        times = [days[whole(slip["day"])].moment(slip[n]) for n in ("bag_issued", "weighed") if given(slip.get(n))]
        assert times == sorted(times)
    current = [(slip["day"], slip["boat"]) for slip in current_slips(sheets)]
    assert len(set(current)) == len(current)


def test_the_file_holds_every_row_however_it_is_spelt(tmp_path: Path) -> None:
    sheets = random_event(1)
    workbook.write(sheets, tmp_path / "event.xlsx", Random(1))
    found = load_workbook(tmp_path / "event.xlsx")
    assert sorted(sheet.max_row - 1 for sheet in found) == sorted(len(rows) for rows in sheets.values())
