"""What is wrong with a slip: each fault at its field, with a sentence that says what to do."""

from decimal import Decimal as D

import pytest

from weighin.rules.scoring import count_faults, faults
from weighin.rules.slips import Slip

from .plain import rules, slip

LARGEST = {"short_fish": "lose_largest"}


def fields(seen, **written):
    return [fault.field for fault in faults(rules(**written), seen)]


def test_a_sound_slip_has_none():
    assert faults(rules(), slip(5, 2, gross="9.47", tare="0.32", big_fish="1.92", big_fish_alive=True)) == []
    assert faults(rules(), slip(0)) == []


@pytest.mark.parametrize(
    ("seen", "field", "says"),
    [
        (Slip(fish=7, alive=5, dead=1), "fish", "5 alive and 1 dead make 6: count again"),
        (Slip(fish=-1, alive=-1, dead=0), "fish", "negative"),
        (Slip(fish=2, alive=3, dead=-1), "fish", "negative"),
        (Slip(fish=2, alive=2, dead=0, short=-1), "fish", "negative"),
        (Slip(fish=2, alive=2, dead=0, short=3), "short", "3 short fish of 2"),
        (slip(5, gross="0.30", tare="0.32"), "gross", "less than the tare"),
        (slip(0, gross="0.30", tare="0.32"), "gross", "less than the tare"),
        (slip(5), "gross", "5 fish are on the scale, but no weight"),
        (slip(1), "gross", "1 fish is on the scale, but no weight"),
        (slip(0, gross="1"), "gross", "leave the weight empty"),
        (slip(5, gross="5", largest="1,2"), "largest_weights", "not largest first"),
        (slip(5, gross="5", largest="3,2.01"), "largest_weights", "more than the net weight 5"),
        (slip(5, gross="5", big_fish="5.01"), "big_fish", "heavier than the 5 that counts"),
        (slip(0, big_fish="1"), "big_fish", "no fish was presented"),
        (slip(4, 1, gross="5", big_fish="1"), "big_fish_alive", "say whether the big fish was alive"),
        (slip(5, gross="5", big_fish="1", big_fish_alive=False), "big_fish_alive", "no fish is dead"),
        (slip(0, 5, gross="5", big_fish="1", big_fish_alive=True), "big_fish_alive", "no fish is alive"),
        (slip(5, gross="5", big_fish_alive=False), "big_fish_alive", "no fish is dead"),
        (slip(0, 5, gross="5", big_fish_alive=True), "big_fish_alive", "no fish is alive"),
        (slip(5, gross="5", extra_penalty="1"), "extra_penalty", "needs a reason"),
        (slip(5, gross="5", extra_penalty="1", extra_penalty_reason="  "), "extra_penalty", "needs a reason"),
        (slip(5, gross="5", extra_penalty="0"), "extra_penalty", "needs a reason"),
    ],
)
def test_each_fault_stands_at_its_field_and_says_what_to_do(seen, field, says):
    (fault,) = faults(rules(), seen)
    assert fault.field == field
    assert says in fault.message


def test_counts_are_checked_without_rules_and_before_anything_else():
    wrong = Slip(fish=7, alive=5, dead=1, short=9)
    assert [fault.field for fault in count_faults(wrong)] == ["fish", "short"]
    assert count_faults(wrong)[0].also == ("alive", "dead")
    assert fields(wrong) == ["fish", "short"]


class TestGross:
    def test_it_may_be_missing_where_nothing_goes_on_the_scale(self):
        assert fields(slip(0, 3), dead_fish="not_weighed") == []
        assert fields(slip(3, short=3)) == []

    def test_it_may_be_the_tare_there(self):
        assert fields(slip(3, short=3, gross="0.32", tare="0.32")) == []
        assert fields(slip(3, short=3, gross="0.32"), bag_tare="0.32") == []
        assert fields(slip(3, short=3, gross="0.33"), bag_tare="0.32") == ["gross"]

    def test_it_may_equal_the_tare_with_fish_too(self):
        assert fields(slip(3, gross="0.32", tare="0.32")) == []

    def test_the_rule_sheets_tare_is_held_against_it(self):
        assert fields(slip(3, gross="0.30"), bag_tare="0.32") == ["gross"]


class TestLargestWeights:
    def test_as_many_as_the_rules_take_away(self):
        assert fields(slip(5, short=2, gross="5", largest="1.5"), **LARGEST) == ["largest_weights"]
        assert fields(slip(5, short=2, gross="5", largest="1.5,1.4"), **LARGEST) == []
        assert fields(slip(5, short=2, gross="5", largest="1.5,1.4,1.3"), **LARGEST) == []

    def test_the_sentence_says_how_many(self):
        (one,) = faults(rules(**LARGEST), slip(5, short=1, gross="5"))
        assert "take away the 1 largest fish: write its weight" in one.message
        (two,) = faults(rules(**LARGEST), slip(5, short=2, gross="5"))
        assert "take away the 2 largest fish: write their weights" in two.message

    def test_none_where_everything_goes(self):
        assert fields(slip(4, short=2, gross="5"), **LARGEST) == []
        assert fields(slip(5, short=2, gross="5"), **LARGEST) == ["largest_weights"]

    def test_equal_weights_are_in_order(self):
        assert fields(slip(5, gross="5", largest="1.5,1.5")) == []

    def test_they_may_add_up_to_all_there_is(self):
        assert fields(slip(2, gross="3", largest="1.5,1.5")) == []


class TestBigFish:
    def test_no_more_than_is_left_after_the_removed_fish(self):
        seen = {"short": 1, "gross": "3.7", "largest": "1.9"}
        assert fields(slip(3, **seen, big_fish="1.8"), **LARGEST) == []
        assert fields(slip(3, **seen, big_fish="1.81"), **LARGEST) == ["big_fish"]

    def test_nothing_is_left_where_everything_goes(self):
        assert fields(slip(2, short=1, gross="1.5", big_fish="1.5"), **LARGEST) == ["big_fish"]
        assert fields(slip(2, short=1, gross="1.5", big_fish="0"), **LARGEST) == []

    def test_a_lost_day_removes_nothing(self):
        assert fields(slip(2, short=1, gross="1.5", big_fish="1.5", minutes_late=16), **LARGEST) == []

    def test_it_is_checked_against_the_net(self):
        assert fields(slip(3, gross="3.00", tare="0.32", big_fish="2.68")) == []
        assert fields(slip(3, gross="3.00", tare="0.32", big_fish="2.69")) == ["big_fish"]


def test_several_faults_are_told_at_once():
    seen = Slip(fish=5, alive=5, dead=0, gross=D(5), largest_weights=(D(1), D(2)), extra_penalty=D(1))
    assert fields(seen) == ["largest_weights", "extra_penalty"]
