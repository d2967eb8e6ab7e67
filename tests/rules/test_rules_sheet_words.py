"""The rule sheet in words: every key is in them, or makes no difference under the others."""

import re

import pytest

from weighin.rules.keys import KEYS
from weighin.rules.words import sheet_in_words

from .key_texts import READ
from .plain import rules

# What must be written for a key to matter.
MATTERS_UNDER = {
    "over_limit_penalty": {"over_limit": "penalty"},
    "cut_after_day": {"cut_keep": "5"},
    "cut_keep": {"cut_after_day": "1", "cut_keep": "5"},
    "big_fish_shares": {"big_fish_pot_fee": "10"},
}
# A key, and rules under which it makes no difference.
MAKES_NO_DIFFERENCE = [
    ("dead_fish_penalty", {"dead_fish": "not_weighed"}),
    ("dead_fish_big_fish", {"dead_fish": "not_weighed"}),
    ("dead_fish_big_fish", {"dead_fish": "both"}),
    ("short_fish_penalty", {"short_fish": "lose_largest"}),
    ("short_fish_penalty", {"short_fish": "lose_day"}),
    ("over_limit_penalty", {"over_limit": "disqualify_day"}),
    ("over_limit_penalty", {"over_limit": "remove_largest"}),
    ("late_grace_minutes", {"late_penalty_per_minute": "0"}),
    ("late_reduces_big_fish", {"late_penalty_per_minute": "0"}),
    ("cut_keep", {}),
    ("big_fish_shares", {}),
    ("points_first", {"points_table": "60, 59"}),
]


def words(**written):
    return [sentence for _, sentences in sheet_in_words(rules(**written)) for sentence in sentences]


def sheet(unit="lb", **written):
    return dict(sheet_in_words(rules(unit, **written)))


@pytest.mark.parametrize("key", [key.name for key in KEYS])
def test_every_value_of_a_key_reads_differently(key):
    under = MATTERS_UNDER.get(key, {})
    texts = [*(text for text, _ in READ.get(key, [("1", 1), ("2", 2)])), under.get(key, "")]
    values = {repr(getattr(rules(**{**under, key: text}), key)) for text in texts}
    assert len(values) > 1
    assert len({repr(words(**{**under, key: text})) for text in texts}) == len(values)


@pytest.mark.parametrize(("key", "under"), MAKES_NO_DIFFERENCE)
def test_a_key_that_makes_no_difference_is_not_in_the_words(key, under):
    """That it makes no difference to any score is held by the properties."""
    texts = [text for text, _ in READ[key]]
    assert {repr(words(**under, **{key: text})) for text in texts} == {repr(words(**under))}


def test_the_sections_are_those_of_the_keys_in_their_order():
    assert [section for section, _ in sheet_in_words(rules())] == list(dict.fromkeys(key.section for key in KEYS))


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_every_sentence_is_plain(unit):
    for _, sentences in sheet_in_words(rules(unit)):
        assert sentences
        for sentence in sentences:
            assert re.fullmatch(r"[A-Z0-9].*\.", sentence), sentence
            assert not re.search(r"[<>&_]|None|Decimal|\bTrue\b|\bFalse\b", sentence), sentence
            assert "  " not in sentence


def test_the_unit_is_said_and_used():
    assert sheet()["Fish"][0] == "Weights are in pounds."
    assert sheet("lb-oz")["Fish"][0] == "Weights are in pounds and ounces: 9-07.5 is 9 lb 7.5 oz."
    assert sheet("kg")["Fish"][0] == "Weights are in kilograms."
    assert sheet("lb-oz")["Short fish"] == ["Short fish are not weighed, and each costs 1-00 lb-oz."]
    assert sheet("kg")["Dead fish"][1] == "Each dead fish, short or not, costs 0.100 kg."


def test_one_fish_one_minute_one_team_are_singular():
    text = " ".join(words(fish_limit="1", boat_limit="1", late_grace_minutes="1", cut_after_day="1", cut_keep="1"))
    text += " ".join(words(places_paid="1", count_best="1", points_no_fish="1", late_disqualify_after_minutes="1"))
    for wrong in ("1 fishes", "1 minutes", "1 teams", "1 places", "1 events", "1 points"):
        assert wrong not in text
    assert "1 place is paid" in text


def test_dead_fish_by_steps():
    assert sheet(dead_fish_penalty="0, 0.25")["Dead fish"][1] == (
        "Dead fish, short or not, cost by their number in the day: "
        "the 1st nothing, the 2nd and each further one 0.25 lb."
    )
    many = sheet(dead_fish_penalty=", ".join(str(n) for n in range(1, 23)))["Dead fish"][1]
    for ordinal in ("1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd"):
        assert f"the {ordinal} " in many


def test_late_in_words():
    assert sheet()["Late"] == [
        "Each minute begun past the due time costs 1.00 lb; the big fish keeps its weight.",
        "A team more than 15 minutes past its due time, seconds included, loses the day.",
        "Minutes a team is excused for do not count.",
    ]
    graced = sheet(late_grace_minutes="5", late_reduces_big_fish="yes", late_disqualify_after_minutes="none")["Late"]
    assert graced[:2] == [
        "Each minute begun after 5 minutes of grace costs 1.00 lb; the big fish loses as much.",
        "However late a team comes in, it keeps its day.",
    ]


def test_ties_in_words():
    totals = sheet(ties="fewest_deductions, lot, share")["Totals and ties"]
    assert (
        "Equal totals are separated by less weight taken off, then by lot, the lower number first; "
        "what is still equal shares the place and the prizes."
    ) in totals
    assert "Equal totals share the place and the prizes." in sheet(ties="share")["Totals and ties"]


def test_a_list_of_ties_reads_the_same_with_and_without_share_at_its_end():
    assert words(ties="big_fish, share") == words(ties="big_fish")


def test_money_in_words():
    money = sheet(places_paid="6", place_shares="40, 30", payback_percent="80", rounding="5")["Money"]
    assert money[:4] == [
        "80 % of the paid entry fees goes into the purse, and all added money.",
        "6 places are paid, at most 2.",
        "The shares of the purse, from first place on: 40, 30.",
        "Each prize is rounded down to 5.00; what is left goes to first place.",
    ]
    assert money[-1] == "There is no big fish pot."
    assert sheet(big_fish_pot_fee="7.77")["Money"][-2:] == [
        "The big fish pot costs a team 7.77 and is paid out whole.",
        "The largest big fish of the ranked teams in it wins it.",
    ]


def test_points_in_words():
    assert sheet(points_table="60, 59", points_step="2", points_floor="5")["Points"][0] == (
        "The points of the places, from first on: 60, 59; each further place 2 fewer; "
        "a ranked team never gets fewer than 5."
    )
    assert "An absent, disqualified or withdrawn team gets 0 points." in sheet()["Points"]
    assert "each further place as many" in sheet(points_step="0")["Points"][0]
