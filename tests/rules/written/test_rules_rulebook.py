"""The rule sheet: every key with its default, read back from what it writes, refused with its own message."""

import dataclasses
from decimal import Decimal as D

import pytest

from weighin.rules import rulebook
from weighin.rules.faults import Faults, Sentence
from weighin.rules.rulebook import PlacesPaid, Rulebook
from weighin.rules.sheet.keys import BY_NAME, KEYS, default_of

from ..key_texts import READ
from ..plain import rules

# The defaults of the workbook contract, in pounds; kilograms differ where a pair stands.
DEFAULTS = {
    "species": "crappie",
    "fish_limit": 7,
    "bag_tare": D(0),
    "boat_limit": None,
    "minimum_length_in": None,
    "dead_fish": "penalty",
    "dead_fish_penalty": ((D("0.25"),), (D("0.1"),)),
    "dead_fish_big_fish": False,
    "short_fish": "penalty",
    "short_fish_penalty": (D("1.00"), D("0.5")),
    "over_limit": "disqualify_day",
    "over_limit_penalty": (D("1.00"), D("0.5")),
    "late_penalty_per_minute": (D("1.00"), D("0.5")),
    "late_grace_minutes": D(0),
    "late_disqualify_after_minutes": D(15),
    "late_reduces_big_fish": False,
    "live_fish_bonus": D(0),
    "negative_totals": "floor",
    "ties": ["big_fish", "live_fish", "share"],
    "cut_after_day": None,
    "cut_keep": None,
    "places_paid": PlacesPaid(one_per=5),
    "payback_percent": D(100),
    "place_shares": None,
    "rounding": D("1.00"),
    "big_fish_pot_fee": D(0),
    "big_fish_shares": [D(100)],
    "points_table": None,
    "points_first": D(100),
    "points_step": D(1),
    "points_floor": D(0),
    "points_no_fish": D(0),
    "points_not_weighed": D(0),
    "points_absent_below_last": None,
    "points_per_pound": D(0),
    "points_big_fish": D(0),
    "count_best": None,
    "season_ties": ["big_fish", "share"],
    "care_warm_f": D(75),
    "care_max_cooling_f": D(7),
    "care_min_do": D("5.0"),
    "care_max_bag_minutes": D(10),
    "care_max_held_minutes": None,
    "care_stop_percent": D(10),
    "deep_fish_kept_ft": None,
    "measured_lengths_above": None,
}

