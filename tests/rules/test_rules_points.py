"""Points of an event: places, the other statuses, and what is added."""

from decimal import Decimal as D

import pytest

from weighin.rules.points import event_points, for_place
from weighin.rules.ranking import rank

from .plain import bare_team, rules, weighed_team

TABLE = "200, 195, 190"


def points(results, unit="lb", **written):
    book = rules(unit, ties="share", **written)
    return event_points(book, rank(book, results))


@pytest.mark.parametrize(
    ("written", "place", "worth"),
    [
        ({}, 1, "100"),
        ({}, 2, "99"),
        ({}, 101, "0"),
        ({}, 102, "0"),
        ({"points_first": "60", "points_step": "2.5"}, 4, "52.5"),
        ({"points_step": "0"}, 40, "100"),
        ({"points_floor": "98"}, 5, "98"),
        ({"points_floor": "150"}, 1, "150"),
        ({"points_table": TABLE}, 1, "200"),
        ({"points_table": TABLE}, 3, "190"),
        ({"points_table": TABLE}, 4, "189"),
        ({"points_table": TABLE, "points_step": "5"}, 6, "175"),
        ({"points_table": TABLE, "points_step": "50", "points_floor": "30"}, 9, "30"),
        ({"points_table": TABLE, "points_first": "7"}, 1, "200"),
        ({"points_table": "10, 50"}, 3, "49"),
    ],
)
def test_points_of_a_place(written, place, worth):
    assert for_place(rules(**written), place) == D(worth)


def test_tied_teams_get_the_same_and_the_next_goes_by_its_place():
    assert points([weighed_team(1, "9"), weighed_team(2, "8"), weighed_team(3, "8"), weighed_team(4, "7")]) == {
        1: 100,
        2: 99,
        3: 99,
        4: 97,
    }


class TestOtherStatuses:
    FIELD = [weighed_team(1, "9"), weighed_team(2, "8"), weighed_team(3, "7")]

    def of(self, status, field=None, **written):
        return points([*(self.FIELD if field is None else field), bare_team(9, status)], **written)[9]

    def test_no_fish_gets_a_number_or_the_least_of_the_ranked(self):
        assert self.of("no_fish") == 0
        assert self.of("no_fish", points_no_fish="25") == 25
        assert self.of("no_fish", points_no_fish="last") == 98

    def test_the_least_is_before_additions(self):
        assert self.of("no_fish", points_no_fish="last", points_per_pound="1") == 98

    def test_the_least_is_a_figure_not_a_place(self):
        """A table need not fall: the least points of the ranked teams are not always the last one's."""
        assert self.of("no_fish", points_no_fish="last", points_table="50, 10, 40") == 10

    def test_without_a_ranked_team_the_least_is_the_floor(self):
        assert self.of("no_fish", [], points_no_fish="last", points_floor="12") == 12
        assert self.of("absent", [], points_absent_below_last="5", points_floor="12") == 7

    def test_not_weighed_has_its_own_points(self):
        assert self.of("not_weighed") == 0
        assert self.of("not_weighed", points_not_weighed="2.5", points_no_fish="last") == D("2.5")

    def test_absent_is_below_the_last_never_below_zero(self):
        assert self.of("absent") == 0
        assert self.of("absent", points_absent_below_last="5") == 93
        assert self.of("absent", points_absent_below_last="0") == 98
        assert self.of("absent", points_absent_below_last="99") == 0

    @pytest.mark.parametrize("status", ["disqualified", "withdrawn", "in_question"])
    def test_others_get_nothing(self, status):
        assert self.of(status, points_no_fish="25", points_not_weighed="10", points_floor="40") == 0


class TestAdditions:
    def test_whole_pounds_of_the_total(self):
        found = points([weighed_team(1, "9.99"), weighed_team(2, "0.99")], points_per_pound="1")
        assert found == {1: 109, 2: 99}
        assert points([weighed_team(1, "9.99")], points_per_pound="0.5") == {1: D("104.5")}

    def test_kilograms_are_converted_exactly_then_floored(self):
        found = points([weighed_team(1, "4.5359237"), weighed_team(2, "4.5359236")], "kg", points_per_pound="1")
        assert found == {1: 110, 2: 108}

    def test_a_total_below_zero_takes_nothing_away(self):
        assert points([weighed_team(1, "0", total=D("-3"))], points_per_pound="1") == {1: 100}

    def test_the_largest_counting_big_fish_adds_and_each_that_holds_it(self):
        results = [
            weighed_team(1, "9", big_fish=D("1.5")),
            weighed_team(2, "8", big_fish=D("1.8")),
            weighed_team(3, "7", big_fish=D("1.80")),
            weighed_team(4, "6"),
        ]
        assert points(results, points_big_fish="3") == {1: 100, 2: 102, 3: 101, 4: 97}

    def test_only_fish_of_ranked_teams_count_for_it(self):
        out = bare_team(9, "disqualified")
        out = type(out)(**{**out.__dict__, "big_fish": D("2.5")})
        assert points([weighed_team(1, "9", big_fish=D("1.5")), out], points_big_fish="3") == {1: 103, 9: 0}

    def test_no_big_fish_adds_to_nobody(self):
        assert points([weighed_team(1, "9")], points_big_fish="3") == {1: 100}

    def test_other_statuses_get_no_additions(self):
        found = points([weighed_team(1, "9"), bare_team(2, "no_fish")], points_per_pound="1", points_no_fish="25")
        assert found == {1: 109, 2: 25}

    def test_additions_come_on_top_of_the_floor(self):
        assert points([weighed_team(1, "2")], points_floor="150", points_per_pound="1") == {1: 152}
