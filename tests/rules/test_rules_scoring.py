"""One slip, sentence by sentence: what goes on the scale, what comes off, what is left."""

from decimal import Decimal as D
from fractions import Fraction

import pytest

from weighin.rules.faults import Faults
from weighin.rules.scoring import lost_day, minutes_begun, on_scale, removed

from .plain import lines, rules, scored, slip

SECOND = Fraction(1, 60)
WORKED = {"dead_fish_penalty": "0.25, 0.50", "short_fish": "lose_largest"}


def worked(**more):
    return slip(5, 2, short=1, gross="9.47", tare="0.32", largest="1.71,1.66", minutes_late=130 * SECOND, **more)


def test_the_worked_slip_of_common_practice():
    found = scored(worked(), **WORKED)
    assert lines(found) == [("short_fish", 1, "1.71"), ("dead_fish", 2, "0.75"), ("late", 3, "3.00")]
    assert (found.net, found.total, found.on_scale, found.weighed) == (D("9.15"), D("3.69"), 6, 5)
    assert (found.bonus, found.big_fish, found.lost) == (0, None, None)


def test_an_eighth_fish_loses_the_day_of_the_worked_slip():
    eight = slip(6, 2, short=1, gross="9.47", tare="0.32", largest="1.71,1.66", minutes_late=130 * SECOND)
    found = scored(eight, **WORKED)
    assert (found.lost, found.total, found.weighed, found.deductions) == ("over_limit", 0, 0, ())
    assert found.net == D("9.15")


class TestOnTheScale:
    @pytest.mark.parametrize(
        ("alive", "dead", "short", "weighed", "live_only"),
        [
            (7, 0, 0, 7, 7),
            (5, 2, 0, 7, 5),
            (5, 2, 1, 6, 4),
            (5, 2, 5, 2, 0),
            (5, 2, 6, 1, 0),
            (5, 2, 7, 0, 0),
            (0, 3, 1, 2, 0),
            (0, 0, 0, 0, 0),
        ],
    )
    def test_short_fish_never_reach_it_and_live_ones_are_short_first(self, alive, dead, short, weighed, live_only):
        seen = slip(alive, dead, short=short)
        assert on_scale(rules(), seen) == weighed
        assert on_scale(rules(dead_fish="not_weighed"), seen) == live_only
        assert on_scale(rules(dead_fish="both"), seen) == live_only

    def test_with_a_penalty_for_the_limit_at_most_the_limit_is_weighed(self):
        assert on_scale(rules(over_limit="penalty"), slip(10)) == 7
        assert on_scale(rules(over_limit="penalty"), slip(10, short=4)) == 6
        assert on_scale(rules(over_limit="penalty", dead_fish="both"), slip(8, 2)) == 7
        assert on_scale(rules(over_limit="remove_largest"), slip(10)) == 10

    def test_removed_fish_by_rule(self):
        seen = slip(7, 2, short=3)
        assert removed(rules(), seen) == (0, 0)
        assert removed(rules(over_limit="remove_largest"), seen) == (2, 0)
        assert removed(rules(short_fish="lose_largest"), seen) == (0, 3)
        assert removed(rules(over_limit="remove_largest", short_fish="lose_largest"), seen) == (2, 3)
        assert removed(rules(over_limit="penalty"), seen) == (0, 0)


class TestNetWeight:
    def test_a_blank_tare_is_the_rule_sheets(self):
        assert scored(slip(5, gross="9.47"), bag_tare="0.32").net == D("9.15")

    def test_a_tare_on_the_slip_goes_before_it_even_when_it_is_zero(self):
        assert scored(slip(5, gross="9.47", tare="0"), bag_tare="0.32").net == D("9.47")
        assert scored(slip(5, gross="9.47", tare="0.50"), bag_tare="0.32").net == D("8.97")

    def test_nothing_on_the_scale_weighs_nothing(self):
        assert scored(slip(0)).net == 0
        assert scored(slip(0), bag_tare="0.32").net == 0
        assert scored(slip(0, gross="0.32"), bag_tare="0.32").net == 0
        assert scored(slip(0, 3), dead_fish="not_weighed").net == 0

    def test_every_digit_counts(self):
        assert scored(slip(5, gross="9.472913", tare="0.000001")).total == D("9.472912")


