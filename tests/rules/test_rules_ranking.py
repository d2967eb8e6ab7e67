"""Places: totals, every tie-breaker, the cut, and the order of the list."""

from decimal import Decimal as D

import pytest

from weighin.rules.ranking import kept_by_cut

from .plain import bare_team, places, ranked, rules, weighed_team


def two(ties, first, second, days=(1,)):
    """Whether boat 9 is ahead of boat 4 (True), behind (False) or tied (None); equal totals, 4 has the lower number."""
    listed = ranked([weighed_team(4, *second[0], **second[1]), weighed_team(9, *first[0], **first[1])], days, ties=ties)
    by_boat = {row.result.team.boat: row for row in listed}
    if by_boat[9].place == by_boat[4].place:
        assert by_boat[9].tied
        assert by_boat[4].tied
        assert by_boat[9].decided_by is by_boat[4].decided_by is None
        return None
    assert not by_boat[9].tied
    assert not by_boat[4].tied
    assert by_boat[9].decided_by == by_boat[4].decided_by == ties.split(",")[-1].strip()
    assert {row.place for row in listed} == {1, 2}
    return by_boat[9].place == 1


class TestPlaces:
    def test_more_weight_is_ahead(self):
        listed = ranked([weighed_team(1, "5"), weighed_team(2, "7.01"), weighed_team(3, "7")])
        assert places(listed) == [(2, 1), (3, 2), (1, 3)]
        assert not any(row.tied for row in listed)
        assert [row.decided_by for row in listed] == [None, None, None]

    def test_a_place_is_one_more_than_the_number_of_teams_ahead(self):
        listed = ranked([weighed_team(5, "9"), weighed_team(1, "7"), weighed_team(3, "7"), weighed_team(2, "5")])
        assert places(listed) == [(5, 1), (1, 2), (3, 2), (2, 4)]
        assert [row.tied for row in listed] == [False, True, True, False]

    def test_three_at_the_top(self):
        listed = ranked([weighed_team(n, "7") for n in (3, 1, 2)] + [weighed_team(4, "6")])
        assert places(listed) == [(1, 1), (2, 1), (3, 1), (4, 4)]

    def test_weights_are_equal_as_numbers(self):
        assert places(ranked([weighed_team(1, "7.0"), weighed_team(2, "7.00")])) == [(1, 1), (2, 1)]

    def test_totals_below_zero_are_ranked_and_a_zero_is_ahead_of_them(self):
        below = weighed_team(1, "0", total=D("-2"))
        lower = weighed_team(2, "0", total=D("-3"))
        assert places(ranked([lower, below, weighed_team(3, "0")])) == [(3, 1), (1, 2), (2, 3)]

    def test_only_ranked_teams_have_a_place_and_the_rest_follow_in_their_order_by_boat(self):
        rest = ["withdrawn", "disqualified", "absent", "not_weighed", "no_fish", "in_question"]
        teams = [bare_team(n, status) for n, status in enumerate(rest * 2, start=1)]
        listed = ranked([*teams, weighed_team(20, "1")])
        assert places(listed)[0] == (20, 1)
        assert [(row.result.status, row.result.team.boat) for row in listed[1:]] == [
            ("in_question", 6),
            ("in_question", 12),
            ("no_fish", 5),
            ("no_fish", 11),
            ("not_weighed", 4),
            ("not_weighed", 10),
            ("absent", 3),
            ("absent", 9),
            ("disqualified", 2),
            ("disqualified", 8),
            ("withdrawn", 1),
            ("withdrawn", 7),
        ]
        assert all(row.place is None and not row.tied and row.made_cut is None for row in listed[1:])


