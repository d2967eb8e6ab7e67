"""Weights: read exactly as written, shown without loss, refused with a sentence that helps."""

from decimal import Decimal as D

import pytest

from weighin.rules.weights import as_kilograms, as_pounds, read, rounded, show, whole_pounds, word


@pytest.mark.parametrize(
    ("unit", "text", "weight"),
    [
        ("lb", "9.47", "9.47"),
        ("lb", "9.47 lb", "9.47"),
        ("lb", " 9.47LBS ", "9.47"),
        ("lb", "9", "9"),
        ("lb", ".5", "0.5"),
        ("lb", "0", "0"),
        ("lb", "9.4700", "9.4700"),
        ("lb", "9.472913", "9.472913"),
        ("lb", "999", "999"),
        ("kg", "4.295", "4.295"),
        ("kg", "4.295 kg", "4.295"),
        ("kg", "4.295KG", "4.295"),
        ("lb-oz", "9-07.5", "9.46875"),
        ("lb-oz", "9-7.5", "9.46875"),
        ("lb-oz", "9-7 1/2", "9.46875"),
        ("lb-oz", "9 lb 7.5 oz", "9.46875"),
        ("lb-oz", "9lb7.5oz", "9.46875"),
        ("lb-oz", "9 lb 7 1/2 oz", "9.46875"),
        ("lb-oz", "9 lb", "9"),
        ("lb-oz", "9 LBS", "9"),
        ("lb-oz", "7 oz", "0.4375"),
        ("lb-oz", "0-15.99", "0.999375"),
        ("lb-oz", "0-00", "0"),
        ("lb-oz", "0", "0"),
        ("lb-oz", "0.0", "0"),
        ("lb-oz", "9 - 7", "9.4375"),
        ("lb-oz", "9-1/4", "9.015625"),
        ("lb-oz", "9-7/8", "9.0546875"),
        ("lb-oz", "3/16 oz", "0.01171875"),
        ("lb-oz", "9-15/16", "9.05859375"),
        ("lb-oz", "9-1 15/16", "9.12109375"),
        ("lb-oz", "15/16 oz", "0.05859375"),
        ("lb-oz", "999-00", "999"),
    ],
)
def test_a_weight_is_read_exactly(unit, text, weight):
    assert read(text, unit) == D(weight)


def test_every_digit_a_scale_shows_is_kept():
    assert str(read("9.4700", "lb")) == "9.4700"


@pytest.mark.parametrize(
    ("unit", "text", "says"),
    [
        ("lb", "-1", "negative"),
        ("lb", "\u22121", "plain figures"),
        ("lb-oz", "-1-02", "negative"),
        ("lb", "9,47", "comma"),
        ("kg", "4,295", "comma"),
        ("lb", "9-07.5", "pounds and ounces"),
        ("lb", "7 oz", "in oz: this event weighs in lb"),
        ("kg", "9-07.5", "pounds and ounces"),
        ("kg", "9.47 lb", "in lb: this event weighs in kg"),
        ("lb", "4.295 kg", "in kg: this event weighs in lb"),
        ("lb-oz", "4.295 kg", "in kg"),
        ("lb-oz", "9.47", "9-07.5"),
        ("lb-oz", "9", "does not say pounds and ounces"),
        ("lb-oz", "9.5 lb", "not a weight in pounds and ounces"),
        ("lb-oz", "9-16", "16 ounces or more"),
        ("lb-oz", "16 oz", "16 ounces or more"),
        ("lb-oz", "9-15 16/16", "not halves, quarters"),
        ("lb-oz", "9-7 1/3", "not halves, quarters"),
        ("lb-oz", "9-7 1/5", "not halves, quarters"),
        ("lb-oz", "9-7 1/9", "not halves, quarters"),
        ("lb-oz", "9-7 1/17", "not halves, quarters"),
        ("lb-oz", "9-11/2", "not halves, quarters"),
        ("lb-oz", "9-7.5 1/2", "both decimals and a fraction"),
        ("lb-oz", "9-", "no ounces"),
        ("lb-oz", "oz", "no ounces"),
        ("lb-oz", "", "not a weight"),
        ("lb", "", "not a weight"),
        ("lb", "abc", "not a weight"),
        ("lb", "1e3", "not a weight"),
        ("lb", "nan", "not a weight"),
        ("lb", "+9.47", "not a weight"),
        ("lb", "9.47.1", "not a weight"),
        ("lb", "\u0669", "plain figures"),
        ("lb", "999.01", "more than 999 lb"),
        ("kg", "1000", "more than 999 kg"),
        ("lb-oz", "999-01", "more than 999 lb"),
        ("stone", "9", "not a unit"),
    ],
)
def test_what_is_not_a_weight_is_refused_with_a_sentence(unit, text, says):
    with pytest.raises(ValueError, match=says):
        read(text, unit)


def test_a_long_text_is_not_repeated_whole():
    with pytest.raises(ValueError, match=r"\.\.\.") as refused:
        read("9" * 500, "lb")
    assert len(str(refused.value)) < 150


@pytest.mark.parametrize(
    ("unit", "weight", "shown"),
    [
        ("lb", "9.4", "9.40"),
        ("lb", "9", "9.00"),
        ("lb", "9.472913", "9.472913"),
        ("lb", "9.47000", "9.47"),
        ("lb", "0", "0.00"),
        ("lb", "-0.25", "-0.25"),
        ("lb", "1E+1", "10.00"),
        ("kg", "4.2", "4.200"),
        ("kg", "4.29565", "4.29565"),
        ("lb-oz", "9.46875", "9-07.5"),
        ("lb-oz", "9.625", "9-10"),
        ("lb-oz", "9", "9-00"),
        ("lb-oz", "0.25", "0-04"),
        ("lb-oz", "-1.5", "-1-08"),
        ("lb-oz", "0", "0-00"),
    ],
)
def test_a_weight_is_shown_as_its_unit_writes_it(unit, weight, shown):
    assert show(D(weight), unit) == shown


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_what_is_shown_reads_back_the_same(unit):
    for hundredths in range(0, 99900, 37):
        weight = D(hundredths) / 100
        assert read(show(weight, unit), unit) == weight


def test_the_word_behind_a_figure_is_the_unit():
    assert [word(unit) for unit in ("lb", "lb-oz", "kg")] == ["lb", "lb-oz", "kg"]


def test_pounds_convert_exactly_and_kilograms_to_28_digits():
    assert as_kilograms(D("10"), "lb") == D("4.5359237")
    assert as_kilograms(D("4.295"), "kg") == D("4.295")
    assert as_pounds(D("9.46875"), "lb-oz") == D("9.46875")
    assert as_pounds(D("0.45359237"), "kg") == 1
    assert str(as_pounds(D("1"), "kg")).startswith("2.2046226218487758")


def test_a_converted_weight_is_rounded_half_up_once():
    assert rounded(D("2.345")) == D("2.35")
    assert rounded(D("2.3449999")) == D("2.34")
    assert rounded(D("-2.345")) == D("-2.35")
    assert rounded(D("2.34567"), 3) == D("2.346")


@pytest.mark.parametrize(
    ("unit", "weight", "pounds"),
    [
        ("lb", "9.99", 9),
        ("lb", "10", 10),
        ("lb-oz", "9.9375", 9),
        ("kg", "4.5359237", 10),
        ("kg", "4.5359236", 9),
        ("kg", "0.45359236", 0),
        ("lb", "0", 0),
        ("lb", "-3.5", 0),
    ],
)
def test_whole_pounds_round_down_and_are_exact_in_kilograms(unit, weight, pounds):
    assert whole_pounds(D(weight), unit) == pounds
