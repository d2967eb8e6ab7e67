"""Deductions, statuses, lost days and ties in words."""

from decimal import Decimal as D

import pytest

from weighin.rules.results import ROSTER_STATUSES, STATUSES
from weighin.rules.scoring import LOST_REASONS, Deduction
from weighin.rules.sheet.keys import TIES
from weighin.rules.words.scores import explain, lost_in_words, status_in_words, tie_in_words

from ..plain import rules, scored, slip


def line(reason, count, amount, unit="lb", text="", **written):
    return explain(Deduction(reason, count, D(amount), text), rules(unit, **written))


class TestOneDeduction:
    @pytest.mark.parametrize(
        ("count", "amount", "steps", "words"),
        [
            (1, "0.25", "0.25", "1 dead fish, 0.25 lb each"),
            (3, "0.75", "0.25", "3 dead fish, 0.25 lb each"),
            (1, "0.25", "0.25, 0.50", "1 dead fish, 0.25 lb each"),
            (2, "0.75", "0.25, 0.50", "2 dead fish: 0.25, then 0.50 lb"),
            (3, "1.25", "0.25, 0.50", "3 dead fish: 0.25, then 0.50 lb each"),
            (3, "1.75", "0.25, 0.50, 1.00", "3 dead fish: 0.25, 0.50, then 1.00 lb"),
            (2, "0.50", "0.25, 0.25, 0.25", "2 dead fish, 0.25 lb each"),
            (1, "0", "0, 0.25", "1 dead fish, no penalty"),
            (2, "0.25", "0, 0.25", "2 dead fish: 0.00, then 0.25 lb"),
            (2, "0", "0", "2 dead fish, no penalty"),
        ],
    )
    def test_dead_fish_name_their_steps(self, count, amount, steps, words):
        assert line("dead_fish", count, amount, dead_fish_penalty=steps) == words

    def test_late_minutes(self):
        assert line("late", 3, "3.00") == "3 minutes late, 1.00 lb each"
        assert line("late", 1, "0.50", late_penalty_per_minute="0.50") == "1 minute late, 0.50 lb each"
        grace = line("late", 2, "2.00", late_grace_minutes="5")
        assert grace == "2 minutes late after 5 minutes of grace, 1.00 lb each"
        assert line("late", 2, "2.00", late_grace_minutes="1") == "2 minutes late after 1 minute of grace, 1.00 lb each"
        assert line("late", 2, "0", late_penalty_per_minute="0") == "2 minutes late, no penalty"

    def test_over_the_limit(self):
        largest = {"over_limit": "remove_largest"}
        assert line("over_limit", 1, "1.9", **largest) == "1 over the limit: the largest fish removed"
        assert line("over_limit", 2, "3.9", **largest) == "2 over the limit: the 2 largest fish removed"
        assert line("over_limit", 2, "2.00", over_limit="penalty") == "2 over the limit, 1.00 lb each"

    def test_short_fish(self):
        largest = {"short_fish": "lose_largest"}
        assert line("short_fish", 1, "1.7", **largest) == "1 short fish: the largest fish left removed"
        assert line("short_fish", 2, "3.3", **largest) == "2 short fish: the 2 largest fish left removed"
        assert line("short_fish", 2, "0", **largest) == "2 short fish: nothing left on the scale to remove"
        assert line("short_fish", 2, "2.00") == "2 short fish, 1.00 lb each"
        assert line("short_fish", 2, "0", short_fish_penalty="0") == "2 short fish, no penalty"

    def test_an_extra_penalty_gives_the_officials_reason(self):
        assert line("extra", 1, "0.50", text="wake in the harbour") == "extra penalty: wake in the harbour"

    def test_weights_in_the_events_unit(self):
        assert line("dead_fish", 1, "0.25", "lb-oz") == "1 dead fish, 4 oz each"
        assert line("dead_fish", 1, "0.1", "kg") == "1 dead fish, 0.100 kg each"


class TestWholeScore:
    def test_a_line_for_each_deduction_in_their_order(self):
        seen = slip(5, 2, short=1, gross="9.47", tare="0.32", largest="1.71,1.66", minutes_late=3)
        written = {"dead_fish_penalty": "0.25, 0.50", "short_fish": "lose_largest"}
        assert explain(scored(seen, **written), rules(**written)).splitlines() == [
            "1 short fish: the largest fish left removed",
            "2 dead fish: 0.25, then 0.50 lb",
            "3 minutes late, 1.00 lb each",
        ]

    def test_everything_removed_is_said_with_how_many_there_were(self):
        """One over the limit and two short, three left on the scale: all three go, under over_limit."""
        written = {"over_limit": "remove_largest", "short_fish": "lose_largest", "fish_limit": "4"}
        found = scored(slip(5, short=2, gross="3"), **written)
        assert [(item.count, item.amount) for item in found.deductions] == [(1, 3), (2, 0)]
        assert explain(found, rules(**written)).splitlines() == [
            "1 over the limit: all 3 on the scale removed",
            "2 short fish: nothing left on the scale to remove",
        ]
        assert explain(found.deductions[0], rules(**written), found) == "1 over the limit: all 3 on the scale removed"

    def test_a_score_without_deductions_needs_no_words(self):
        assert explain(scored(slip(5, gross="5")), rules()) == ""

    def test_a_lost_day_gives_its_reason(self):
        assert explain(scored(slip(8, gross="9")), rules()) == "day lost for fish over the limit"


class TestFixedWords:
    def test_every_status_of_the_list_and_of_the_roster_has_words(self):
        found = [status_in_words(status) for status in STATUSES]
        assert found == ["ranked", "in question", "no fish", "not weighed", "absent", "disqualified", "withdrawn"]
        assert all(status_in_words(status) for status in ROSTER_STATUSES)

    def test_every_reason_of_a_lost_day_has_words(self):
        found = [lost_in_words(reason) for reason in LOST_REASONS]
        assert all(words.startswith("day lost ") for words in found)
        assert len(set(found)) == len(LOST_REASONS)

    def test_every_tie_breaker_says_which_way_it_went(self):
        found = [tie_in_words(key, ahead) for key in TIES if key != "share" for ahead in (True, False)]
        assert len(set(found)) == len(found)
        assert all(words.startswith("ahead by ") for words in found[::2])
        assert all(words.startswith("behind by ") for words in found[1::2])
        assert tie_in_words("big_fish", True) == "ahead by the larger big fish"

    @pytest.mark.parametrize(
        "ask", [lambda: status_in_words("lost"), lambda: lost_in_words("rain"), lambda: tie_in_words("share", True)]
    )
    def test_an_unknown_word_is_an_error(self, ask):
        with pytest.raises(KeyError):
            ask()