class TestOverTheLimit:
    def test_disqualify_day_is_the_default_and_counts_short_and_dead_fish_too(self):
        assert scored(slip(7, gross="9")).lost is None
        assert scored(slip(8, gross="9")).lost == "over_limit"
        assert scored(slip(6, 2, gross="9")).lost == "over_limit"
        assert scored(slip(8, short=1, gross="9")).lost == "over_limit"

    def test_remove_largest_takes_the_first_of_the_largest_weights(self):
        found = scored(slip(9, gross="12", largest="2.0,1.9,1.8"), over_limit="remove_largest")
        assert lines(found) == [("over_limit", 2, "3.9")]
        assert (found.total, found.on_scale, found.weighed) == (D("8.1"), 9, 7)

    def test_penalty_costs_weight_for_each_and_weighs_the_limit(self):
        found = scored(slip(9, gross="12"), over_limit="penalty", over_limit_penalty="0.75")
        assert lines(found) == [("over_limit", 2, "1.50")]
        assert (found.total, found.on_scale, found.weighed) == (D("10.50"), 7, 7)


class TestShortFish:
    def test_penalty_for_each(self):
        found = scored(slip(5, 2, short=2, gross="9"), dead_fish_penalty="0")
        assert lines(found) == [("short_fish", 2, "2.00"), ("dead_fish", 2, "0")]
        assert (found.total, found.on_scale, found.weighed) == (7, 5, 5)

    def test_lose_largest_takes_the_next_after_those_over_the_limit(self):
        found = scored(
            slip(9, short=1, gross="12", largest="2.0,1.9,1.7,1.0"),
            over_limit="remove_largest",
            short_fish="lose_largest",
        )
        assert lines(found) == [("over_limit", 2, "3.9"), ("short_fish", 1, "1.7")]
        assert (found.total, found.on_scale, found.weighed) == (D("6.4"), 8, 5)

    def test_lose_largest_beside_a_penalty_for_the_limit(self):
        found = scored(slip(9, short=1, gross="12", largest="2.0"), over_limit="penalty", short_fish="lose_largest")
        assert lines(found) == [("over_limit", 2, "2.00"), ("short_fish", 1, "2.0")]
        assert (found.total, found.weighed) == (8, 6)

    def test_lose_day(self):
        assert scored(slip(5, short=1, gross="5"), short_fish="lose_day").lost == "short_fish"
        assert scored(slip(5, gross="5"), short_fish="lose_day").lost is None


class TestEverythingRemoved:
    def test_the_whole_net_goes_under_over_limit_and_the_short_line_stays_with_nothing(self):
        """Nine presented, seven short: two on the scale, nine to be removed."""
        found = scored(slip(9, short=7, gross="2.5"), over_limit="remove_largest", short_fish="lose_largest")
        assert lines(found) == [("over_limit", 2, "2.5"), ("short_fish", 7, "0")]
        assert (found.total, found.on_scale, found.weighed) == (0, 2, 0)

    def test_exactly_as_many_removed_as_there_are_needs_no_weights(self):
        found = scored(slip(2, short=1, gross="1.5"), short_fish="lose_largest")
        assert lines(found) == [("short_fish", 1, "1.5")]
        assert (found.total, found.weighed) == (0, 0)

    def test_under_short_fish_when_the_limit_removes_nothing(self):
        found = scored(slip(5, short=3, gross="2.5"), short_fish="lose_largest", over_limit="remove_largest")
        assert lines(found) == [("short_fish", 3, "2.5")]

    def test_largest_weights_that_were_written_anyway_do_not_matter(self):
        found = scored(slip(5, short=3, gross="2.5", largest="1.5"), short_fish="lose_largest")
        assert lines(found) == [("short_fish", 3, "2.5")]

    def test_nothing_on_the_scale_leaves_lines_without_weight(self):
        found = scored(slip(2, short=2), short_fish="lose_largest")
        assert lines(found) == [("short_fish", 2, "0")]

    def test_other_deductions_still_come_off(self):
        found = scored(
            slip(1, 1, short=1, gross="1.5", minutes_late=1), short_fish="lose_largest", negative_totals="keep"
        )
        assert lines(found) == [("short_fish", 1, "1.5"), ("dead_fish", 1, "0.25"), ("late", 1, "1.00")]
        assert found.total == D("-1.25")


class TestDeadFish:
    @pytest.mark.parametrize(
        ("steps", "dead", "amount"),
        [
            ("0.25", 1, "0.25"),
            ("0.25", 4, "1.00"),
            ("0.25, 0.50", 1, "0.25"),
            ("0.25, 0.50", 2, "0.75"),
            ("0.25, 0.50", 4, "1.75"),
            ("0.25, 0.50, 1.00", 2, "0.75"),
            ("0, 0.25", 1, "0"),
            ("0, 0.25", 3, "0.50"),
        ],
    )
    def test_the_steps_are_taken_in_turn_and_the_last_repeats(self, steps, dead, amount):
        found = scored(slip(7 - dead, dead, gross="9"), dead_fish_penalty=steps)
        assert [(line.reason, line.count, line.amount) for line in found.deductions] == [("dead_fish", dead, D(amount))]
        assert found.total == 9 - D(amount)

    def test_dead_short_fish_cost_too(self):
        found = scored(slip(0, 2, short=2), negative_totals="keep", short_fish_penalty="0")
        assert lines(found)[1] == ("dead_fish", 2, "0.50")

    def test_not_weighed_costs_nothing_more(self):
        found = scored(slip(5, 2, gross="7"), dead_fish="not_weighed")
        assert (lines(found), found.on_scale, found.weighed, found.total) == ([], 5, 5, 7)

    def test_both_keeps_them_off_the_scale_and_costs_weight(self):
        found = scored(slip(5, 2, gross="7"), dead_fish="both")
        assert (lines(found), found.on_scale, found.total) == ([("dead_fish", 2, "0.50")], 5, D("6.50"))


