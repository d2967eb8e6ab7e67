"""A team over the event: sums of its days, and its status."""

import dataclasses
from decimal import Decimal as D

import pytest

from weighin.rules.results import ROSTER_STATUSES, STATUSES, DayResult, Team, team_result
from weighin.rules.tournament import DaySlip, run, team_results

from .plain import rules, scored, slip

TEAM = Team(boat=7, name="Heron Point")


def day(number, seen, **written):
    return DayResult(number, seen, scored(seen, **written))


def result(*days, team=TEAM, **more):
    return team_result(team, days, **more)


class TestSums:
    def test_over_two_days(self):
        bonus = {"live_fish_bonus": "0.10"}
        found = result(
            day(2, slip(3, 1, gross="5", big_fish="1.5", big_fish_alive=True, minutes_late=2), **bonus),
            day(1, slip(7, gross="9.5", tare="0.5", big_fish="1.9"), **bonus),
        )
        assert [d.day for d in found.days] == [1, 2]
        assert (found.fish, found.alive, found.dead, found.weighed) == (11, 10, 1, 11)
        assert (found.gross, found.penalty, found.bonus) == (D("14"), D("2.25"), D("1.00"))
        assert found.total == D("9.70") + D("3.05")
        assert found.total == found.gross - found.penalty + found.bonus
        assert found.big_fish == D("1.9")
        assert found.alive_counting == 10
        assert found.status == "ranked"

    def test_totals_by_day_and_through_a_day(self):
        found = result(day(1, slip(5, gross="5")), day(3, slip(5, gross="7")))
        assert (found.total_of(1), found.total_of(2), found.total_of(3)) == (5, 0, 7)
        assert (found.total_through(0), found.total_through(1), found.total_through(2)) == (0, 5, 5)
        assert found.total_through(3) == 12

    def test_a_lost_day_counts_its_fish_and_net_but_no_weight_or_live_fish_for_ties(self):
        found = result(day(1, slip(5, gross="5")), day(2, slip(7, 1, gross="9", big_fish="2", big_fish_alive=True)))
        assert (found.fish, found.alive, found.dead, found.weighed) == (13, 12, 1, 5)
        assert (found.gross, found.total, found.penalty) == (14, 5, 0)
        assert (found.alive_counting, found.big_fish) == (5, None)
        assert found.status == "ranked"

    def test_the_floor_holds_per_day(self):
        found = result(day(1, slip(5, gross="5")), day(2, slip(5, gross="1", minutes_late=4)))
        assert found.total == 5

    def test_without_a_slip_everything_is_zero(self):
        found = result()
        assert (found.fish, found.gross, found.total, found.big_fish) == (0, 0, 0, None)

    def test_the_big_fish_is_the_largest_counting_value(self):
        reduced = {"late_reduces_big_fish": "yes"}
        found = result(
            day(1, slip(5, gross="5", big_fish="2.0", minutes_late=1), **reduced),
            day(2, slip(5, gross="5", big_fish="1.5"), **reduced),
        )
        assert found.big_fish == D("1.5")


class TestStatus:
    @pytest.mark.parametrize("status", ["withdrawn", "disqualified", "absent"])
    def test_the_roster_goes_first(self, status):
        team = Team(boat=7, name="Heron Point", status=status)
        assert result(day(1, slip(5, gross="5")), team=team).status == status
        assert result(team=team, larger={2: 0}).status == status

    def test_two_slips_of_one_day_put_the_team_in_question(self):
        assert result(larger={2: 0}).status == "in_question"
        assert result(day(1, slip(5, gross="5")), larger={2: 0}).status == "in_question"

    def test_no_slip_at_all(self):
        assert result().status == "not_weighed"

    def test_slips_without_fish(self):
        assert result(day(1, slip(0)), day(2, slip(0))).status == "no_fish"
        assert result(day(1, slip(0, disqualified_reason="late to the ramp"))).status == "no_fish"
        assert result(day(1, slip(0, minutes_late=20))).status == "no_fish"

    def test_every_slip_with_fish_is_a_lost_day(self):
        assert result(day(1, slip(8, gross="9"))).status == "disqualified"
        assert result(day(1, slip(8, gross="9")), day(2, slip(0))).status == "disqualified"

    def test_one_day_with_fish_that_is_not_lost_is_enough(self):
        assert result(day(1, slip(8, gross="9")), day(2, slip(1, gross="1"))).status == "ranked"

    def test_fish_that_count_for_nothing_are_still_fish(self):
        assert result(day(1, slip(0, 3), dead_fish="not_weighed")).status == "ranked"
        assert result(day(1, slip(2, short=2))).status == "ranked"

    def test_the_words_are_those_of_the_contract(self):
        assert STATUSES == ("ranked", "in_question", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn")
        assert ROSTER_STATUSES == ("entered", "withdrawn", "absent", "disqualified")


def test_what_went_in_and_came_out_cannot_be_changed_behind_anyones_back():
    seen = slip(5, gross="5", minutes_late=1)
    found = result(day(1, seen))
    everything = [rules(), seen, TEAM, found, found.days[0], found.days[0].score, found.days[0].score.deductions[0]]
    for value in everything:
        name = dataclasses.fields(value)[0].name
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(value, name, getattr(value, name))


class TestWholeEvent:
    TEAMS = (Team(1, "Heron Point", paid=True), Team(2, "Reed Cutters", paid=True), Team(3, "Slow Water"))

    def test_two_slips_for_a_boat_and_day_count_neither(self):
        slips = [
            DaySlip(1, 1, slip(5, gross="5")),
            DaySlip(1, 1, slip(5, gross="6")),
            DaySlip(1, 2, slip(5, gross="4")),
            DaySlip(2, 1, slip(5, gross="3")),
        ]
        first, second, third = team_results(rules(), self.TEAMS, slips)
        assert (first.status, first.total, [d.day for d in first.days]) == ("in_question", 4, [2])
        assert (second.status, second.total) == ("ranked", 3)
        assert third.status == "not_weighed"

    def test_an_event_is_ranked_paid_and_given_points(self):
        slips = [DaySlip(1, 1, slip(5, gross="5")), DaySlip(2, 1, slip(5, gross="6")), DaySlip(3, 1, slip(0))]
        found = run(rules(places_paid="2", points_no_fish="last"), self.TEAMS, slips, (1,), D("50"), D("10"))
        assert [(row.result.team.boat, row.place) for row in found.ranked] == [(2, 1), (1, 2), (3, None)]
        assert found.purse.purse == D("110.00")
        assert found.purse.prizes == {2: D("74.00"), 1: D("36.00")}
        assert found.points == {2: 100, 1: 99, 3: 99}

    def test_an_event_without_teams(self):
        found = run(rules(), [], [])
        assert (found.ranked, found.points, found.purse.paid_entries, found.purse.places_paid) == ((), {}, 0, 0)
