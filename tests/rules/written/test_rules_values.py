"""Readers of written values: exact, bounded, and clear about what is wrong."""

from decimal import Decimal as D

import pytest

from weighin.rules import values


def test_headers_keys_and_choices_match_whatever_their_case_spaces_and_hyphens():
    assert values.folded(" Big-Fish_Alive ") == values.folded("bigfishalive") == "bigfishalive"


@pytest.mark.parametrize(("text", "number"), [("7", "7"), ("0.25", "0.25"), (".5", "0.5"), ("7.", "7"), (" -3 ", "-3")])
def test_decimals(text, number):
    assert values.decimal(text) == D(number)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1,5", "comma"),
        ("1e5", "not a number"),
        ("seven", "not a number"),
        ("", "not a number"),
        ("1_000", "not a number"),
        ("\u0661", "not a number"),
        ("inf", "not a number"),
        ("1" * 41, "not a number"),
        ("1000000001", "too large"),
    ],
)
def test_decimals_refused(text, says):
    with pytest.raises(ValueError, match=says):
        values.decimal(text)


def test_a_decimal_keeps_its_bounds():
    assert values.decimal("0", least=0) == 0
    assert values.decimal("100", most=100) == 100
    with pytest.raises(ValueError, match="too small: write 0 or more"):
        values.decimal("-0.01", least=0)
    with pytest.raises(ValueError, match="too large: write 100 or less"):
        values.decimal("100.01", most=100)


def test_whole_numbers():
    assert values.whole("7") == values.whole(" 7.0 ") == 7
    assert values.whole("1", least=1, most=1) == 1


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("7.5", "not a whole number: leave out"),
        ("seven", "not a whole number: write figures"),
        ("", "not a whole number"),
        ("1,5", "not a whole number"),
        ("-1", "too small: write 0 or more"),
        ("1000001", "too large: write 1000000 or less"),
    ],
)
def test_whole_numbers_refused(text, says):
    with pytest.raises(ValueError, match=says):
        values.whole(text)


def test_money_has_at_most_two_decimals_and_is_not_negative():
    assert values.money("60") == 60
    assert values.money("7.77") == D("7.77")
    assert values.money("7.770") == D("7.77")
    with pytest.raises(ValueError, match="parts of a cent"):
        values.money("7.775")
    with pytest.raises(ValueError, match="too small"):
        values.money("-1")


@pytest.mark.parametrize("text", ["yes", "Y", "true", "1", " YES "])
def test_yes(text):
    assert values.yes_no(text) is True


@pytest.mark.parametrize("text", ["no", "N", "False", "0"])
def test_no(text):
    assert values.yes_no(text) is False


@pytest.mark.parametrize("text", ["", "maybe", "2", "x" * 100])
def test_neither_yes_nor_no(text):
    with pytest.raises(ValueError, match="neither yes nor no: write yes or no"):
        values.yes_no(text)


def test_a_choice_is_found_however_it_is_spelt_and_its_refusal_lists_the_choices():
    assert values.choice("Lose Largest", ("penalty", "lose_largest")) == "lose_largest"
    with pytest.raises(ValueError, match="'lose' is not one of the choices: penalty, lose_largest"):
        values.choice("lose", ("penalty", "lose_largest"))


def test_lists_are_separated_by_commas_without_empty_places():
    assert values.items("1, 2,3", values.whole) == (1, 2, 3)
    for text in ("1,,2", "1,", ",", ""):
        with pytest.raises(ValueError, match="empty place in its list"):
            values.items(text, values.whole)


def test_a_line_is_one_line_of_limited_length():
    assert values.line("  Marsh Hens ") == "Marsh Hens"
    assert values.line("x" * 120) == "x" * 120
    with pytest.raises(ValueError, match="121 characters: write 120 or fewer"):
        values.line("x" * 121)
    for text in ("a\nb", "a\x00b", "a\x7fb"):
        with pytest.raises(ValueError, match="type it again on one line"):
            values.line(text)


def test_a_note_may_have_lines_but_no_control_characters():
    assert values.lines("first\r\n\tsecond\rthird") == "first\n\tsecond\nthird"
    with pytest.raises(ValueError, match="501 characters: write 500 or fewer"):
        values.lines("x" * 501)
    for text in ("a\x00b", "a\x7fb"):
        with pytest.raises(ValueError, match="control characters"):
            values.lines(text)


@pytest.mark.parametrize(
    ("number", "text"),
    [("7.00", "7"), ("7.50", "7.5"), ("100", "100"), ("1E+2", "100"), ("0.00", "0"), ("-0", "0"), ("-1.50", "-1.5")],
)
def test_plain_figures(number, text):
    assert values.plain(D(number)) == text
