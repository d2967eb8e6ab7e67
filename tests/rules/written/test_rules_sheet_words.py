"""The rule sheet in words: every key is in them, or makes no difference under the others."""

import re

import pytest
from django.utils.translation import gettext, ngettext

from weighin.rules import language
from weighin.rules.sheet.keys import KEYS
from weighin.rules.words.sheet import sheet_in_words

from ..key_texts import READ
from ..plain import rules

# What must be written for a key to matter.
MATTERS_UNDER = {
    "over_limit_penalty": {"over_limit": "penalty"},
    "cut_after_day": {"cut_keep": "5", "cut_after_day": "3"},
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


def test_the_sheet_of_the_defaults_word_for_word():
    assert sheet() == {
        "Fish": [
            "Weights are in pounds.",
            "The fish that count: crappie.",
            "A team may present at most 7 fish a day. "
            "Everything laid on the table counts toward that, short and dead fish too.",
            "Where a slip gives no tare, the empty bag weighs nothing.",
            "No limit is set for the fish kept on board.",
            "No minimum length is set.",
        ],
        "Dead fish": [
            "Dead fish are weighed.",
            "Each dead fish, short or not, costs 0.25 lb.",
            "A dead fish cannot be the big fish.",
            "A fish that dies after the table costs nothing; it counts among the dead of the event.",
        ],
        "Short fish": ["Short fish are not weighed, and each costs 1.00 lb."],
        "Over the limit": ["A fish over the limit loses the day."],
        "Late": [
            "Each minute begun past the due time costs 1.00 lb; the big fish keeps its weight.",
            "A team more than 15 minutes past its due time, seconds included, loses the day.",
            "Minutes a team is excused for do not count.",
        ],
        "Totals and ties": [
            "Live fish add no bonus.",
            "A day’s total is never below 0.",
            "A lost day counts 0; its fish still count in fish care and among the dead of the event.",
            "Equal totals are separated by the larger big fish, then by more live fish on days not lost; "
            "what is still equal shares the place and the prizes.",
            "Every team may fish every day: there is no cut.",
        ],
        "Money": [
            "100 % of the paid entry fees goes into the purse, and all added money.",
            "One place is paid for every 5 paid entries, at least one.",
            "Paid places share n : n − 1 : ... : 1, such as 5 : 4 : 3 : 2 : 1 with five places paid.",
            "Each prize is rounded down to 1.00; what is left goes to first place.",
            "Teams that tie split the prizes of the places they cover.",
            "A team that has not paid keeps its place; its prize passes to the next that has.",
            "There is no big fish pot.",
        ],
        "Points": [
            "First place gets 100 points, each further place 1 fewer; a ranked team never gets fewer than 0.",
            "A team that presented no fish gets 0 points.",
            "A team that never came to the table gets 0 points.",
            "An absent, disqualified or withdrawn team gets 0 points.",
            "Nothing is added for weight or for the big fish.",
            "All events of the season count.",
            "Equal points over the season are separated by the larger big fish; what is still equal shares the place.",
        ],
        "Fish care": [
            "Fish care is checked and costs no weight.",
            "With the lake at 75 °F or warmer, a livewell has ice.",
            "A livewell is at most 7 °F cooler than the lake.",
            "A livewell has at least 5 mg/L of dissolved oxygen.",
            "Fish are at most 10 minutes in the bag.",
            "No limit is set for the time from first fish to release.",
            "When 10 % of the fish are dead, the director decides whether to go on.",
        ],
    }


# The sentence of a key when it says something else than its default.
SENTENCES = [
    ("Fish", {"bag_tare": "0.32"}, "Where a slip gives no tare, the empty bag weighs 0.32 lb."),
    (
        "Fish",
        {"boat_limit": "30"},
        "At most 30 fish may be kept on board at once; fish care checks it, it costs no weight.",
    ),
    ("Fish", {"minimum_length_in": "10.5"}, "A fish under 10.5 in, mouth closed and flat on the board, is short."),
    ("Dead fish", {"dead_fish": "not_weighed"}, "Dead fish are not weighed."),
    ("Dead fish", {"dead_fish": "both"}, "Each dead fish, short or not, costs 0.25 lb."),
    ("Dead fish", {"dead_fish_big_fish": "yes"}, "A dead fish may be the big fish."),
    (
        "Short fish",
        {"short_fish": "lose_largest"},
        "Short fish are not weighed, and each also takes away the largest fish still on the scale.",
    ),
    ("Short fish", {"short_fish": "lose_day"}, "A short fish on the table loses the day."),
    (
        "Over the limit",
        {"over_limit": "remove_largest"},
        "Each fish over the limit takes away the largest fish still on the scale.",
    ),
    (
        "Over the limit",
        {"over_limit": "penalty"},
        "The smallest come off until no more than 7 fish are weighed, and each fish over the limit costs 1.00 lb.",
    ),
    ("Late", {"late_penalty_per_minute": "0"}, "Coming in late costs no weight."),
    ("Totals and ties", {"live_fish_bonus": "0.10"}, "Each legal live fish adds 0.10 lb, for up to 7 fish."),
    ("Totals and ties", {"negative_totals": "keep"}, "A day’s total may be below 0 and counts as it is."),
    (
        "Totals and ties",
        {"cut_after_day": "1", "cut_keep": "10"},
        "After day 1 the best 10 teams and all that are level with the last of them fish on; the others rank below them.",
    ),
    ("Money", {"places_paid": "1"}, "1 place is paid."),
    ("Money", {"places_paid": "1 per 1"}, "One place is paid for every 1 paid entry, at least one."),
    (
        "Money",
        {"big_fish_pot_fee": "10", "big_fish_shares": "60, 40"},
        "Its shares, from the largest big fish on, one a team: 60, 40.",
    ),
    (
        "Points",
        {"points_no_fish": "last"},
        "A team that presented no fish gets the fewest a ranked team got before additions.",
    ),
    ("Points", {"points_not_weighed": "1"}, "A team that never came to the table gets 1 point."),
    (
        "Points",
        {"points_absent_below_last": "5"},
        "An absent team gets 5 fewer than the fewest a ranked team got before additions, never below 0; "
        "a disqualified or withdrawn team gets 0 points.",
    ),
    ("Points", {"points_per_pound": "1"}, "Each whole pound of a ranked team’s total adds 1 point."),
    ("Points", {"points_big_fish": "3"}, "The largest big fish of the ranked teams adds 3 points."),
    (
        "Points",
        {"count_best": "8"},
        "A team’s best 8 events of the season count; one it was disqualified in is among them and cannot be dropped.",
    ),
    (
        "Fish care",
        {"deep_fish_kept_ft": "25"},
        "Fish from 25 ft or deeper are kept where the law allows it, not released.",
    ),
    (
        "Fish care",
        {"measured_lengths_above": "85"},
        "With the lake at 85 °F or warmer, fish are measured and released at once.",
    ),
    ("Fish care", {"care_max_held_minutes": "420"}, "From first fish to release pass at most 420 minutes."),
]


@pytest.mark.parametrize(("section", "written", "sentence"), SENTENCES)
def test_a_key_has_its_sentence_and_only_then(section, written, sentence):
    assert sentence in sheet(**written)[section]
    assert (sentence in sheet()[section]) == (written == {"dead_fish": "both"})


def test_an_addition_takes_the_place_of_the_sentence_that_there_is_none():
    nothing = "Nothing is added for weight or for the big fish."
    for added in ({"points_per_pound": "1"}, {"points_big_fish": "1"}):
        assert nothing not in sheet(**added)["Points"]


def test_the_unit_is_said_and_used():
    assert sheet()["Fish"][0] == "Weights are in pounds."
    assert sheet("lb-oz")["Fish"][0] == "Weights are in pounds and ounces: 9-07.5 is 9 lb 7.5 oz."
    assert sheet("kg")["Fish"][0] == "Weights are in kilograms."
    assert sheet("lb-oz")["Short fish"] == ["Short fish are not weighed, and each costs 1 lb 0 oz."]
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
    assert sheet(dead_fish_penalty="0.25, 0.50, 0.50, 0.50")["Dead fish"][1].endswith(
        "the 1st 0.25 lb, the 2nd and each further one 0.50 lb."
    )
    many = sheet(dead_fish_penalty=", ".join(str(n) for n in range(1, 23)))["Dead fish"][1]
    for ordinal in ("1st", "2nd", "3rd", "4th", "10th", "11th", "12th", "13th", "20th", "21st", "22nd"):
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
        "Equal totals are separated by smaller penalties, then by lot, the lower number first; "
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
        "Paid places share 40 : 30.",
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


@pytest.fixture
def marked():
    """Every text that goes through the catalogue comes out between two marks."""
    language.speak(lambda text: f"⟦{text}⟧", lambda one, many, number: f"⟦{one if number == 1 else many}⟧")
    yield
    language.speak(gettext, ngettext)


@pytest.mark.parametrize("written", [{}, *MATTERS_UNDER.values(), *(under for _, under in MAKES_NO_DIFFERENCE)])
def test_every_sentence_can_be_translated(marked: None, written: dict[str, str]):
    for section, sentences in sheet_in_words(rules(**written)):
        for said in [section, *sentences]:
            assert said.startswith("⟦") and said.endswith("⟧"), said