class TestLate:
    @pytest.mark.parametrize(
        ("late", "grace", "begun"),
        [
            (0, "0", 0),
            (1 * SECOND, "0", 1),
            (60 * SECOND, "0", 1),
            (61 * SECOND, "0", 2),
            (130 * SECOND, "0", 3),
            (5, "5", 0),
            (300 * SECOND, "5", 0),
            (301 * SECOND, "5", 1),
            (360 * SECOND, "5", 1),
            (361 * SECOND, "5", 2),
            (4, "5", 0),
            (D("2.5"), "2.5", 0),
            (D("2.51"), "2.5", 1),
            (4, "2.5", 2),
        ],
    )
    def test_minutes_begun_after_the_grace(self, late, grace, begun):
        assert minutes_begun(rules(late_grace_minutes=grace), slip(1, gross="1", minutes_late=late)) == begun

    def test_each_costs_weight_and_none_leaves_no_line(self):
        found = scored(slip(5, gross="9", minutes_late=3), late_penalty_per_minute="0.50")
        assert lines(found) == [("late", 3, "1.50")]
        assert lines(scored(slip(5, gross="9", minutes_late=3), late_grace_minutes="3")) == []

    def test_minutes_that_cost_nothing_are_still_named(self):
        found = scored(slip(5, gross="9", minutes_late=3), late_penalty_per_minute="0")
        assert lines(found) == [("late", 3, "0")]

    @pytest.mark.parametrize(
        ("late", "lost"),
        [(15, None), (900 * SECOND, None), (901 * SECOND, "late"), (16, "late"), (Fraction(150001, 10000), "late")],
    )
    def test_the_day_is_lost_past_the_limit_seconds_included_and_not_at_it(self, late, lost):
        assert scored(slip(5, gross="9", minutes_late=late)).lost == lost

    def test_the_grace_does_not_move_that_limit(self):
        assert scored(slip(5, gross="9", minutes_late=16), late_grace_minutes="5").lost == "late"

    def test_none_means_never(self):
        found = scored(
            slip(5, gross="9", minutes_late=600), late_disqualify_after_minutes="none", negative_totals="keep"
        )
        assert (found.lost, found.total) == (None, -591)

    def test_a_limit_of_zero_loses_the_day_by_a_second(self):
        limit = {"late_disqualify_after_minutes": "0"}
        assert scored(slip(5, gross="9"), **limit).lost is None
        assert scored(slip(5, gross="9", minutes_late=SECOND), **limit).lost == "late"


class TestExtra:
    def test_it_comes_last_with_its_text(self):
        found = scored(
            slip(4, 1, gross="9", minutes_late=1, extra_penalty="0.50", extra_penalty_reason="wake in the harbour")
        )
        assert [line.reason for line in found.deductions] == ["dead_fish", "late", "extra"]
        assert (found.deductions[-1].count, found.deductions[-1].amount) == (1, D("0.50"))
        assert found.deductions[-1].text == "wake in the harbour"
        assert found.total == D("7.25")

    def test_a_penalty_of_zero_is_still_a_line(self):
        found = scored(slip(5, gross="9", extra_penalty="0", extra_penalty_reason="warned"))
        assert lines(found) == [("extra", 1, "0")]

    def test_a_reason_without_a_penalty_takes_nothing_and_lists_nothing(self):
        assert lines(scored(slip(5, gross="9", extra_penalty_reason="warned"))) == []


