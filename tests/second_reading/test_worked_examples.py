"""The second reading against the worked examples of the contracts and published figures; no product code."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from fractions import Fraction
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from .amounts import fahrenheit, weight, whole_pounds
from .clock import Day, minutes, one_decimal
from .fish import Z, mortality, scatter_seen, wilson
from .money import pay, places_paid, split_evenly
from .one_slip import DayScore, score
from .places import Team, fishes_on, place_teams
from .reading import read_event
from .rule_sheet import read_rules

F = Fraction
DAY = Day(1, date(2026, 5, 2), time(6), time(15), ZoneInfo("America/Chicago"), False, None)


def rules(unit: str = "lb", **written: str) -> dict[str, Any]:
    return read_rules(written, unit)


def scored(slip: dict[str, str], **written: str) -> DayScore:
    base = {"day": "1", "boat": "1", "short": "0"}
    return score(base | slip, rules(**written), "lb", DAY, DAY.ends)


EXAMPLE_RULES = {
    "fish_limit": "7",
    "dead_fish_penalty": "0.25, 0.50",
    "late_penalty_per_minute": "1.00",
    "late_grace_minutes": "0",
    "short_fish": "lose_largest",
}
EXAMPLE_SLIP = {
    "fish": "7",
    "alive": "5",
    "dead": "2",
    "short": "1",
    "gross": "9.47",
    "tare": "0.32",
    "largest_weights": "1.71, 1.66",
    "checked_in": "15:02:10",
}


def test_the_worked_slip() -> None:
    result = scored(EXAMPLE_SLIP, **EXAMPLE_RULES)
    assert result.net == F("9.15")
    assert result.weighed == 5
    assert result.deductions == [
        {"reason": "short_fish", "count": 1, "amount": F("1.71")},
        {"reason": "dead_fish", "count": 2, "amount": F("0.75")},
        {"reason": "late", "count": 3, "amount": F("3.00")},
    ]
    assert result.total == F("3.69")


def test_the_worked_slip_with_an_eighth_fish_loses_the_day() -> None:
    result = scored(EXAMPLE_SLIP | {"fish": "8", "alive": "6"}, **EXAMPLE_RULES)
    assert (result.lost, result.total, result.weighed, result.deductions) == ("over_limit", 0, 0, [])
    assert result.net == F("9.15")


def test_everything_removed_goes_under_over_limit_and_the_short_line_stays_with_nothing() -> None:
    slip = {"fish": "3", "alive": "3", "dead": "0", "short": "2", "gross": "1.50"}
    result = scored(slip, fish_limit="2", over_limit="remove_largest", short_fish="lose_largest")
    assert result.deductions == [
        {"reason": "over_limit", "count": 1, "amount": F("1.50")},
        {"reason": "short_fish", "count": 2, "amount": 0},
    ]
    assert (result.weighed, result.total) == (0, 0)


def test_everything_removed_by_short_fish_alone() -> None:
    slip = {"fish": "2", "alive": "1", "dead": "1", "short": "1", "gross": "1.50"}
    result = scored(slip, short_fish="lose_largest", dead_fish_penalty="0")
    assert result.deductions == [
        {"reason": "short_fish", "count": 1, "amount": F("1.50")},
        {"reason": "dead_fish", "count": 1, "amount": 0},
    ]


def test_first_dead_fish_free_and_the_last_step_repeats() -> None:
    slip = {"fish": "4", "alive": "1", "dead": "3", "gross": "4.00"}
    assert scored(slip, dead_fish_penalty="0, 0.25").penalty == F("0.50")


def test_a_slip_without_fish_may_go_below_zero_when_totals_are_kept() -> None:
    slip = {"fish": "0", "alive": "0", "dead": "0", "minutes_late": "2"}
    assert scored(slip, negative_totals="keep").total == -2
    assert scored(slip).total == 0


def test_lateness_decides_before_grace_and_costs_after_it() -> None:
    slip = {"fish": "1", "alive": "1", "dead": "0", "gross": "1.00", "checked_in": "15:15:00"}
    assert scored(slip, late_grace_minutes="10", negative_totals="keep").total == -4
    assert scored(slip | {"checked_in": "15:15:01"}, late_grace_minutes="10").lost == "late"
    assert scored(slip | {"checked_in": "15:15:01"}, late_disqualify_after_minutes="none").lost is None


def team(boat: int, *totals: str, paid: bool = True, **more: Any) -> Team:
    made = Team(boat, f"Team {boat}", "entered", paid, False, None, **more)
    made.scores = [
        DayScore(day, 1, 1, 0, 1, F(total), F(0), F(total), F(1), None) for day, total in enumerate(totals, 1)
    ]
    return made


PURSE_RULES = {"payback_percent": "80", "place_shares": "40, 30, 20, 10", "rounding": "5", "ties": "share"}


def test_the_worked_purse() -> None:
    teams = [team(boat, str(100 - boat)) for boat in range(1, 24)]
    place_teams(teams, rules(**PURSE_RULES), [1])
    purse = pay(teams, rules(**PURSE_RULES), F(60), F(250))
    assert (purse["purse"], purse["places_paid"], purse["unclaimed"]) == (1354, 4, 0)
    assert [t.payout for t in teams[:5]] == [544, 405, 270, 135, 0]


def test_second_and_third_of_the_worked_purse_tie() -> None:
    teams = [team(boat, "9" if boat in (2, 3) else str(20 - boat * 3)) for boat in range(1, 24)]
    place_teams(teams, rules(negative_totals="keep", **PURSE_RULES), [1])
    pay(teams, rules(**PURSE_RULES), F(60), F(250))
    assert [t.place for t in teams[:4]] == [1, 2, 2, 4]
    assert [t.payout for t in teams[:4]] == [544, F("337.50"), F("337.50"), 135]


def test_left_over_cents_go_to_lower_boats() -> None:
    assert split_evenly(F("100.00"), [9, 4, 7]) == {4: F("33.34"), 7: F("33.33"), 9: F("33.33")}


def test_an_unpaid_team_keeps_its_place_and_is_passed_over() -> None:
    teams = [team(1, "9", paid=False), team(2, "8"), team(3, "7")]
    place_teams(teams, rules(), [1])
    pay(teams, rules(places_paid="1"), F(10), F(0))
    assert [t.place for t in teams] == [1, 2, 3]
    assert [t.payout for t in teams] == [0, 20, 0]


def test_places_paid_is_bounded() -> None:
    assert places_paid(rules(places_paid="1 per 5"), 4, 3) == 1
    assert places_paid(rules(places_paid="9"), 4, 3) == 3
    assert places_paid(rules(places_paid="9", place_shares="2, 1"), 40, 30) == 2


def test_all_equal_at_the_cut_fish_on() -> None:
    sheet = rules(cut_after_day="1", cut_keep="2")
    teams = [team(1, "5", "1"), team(2, "4", "1"), team(3, "4", "9"), team(4, "3.99")]
    assert [fishes_on(t, teams, sheet) for t in teams] == [True, True, True, False]


def test_a_team_that_missed_the_cut_ranks_below_one_with_less() -> None:
    sheet = rules(cut_after_day="1", cut_keep="1", negative_totals="keep")
    teams = [team(1, "5", "-3"), team(2, "4")]
    place_teams(teams, sheet, [1, 2])
    assert [t.place for t in teams] == [1, 2]


def test_durations_are_real_time_across_the_change() -> None:
    night = Day(1, date(2026, 3, 7), time(19), time(3, 30), ZoneInfo("America/Chicago"), False, None)
    assert night.moment("20:00") == datetime(2026, 3, 8, 2, tzinfo=UTC)
    assert minutes(night.ends, night.moment("20:00")) == 6.5 * 60
    with pytest.raises(ValueError, match="does not exist"):
        night.moment("02:30")
    autumn = Day(1, date(2026, 10, 31), time(19), time(1, 50), ZoneInfo("America/Chicago"), False, None)
    assert minutes(autumn.moment("02:05"), autumn.ends) == 75
    assert autumn.moment("01:10") < autumn.ends  # its first passing


def test_one_decimal_half_up() -> None:
    assert one_decimal(F(1, 20)) == F("0.1")
    assert one_decimal(F("412.35")) == F("412.4")


@pytest.mark.parametrize("text", ["9-07.5", "9-7 1/2", "9 lb 7.5 oz"])
def test_weights_in_ounces(text: str) -> None:
    assert weight(text, "lb-oz") == F("9.46875")


def test_other_weights_and_temperatures() -> None:
    assert weight("9 lb", "lb-oz") == 9
    assert weight("7 oz", "lb-oz") == F("0.4375")
    assert weight("0", "lb-oz") == 0
    assert weight("4.295 kg", "kg") == F("4.295")
    assert fahrenheit("27.8 C") == F("82.04")
    assert whole_pounds(F("4.5359237"), "kg") == 10
    assert whole_pounds(F("4.5359236"), "kg") == 9
    assert whole_pounds(F("-0.5"), "lb") == 0


# Weil 1970, pups as (survived, born), as used by Rao & Scott 1992; read in the R package aod.
CONTROL = "13/13 12/12 9/9 9/9 8/8 8/8 12/13 11/12 9/10 9/10 8/9 11/13 4/5 5/7 7/10 7/10"
TREATED = "12/12 11/11 10/10 9/9 10/11 9/10 9/10 8/9 8/9 4/5 7/9 4/7 5/10 3/6 3/10 0/7"


def litters(text: str) -> tuple[list[int], list[int]]:
    pairs = [tuple(map(int, litter.split("/"))) for litter in text.split()]
    return [born - survived for survived, born in pairs], [born for _, born in pairs]


@pytest.mark.parametrize(
    ("text", "deaths", "effect", "effective"), [(CONTROL, 16, 1.2325, 128.20), (TREATED, 33, 3.9529, 36.68)]
)
def test_weils_litters(text: str, deaths: int, effect: float, effective: float) -> None:
    dead, born = litters(text)
    assert sum(dead) == deaths
    found = float(scatter_seen(dead, born))
    assert found == pytest.approx(effect, abs=5e-5)
    assert sum(born) / found == pytest.approx(effective, abs=5e-3)


def test_few_clusters_and_a_season_by_event() -> None:
    # computed figures of the project's list of check values
    assert float(scatter_seen([0] * 7 + [1, 2, 5], [7] * 10)) == pytest.approx(3.70, abs=5e-3)
    effect = float(scatter_seen([1, 1, 9, 1, 7, 1], [42] * 6))
    assert effect == pytest.approx(4.39, abs=5e-3)
    assert 252 / effect == pytest.approx(57.4, abs=0.05)


def test_wilson_of_published_counts() -> None:
    # White crappie hooking mortality 4/43 (Muoneke 1992), limits computed; 81/263 Newcombe 1998, table I
    assert wilson(4 / 43, 43, Z) == pytest.approx((0.0368, 0.2160), abs=5e-5)
    assert wilson(81 / 263, 263, Z) == pytest.approx((0.2553, 0.3662), abs=5e-5)


def pen(kind: str, held: int, dead: int) -> dict[str, str]:
    return {"group": kind, "kind": kind, "hours": "72", "held": str(held), "dead": str(dead)}


def test_total_mortality_with_a_reference_group() -> None:
    # initial 12/240, held 15/50, reference 6/53: delayed 21.06 %, total 25.01 % (computed)
    slips = [{"boat": str(b), "fish": "20", "alive": "19", "dead": "1"} for b in range(12)]
    found = mortality(slips, [pen("tournament", 50, 15), pen("reference", 53, 6)])
    assert found["delayed"] == pytest.approx(0.2106, abs=5e-5)
    assert found["total"] == pytest.approx(0.2501, abs=5e-5)
    assert found["delayed_basis"] == "reference"


def test_delayed_mortality_is_never_invented() -> None:
    slips = [{"boat": "1", "fish": "5", "alive": "5", "dead": "0"}]
    assert mortality(slips, [])["total"] is None
    dead_reference = mortality(slips, [pen("tournament", 9, 1), pen("reference", 5, 5)])
    assert (dead_reference["delayed"], dead_reference["total"]) == (None, None)
    alone = mortality(slips, [pen("tournament", 10, 1)])
    assert (alone["delayed"], alone["delayed_basis"]) == (0.1, "no_reference")
    assert mortality(slips, [pen("tournament", 10, 1), pen("reference", 10, 2)])["delayed"] == -0.125


def test_a_corrected_and_a_voided_slip() -> None:
    event = {
        "club": "C",
        "season": "2026",
        "event": "E",
        "water": "W",
        "date": "2026-05-02",
        "weight_unit": "lb",
    }
    slip = {"day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "2.00"}
    found = read_event(
        {
            "Event": [{"key": key, "value": value} for key, value in event.items()],
            "Teams": [{"boat": str(b), "team": f"T{b}", "angler_1": f"A{b}"} for b in (1, 2)],
            "Slips": [
                slip | {"slip": "1", "boat": "1"},
                slip | {"slip": "2", "boat": "1", "gross": "1.50", "replaces": "1", "reason": "misread"},
                slip | {"slip": "3", "boat": "2"},
                slip | {"slip": "4", "boat": "2", "replaces": "3", "reason": "wrong boat", "void": "yes"},
            ],
        }
    )
    assert [(row["boat"], row["status"], row["total"]) for row in found["standings"]] == [
        (1, "ranked", F("1.5")),
        (2, "not_weighed", 0),
    ]
    assert [row["boat"] for row in found["fish_care"]] == [1]
    assert found["ledger"]["length"] == 4