class TestTies:
    @pytest.mark.parametrize(
        ("key", "better", "worse"),
        [
            ("big_fish", {"big_fish": D("1.51")}, {"big_fish": D("1.5")}),
            ("big_fish", {"big_fish": D("0.01")}, {"big_fish": None}),
            ("live_fish", {"alive_counting": 6}, {"alive_counting": 5}),
            ("fish_count", {"weighed": 6}, {"weighed": 5}),
            ("fewest_deductions", {"penalty": D("0.25")}, {"penalty": D("0.26")}),
            ("lot", {"lot": 1}, {"lot": 2}),
            ("lot", {"lot": 900}, {"lot": None}),
        ],
    )
    def test_each_key_puts_the_better_figure_ahead(self, key, better, worse):
        assert two(key, (["7"], better), (["7"], worse)) is True
        assert two(key, (["7"], worse), (["7"], better)) is False
        assert two(key, (["7"], better), (["7"], better)) is None

    @pytest.mark.parametrize(
        ("key", "better", "worse"), [("first_day", ["5", "2"], ["4", "3"]), ("last_day", ["4", "3"], ["5", "2"])]
    )
    def test_the_first_and_the_last_day(self, key, better, worse):
        assert two(key, (better, {}), (worse, {}), (1, 2)) is True
        assert two(key, (worse, {}), (better, {}), (1, 2)) is False
        assert two(key, (better, {}), (better, {}), (1, 2)) is None

    def test_the_first_day_is_the_first_that_was_not_cancelled(self):
        assert two("first_day", (["0", "4", "3"], {}), (["0", "3", "4"], {}), (2, 3)) is True
        assert two("last_day", (["4", "3", "0"], {}), (["3", "4", "0"], {}), (1, 2)) is False

    def test_without_a_fished_day_the_days_separate_nobody(self):
        assert two("first_day, last_day", (["4", "3"], {}), (["3", "4"], {}), ()) is None

    def test_no_big_fish_is_worth_as_much_as_a_big_fish_of_nothing(self):
        assert two("big_fish", (["7"], {"big_fish": D(0)}), (["7"], {"big_fish": None})) is None

    def test_two_teams_without_a_lot_stay_tied(self):
        assert two("lot", (["7"], {}), (["7"], {})) is None

    def test_the_list_is_gone_through_in_order_until_one_separates(self):
        big, live = {"big_fish": D("1.5"), "alive_counting": 4}, {"big_fish": D("1.4"), "alive_counting": 5}
        assert two("big_fish", (["7"], big), (["7"], live)) is True
        listed = ranked([weighed_team(4, "7", **live), weighed_team(9, "7", **big)], ties="live_fish, big_fish")
        assert places(listed) == [(4, 1), (9, 2)]
        same = {"big_fish": D("1.5")}
        assert two(
            "big_fish, live_fish", (["7"], {**same, "alive_counting": 5}), (["7"], {**same, "alive_counting": 4})
        )

    def test_share_leaves_them_tied_whatever_else_differs(self):
        better = {"big_fish": D("2"), "alive_counting": 7, "lot": 1}
        listed = ranked([weighed_team(4, "7"), weighed_team(9, "7", **better)], ties="share")
        assert places(listed) == [(4, 1), (9, 1)]

    def test_tie_breakers_never_pass_a_larger_total(self):
        listed = ranked([weighed_team(4, "7.01"), weighed_team(9, "7", big_fish=D(3))])
        assert places(listed) == [(4, 1), (9, 2)]

    def test_what_decided_is_named_for_every_team_of_an_equal_total(self):
        listed = ranked(
            [
                weighed_team(1, "7", big_fish=D(2)),
                weighed_team(2, "7", big_fish=D(1), alive_counting=5),
                weighed_team(3, "7", big_fish=D(1), alive_counting=4),
                weighed_team(4, "7", big_fish=D(1), alive_counting=4),
                weighed_team(5, "6"),
            ],
            ties="big_fish, live_fish, share",
        )
        assert places(listed) == [(1, 1), (2, 2), (3, 3), (4, 3), (5, 5)]
        assert [row.tied for row in listed] == [False, False, True, True, False]
        assert [row.decided_by for row in listed] == ["big_fish", "big_fish", "big_fish", "big_fish", None]


