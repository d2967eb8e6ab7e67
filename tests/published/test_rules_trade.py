"""Rules of the trade as our rule sheet writes them. Common practice, no source, where nothing else is named."""

from decimal import Decimal as D
from fractions import Fraction

import pytest

from weighin.rules import rulebook
from weighin.rules.payouts import places, places_paid
from weighin.rules.points import Appearance, for_place, season_points
from weighin.rules.scoring import score
from weighin.rules.slips import Slip


def rules(unit="lb", **written):
    return rulebook.read(written, unit)


def bag(rulebook_, alive, dead=0, gross="9.00", **more):
    return score(rulebook_, Slip(fish=alive + dead, alive=alive, dead=dead, gross=D(gross), **more))


class TestCommonPractice:
    """Common practice, no source."""

    def test_a_limit_of_seven_crappie_is_common_and_five_bass(self):
        assert rules().fish_limit == 7
        assert bag(rules(), 8).lost == "over_limit"
        assert bag(rules(fish_limit="5"), 6).lost == "over_limit"

    @pytest.mark.parametrize(
        ("unit", "penalty", "off"),
        [
            ("lb", "0.25", "0.25"),
            ("lb-oz", "0-04", "0.25"),
            ("lb", "0.5", "0.5"),
            ("lb-oz", "0-08", "0.5"),
        ],
    )
    def test_a_dead_fish_costs_a_quarter_or_half_a_pound_in_either_writing(self, unit, penalty, off):
        assert bag(rules(unit, dead_fish_penalty=penalty), 6, 1).total == 9 - D(off)

    def test_a_short_fish_costs_a_pound(self):
        assert bag(rules(), 7, short=1).total == 8

    def test_a_pound_a_minute_late_and_the_day_after_fifteen(self):
        assert bag(rules(), 7, minutes_late=2).total == 7
        assert bag(rules(), 7, minutes_late=15, gross="20").total == 5
        assert bag(rules(), 7, minutes_late=15 + Fraction(1, 60), gross="20").lost == "late"

    def test_the_worked_slip_of_common_practice(self):
        """The scoring contract's example: 9.15 net, less 1.71, 0.75 and 3.00."""
        book = rules(dead_fish_penalty="0.25, 0.50", short_fish="lose_largest")
        found = bag(
            book,
            5,
            2,
            "9.47",
            tare=D("0.32"),
            short=1,
            largest_weights=(D("1.71"), D("1.66")),
            minutes_late=Fraction(130, 60),
        )
        assert [line.amount for line in found.deductions] == [D("1.71"), D("0.75"), D("3.00")]
        assert (found.net, found.total) == (D("9.15"), D("3.69"))

    def test_one_place_paid_for_every_five_entries(self):
        assert [places_paid(rules(), entries, entries) for entries in (4, 5, 9, 10, 23)] == [1, 1, 1, 2, 4]

    def test_the_worked_purse_of_common_practice(self):
        """The scoring contract's example: 1354.00 by 40, 30, 20, 10, rounded down to 5, the rest to first."""
        book = rules(place_shares="40, 30, 20, 10", rounding="5")
        assert places(book, D("1354.00"), 4) == [544, 405, 270, 135]

    @pytest.mark.parametrize(
        ("written", "first_places"),
        [
            ({}, [100, 99, 98]),
            ({"points_step": "2"}, [100, 98, 96]),
            ({"points_first": "60"}, [60, 59, 58]),
            ({"points_first": "50"}, [50, 49, 48]),
            ({"points_table": "200, 195, 190"}, [200, 195, 190]),
        ],
    )
    def test_points_tables_seen_in_clubs(self, written, first_places):
        assert [for_place(rules(**written), place) for place in (1, 2, 3)] == first_places

    def test_the_best_eight_of_eleven_count(self):
        events = [Appearance(str(points), D(points), "ranked", D(0), None) for points in range(90, 101)]
        (row,) = season_points(rules(count_best="8"), {"Heron Point": events})
        assert row.points == sum(range(93, 101))
        assert [a.points for a in row.dropped] == [92, 91, 90]

    def test_oxygen_at_or_above_five_and_ten_minutes_from_boat_to_scales(self):
        assert rules().care_min_do == 5
        assert rules().care_max_bag_minutes == 10


class TestAgencyGuidance:
    def test_care_steps_begin_at_75_degrees(self):
        """Kansas Administrative Regulations 115-7-8 and agency page: care above 75 °F lake temperature."""
        assert rules().care_warm_f == 75

    def test_the_stricter_of_the_cooling_limits_is_the_default(self):
        """7 °F: summary of a Mississippi State study; others 8-10 °F (handbook, Oklahoma)."""
        assert rules().care_max_cooling_f == 7

    def test_more_than_ten_per_cent_is_the_default_stop_level(self):
        """Kansas called more than 10 % mortality after weigh-in excessive."""
        assert rules().care_stop_percent == 10