# key -> texts that are refused, each with part of what the refusal says.
REFUSED = {
    "species": [("x" * 81, "write 80 or fewer")],
    "fish_limit": [
        ("0", "write 1 or more"),
        ("7.5", "whole number"),
        ("seven", "whole number"),
        ("none", "fish_limit cannot be none"),
        ("5, 7", "takes one value"),
    ],
    "bag_tare": [("0,32", "takes one value"), ("-0.32", "negative"), ("0-05", "pounds and ounces"), ("1000", "999")],
    "boat_limit": [("0", "write 1 or more"), ("many", "whole number")],
    "minimum_length_in": [("-1", "write 0 or more"), ("ten", "not a number"), ("9, 10", "takes one value")],
    "dead_fish": [("free", "penalty, not_weighed, both"), ("penalty, both", "takes one value"), ("none", "choices")],
    "dead_fish_penalty": [("0.25,", "empty place"), ("0.25, -1", "negative"), ("none", "not a weight")],
    "dead_fish_big_fish": [("maybe", "neither yes nor no")],
    "short_fish": [("lose_all", "penalty, lose_largest, lose_day")],
    "short_fish_penalty": [("1.00, 2.00", "takes one value"), ("one", "not a weight")],
    "over_limit": [("none", "disqualify_day, remove_largest, penalty")],
    "over_limit_penalty": [("0.5 kg", "in kg")],
    "late_penalty_per_minute": [("1.00, 2.00", "takes one value")],
    "late_grace_minutes": [("-1", "write 0 or more"), ("none", "cannot be none")],
    "late_disqualify_after_minutes": [("-1", "write 0 or more"), ("never", "not a number")],
    "late_reduces_big_fish": [("2", "neither yes nor no")],
    "live_fish_bonus": [("-0.1", "negative")],
    "negative_totals": [("zero", "floor, keep")],
    "ties": [
        ("heaviest", "big_fish, live_fish, fish_count"),
        ("share, lot", "share ends the list"),
        ("share, share", "share ends the list"),
        ("big_fish,", "empty place"),
    ],
    "cut_after_day": [("1", "needs cut_keep"), ("0", "write 1 or more")],
    "cut_keep": [("0", "write 1 or more"), ("10", "needs cut_after_day")],
    "places_paid": [
        ("1 per 0", "write 1 or more"),
        ("0", "not a number of places"),
        ("2 per 5", "not a number of places"),
        ("all", "not a number of places"),
        ("1 per five", "whole number"),
        ("3, 4", "not a number of places"),
    ],
    "payback_percent": [("101", "write 100 or less"), ("-1", "write 0 or more"), ("80, 90", "takes one value")],
    "place_shares": [("0, 0", "all zero"), ("40, -1", "write 0 or more"), ("40,,30", "empty place")],
    "rounding": [("0", "more than 0"), ("0.001", "parts of a cent")],
    "big_fish_pot_fee": [("-10", "write 0 or more"), ("0.005", "parts of a cent"), ("10, 20", "takes one value")],
    "big_fish_shares": [("0", "all zero"), ("none", "big_fish_shares cannot be none")],
    "points_table": [("200; 195", "not a number"), ("-1", "write 0 or more")],
    "points_first": [("first", "not a number"), ("none", "cannot be none"), ("-1", "write 0 or more")],
    "points_step": [("-1", "write 0 or more")],
    "points_floor": [("-1", "write 0 or more")],
    "points_no_fish": [("first", "not a number"), ("-1", "write 0 or more"), ("1, 2", "takes one value")],
    "points_not_weighed": [("last", "not a number")],
    "points_absent_below_last": [("last", "not a number")],
    "points_per_pound": [("-1", "write 0 or more")],
    "points_big_fish": [("-1", "write 0 or more")],
    "count_best": [("0", "write 1 or more"), ("2.5", "whole number")],
    "season_ties": [("lot", "big_fish, total_weight, share"), ("share, big_fish", "share ends the list")],
    "care_warm_f": [("warm", "not a number")],
    "care_max_cooling_f": [("-7", "write 0 or more")],
    "care_min_do": [("5,0", "takes one value")],
    "care_max_bag_minutes": [("none", "cannot be none")],
    "care_max_held_minutes": [("long", "not a number")],
    "care_stop_percent": [("101", "write 100 or less")],
    "deep_fish_kept_ft": [("deep", "not a number")],
    "measured_lengths_above": [("85 F", "not a number")],
}


def each(table):
    return [(key, *case) for key, cases in table.items() for case in cases]


def by_unit(default, unit):
    """The kilogram default where a pair of (pounds, kilograms) stands; lists are written as lists above."""
    if isinstance(default, tuple):
        default = default[unit == "kg"]
    return tuple(default) if isinstance(default, list) else default


def test_these_tests_name_every_key():
    names = [key.name for key in KEYS]
    assert list(DEFAULTS) == names
    assert [*names] == [name for name in names if name in REFUSED]
    assert set(names) - set(READ) == {"cut_after_day", "cut_keep"}, "read together below"
    assert {field.name for field in dataclasses.fields(Rulebook)} == {*names, "unit"}


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_every_key_has_the_default_of_the_workbook_contract(unit):
    found = rulebook.defaults(unit)
    assert found.unit == unit
    for name, default in DEFAULTS.items():
        assert getattr(found, name) == by_unit(default, unit), name


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_empty_text_means_the_default(unit):
    assert rulebook.read({key.name: "  " for key in KEYS}, unit) == rulebook.defaults(unit)


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_the_default_of_every_key_is_a_text_that_reads_as_it(unit):
    written = {key.name: default_of(key, unit) for key in KEYS}
    assert rulebook.read(written, unit) == rulebook.defaults(unit)