class TestCut:
    CUT = {"cut_after_day": "1", "cut_keep": "2"}

    def kept(self, *results, **written):
        return kept_by_cut(rules(**{**self.CUT, **written}), results)

    def test_the_best_through_that_day_fish_on(self):
        results = [weighed_team(1, "5", "1"), weighed_team(2, "6"), weighed_team(3, "7", "2")]
        assert self.kept(*results) == {2, 3}
        assert kept_by_cut(rules(), results) is None

    def test_teams_without_a_place_made_it_or_missed_it_too(self):
        listed = ranked([weighed_team(1, "7"), weighed_team(2, "0"), bare_team(3, "no_fish")], **self.CUT)
        assert [(row.result.team.boat, row.made_cut) for row in listed] == [(1, True), (2, True), (3, True)]
        listed = ranked([weighed_team(1, "7"), weighed_team(2, "1"), bare_team(3, "no_fish")], **self.CUT)
        assert [(row.result.team.boat, row.made_cut) for row in listed] == [(1, True), (2, True), (3, False)]

    def test_days_after_it_do_not_count_for_it(self):
        assert self.kept(weighed_team(1, "5", "9"), weighed_team(2, "6"), weighed_team(3, "7")) == {2, 3}

    def test_all_that_are_level_at_the_line_go_on(self):
        results = [
            weighed_team(1, "7"),
            weighed_team(2, "6", big_fish=D(2)),
            weighed_team(3, "6"),
            weighed_team(4, "5"),
        ]
        assert self.kept(*results) == {1, 2, 3}

    def test_fewer_teams_than_it_keeps(self):
        assert self.kept(weighed_team(1, "7"), bare_team(2, "not_weighed")) == {1, 2}

    def test_every_entered_team_has_a_total_and_others_have_none(self):
        results = [weighed_team(1, "7"), bare_team(2, "not_weighed"), bare_team(3, "absent")]
        assert self.kept(*results, cut_keep="1") == {1}
        assert self.kept(*results, cut_keep="2") == {1, 2}
        assert self.kept(bare_team(1, "no_fish"), bare_team(2, "not_weighed"), bare_team(3, "no_fish")) == {1, 2, 3}

    def test_a_withdrawn_team_takes_no_room(self):
        gone = weighed_team(3, "9", status="withdrawn")
        assert self.kept(weighed_team(1, "7"), weighed_team(2, "6"), gone, weighed_team(4, "5")) == {1, 2}

    def test_those_who_missed_it_rank_below_whatever_they_weigh(self):
        listed = ranked(
            [weighed_team(1, "9"), weighed_team(2, "8", "0"), weighed_team(3, "7")],
            (1, 2),
            cut_after_day="1",
            cut_keep="2",
        )
        assert places(listed) == [(1, 1), (2, 2), (3, 3)]
        negative = weighed_team(1, "9", total=D("-1"))
        listed = ranked([negative, weighed_team(2, "8", "1"), weighed_team(3, "7")], (1, 2), **self.CUT)
        assert places(listed) == [(2, 1), (1, 2), (3, 3)]
        assert [row.made_cut for row in listed] == [True, True, False]

    def test_a_missed_team_with_the_same_total_is_not_tied_with_one_that_fished_on(self):
        kept = weighed_team(1, "9", total=D("7"))
        listed = ranked([kept, weighed_team(2, "8"), weighed_team(3, "7")], (1, 2), ties="share", **self.CUT)
        assert places(listed) == [(2, 1), (1, 2), (3, 3)]
        assert not any(row.tied for row in listed)

    def test_those_who_missed_it_go_through_the_ties_among_themselves(self):
        results = [weighed_team(1, "9"), weighed_team(2, "8")]
        results += [weighed_team(3, "7", big_fish=D(1)), weighed_team(4, "7", big_fish=D(2)), weighed_team(5, "7")]
        assert places(ranked(results, (1, 2), **self.CUT)) == [(1, 1), (2, 2), (4, 3), (3, 4), (5, 5)]
        assert places(ranked(results, (1, 2), ties="share", **self.CUT))[2:] == [(3, 3), (4, 3), (5, 3)]