class TestTotal:
    def test_floor_and_keep(self):
        late = slip(5, gross="2", minutes_late=5)
        assert scored(late).total == 0
        assert scored(late, negative_totals="keep").total == -3
        assert scored(slip(5, gross="5", minutes_late=5)).total == 0

    def test_late_and_extra_hold_for_a_slip_with_no_fish_and_so_does_the_floor(self):
        empty = slip(0, minutes_late=2, extra_penalty="0.50", extra_penalty_reason="no life jacket")
        kept = scored(empty, negative_totals="keep")
        assert lines(kept) == [("late", 2, "2.00"), ("extra", 1, "0.50")]
        assert kept.total == D("-2.50")
        floored = scored(empty)
        assert lines(floored) == lines(kept)
        assert floored.total == 0

    @pytest.mark.parametrize(
        ("alive", "dead", "short", "bonus"),
        [(7, 0, 0, "0.70"), (5, 2, 0, "0.50"), (5, 2, 1, "0.40"), (5, 2, 6, "0"), (9, 0, 0, "0.70"), (9, 0, 3, "0.60")],
    )
    def test_the_bonus_is_for_legal_live_fish_up_to_the_limit(self, alive, dead, short, bonus):
        found = scored(
            slip(alive, dead, short=short, gross="9"),
            live_fish_bonus="0.10",
            over_limit="penalty",
            dead_fish_penalty="0",
            short_fish_penalty="0",
            over_limit_penalty="0",
        )
        assert found.bonus == D(bonus)
        assert found.total == 9 + D(bonus)

    def test_the_bonus_counts_before_the_floor(self):
        found = scored(slip(5, gross="1", minutes_late=2), live_fish_bonus="0.10", negative_totals="floor")
        assert (found.bonus, found.total) == (D("0.50"), 0)
        found = scored(slip(5, gross="1.75", minutes_late=2), live_fish_bonus="0.10")
        assert found.total == D("0.25")


class TestLostDay:
    def test_a_ruling_loses_the_day_and_keeps_the_net(self):
        found = scored(
            slip(
                4,
                1,
                gross="9",
                big_fish="2",
                big_fish_alive=True,
                minutes_late=3,
                disqualified_reason="fished closed water",
            ),
            live_fish_bonus="0.10",
        )
        assert found.lost == "ruling"
        assert (found.net, found.total, found.weighed, found.bonus) == (9, 0, 0, 0)
        assert (found.deductions, found.big_fish, found.on_scale) == ((), None, 5)

    def test_negative_totals_kept_do_not_reach_a_lost_day(self):
        assert scored(slip(5, gross="1", minutes_late=16), negative_totals="keep").total == 0

    def test_the_first_reason_in_order_is_named(self):
        book = rules(short_fish="lose_day")
        everything = {"gross": "9", "short": 1, "minutes_late": 16}
        assert lost_day(book, slip(8, **everything, disqualified_reason="ruled")) == "ruling"
        assert lost_day(book, slip(8, **everything)) == "over_limit"
        assert lost_day(book, slip(7, **everything)) == "short_fish"
        assert lost_day(book, slip(7, gross="9", minutes_late=16)) == "late"
        assert lost_day(book, slip(7, gross="9")) is None

    def test_a_lost_day_needs_no_largest_weights(self):
        found = scored(slip(7, short=1, gross="9", minutes_late=16), short_fish="lose_largest")
        assert found.lost == "late"

    def test_a_ruling_holds_without_fish(self):
        assert scored(slip(0, disqualified_reason="left the boundary")).lost == "ruling"


class TestBigFish:
    def test_it_counts_when_given_and_alive(self):
        assert scored(slip(5, gross="9")).big_fish is None
        assert scored(slip(5, gross="9", big_fish="1.92")).big_fish == D("1.92")
        assert scored(slip(4, 1, gross="9", big_fish="1.92", big_fish_alive=True)).big_fish == D("1.92")

    def test_a_dead_one_counts_only_where_the_rules_say_so(self):
        dead = slip(4, 1, gross="9", big_fish="1.92", big_fish_alive=False)
        assert scored(dead).big_fish is None
        assert scored(dead, dead_fish_big_fish="yes").big_fish == D("1.92")
        for rule in ("not_weighed", "both"):
            assert scored(dead, dead_fish_big_fish="yes", dead_fish=rule).big_fish is None

    def test_lateness_takes_from_it_only_where_the_rules_say_so_and_worn_down_it_does_not_count(self):
        late = slip(5, gross="9", big_fish="1.92", minutes_late=61 * SECOND)
        half = {"late_penalty_per_minute": "0.50"}
        assert scored(late, **half).big_fish == D("1.92")
        assert scored(late, **half, late_reduces_big_fish="yes").big_fish == D("0.92")
        assert scored(late, late_reduces_big_fish="yes").big_fish is None
        exactly = slip(5, gross="9", big_fish="2.00", minutes_late=61 * SECOND)
        assert scored(exactly, late_reduces_big_fish="yes").big_fish is None
        assert scored(late, late_reduces_big_fish="yes", late_grace_minutes="2").big_fish == D("1.92")

    def test_it_may_weigh_as_much_as_is_left(self):
        seen = slip(3, short=1, gross="3.7", largest="1.9", big_fish="1.8")
        assert scored(seen, short_fish="lose_largest").big_fish == D("1.8")


def test_an_unsound_slip_is_refused_with_every_fault():
    with pytest.raises(Faults) as refused:
        scored(slip(5, extra_penalty="1"))
    assert [fault.field for fault in refused.value.faults] == ["gross", "extra_penalty"]