@pytest.mark.parametrize(("key", "text", "value"), each(READ))
def test_a_key_is_read_and_reads_back_from_what_it_writes(key, text, value):
    found = rules(**{key: text})
    assert getattr(found, key) == value
    written = found.written()
    assert list(written) == [k.name for k in KEYS]
    assert rulebook.read(written, "lb") == found
    others = {name: value for name, value in found.__dict__.items() if name != key}
    assert others == {name: value for name, value in rulebook.defaults("lb").__dict__.items() if name != key}


def test_a_cut_is_read_with_the_teams_it_keeps():
    found = rules(cut_after_day="2", cut_keep="10")
    assert (found.cut_after_day, found.cut_keep) == (2, 10)
    assert rulebook.read(found.written(), "lb") == found


@pytest.mark.parametrize(("key", "text", "says"), each(REFUSED))
def test_a_wrong_value_is_refused_at_its_key(key, text, says):
    with pytest.raises(Faults) as refused:
        rules(**{key: text})
    (fault,) = refused.value.faults
    assert fault.field == key
    assert says in fault.message


def test_all_wrong_keys_are_named_at_once():
    with pytest.raises(Faults) as refused:
        rules(fish_limit="many", ties="", tise="share", rounding="x")
    assert {fault.field for fault in refused.value.faults} == {"fish_limit", "tise", "rounding"}
    assert "'tise' is not a key of the rule sheet" in str(refused.value)


def test_all_contradictions_are_named_at_once():
    with pytest.raises(Faults) as refused:
        rules(ties="share, lot", place_shares="0", cut_after_day="1")
    assert {fault.field for fault in refused.value.faults} == {"ties", "place_shares", "cut_after_day"}


def test_weights_are_written_in_the_events_unit():
    written = rules("lb-oz", bag_tare="5 oz", dead_fish_penalty="4 oz, 0-08", live_fish_bonus="0").written()
    assert (written["bag_tare"], written["dead_fish_penalty"], written["live_fish_bonus"]) == (
        "0-05",
        "0-04, 0-08",
        "0-00",
    )
    assert rules("kg").written()["late_penalty_per_minute"] == "0.500"
    assert rules("lb").written()["late_penalty_per_minute"] == "1.00"


def test_none_last_yes_and_places_are_written_as_they_are_read():
    written = rules(points_no_fish="last", dead_fish_big_fish="1", places_paid="1 per 4").written()
    assert written["points_no_fish"] == "last"
    assert written["dead_fish_big_fish"] == "yes"
    assert written["late_reduces_big_fish"] == "no"
    assert written["places_paid"] == "1 per 4"
    assert written["boat_limit"] == written["points_table"] == "none"
    assert rules(places_paid="6").written()["places_paid"] == "6"


def test_a_weight_keeps_every_digit_when_written():
    assert rules(bag_tare="0.3125").written()["bag_tare"] == "0.3125"
    assert rules("lb-oz", bag_tare="0-05.125").written()["bag_tare"] == "0-05.125"


def test_every_key_says_what_it_means_in_a_section():
    for key in KEYS:
        assert key.meaning.endswith((".", ").")), key.name
        assert key.label
        assert key.section
    assert BY_NAME["ties"].choices[-1] == "share"


def test_faults_are_one_error_with_every_sentence():
    missing, empty = Sentence("test_missing", "missing"), Sentence("test_empty", "the row is empty")
    faults = Faults([missing.at("gross"), empty.at("")])
    assert str(faults) == "gross: missing; the row is empty"
    assert isinstance(faults, ValueError)
    assert faults.faults[0].also == ()
