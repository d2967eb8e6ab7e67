"""Checks of fish care as columns: the mark, the word or figure of each, and how many passed."""

import re
from datetime import UTC, datetime
from decimal import Decimal

import pytest

from weighin.care.domain.checks import CHECKS, Observed, Times, care
from weighin.care.tables.marks import mark
from weighin.events.domain.temperatures import water
from weighin.rules import rulebook
from weighin.ui.figures import Writing, written_as

START = datetime(2026, 7, 18, 12, tzinfo=UTC)
SEEN = Observed(
    pump_ok=True,
    thermometer_ok=False,
    ice_lb=Decimal(0),
    most_on_board=9,
    livewell=water("78 F"),
    livewell_do=Decimal("4.7"),
    lake=water("86 F"),
)


def said(name: str, seen: Observed, times: Times) -> str:
    rules = rulebook.read({"boat_limit": "7"}, "lb")
    cell = mark(name, care(rules, times, seen), seen).cell()
    return " ".join(re.sub(r"<[^>]+>", " ", cell).replace("\xa0", " ").split())


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("pump", "✓ passed runs"),
        ("thermometer", "✕ failed none"),
        ("ice", "✕ failed none"),
        ("on_board", "✕ failed 9"),
        ("held", "at most 6 h"),  # these rules set no limit, so nothing is judged
        ("bag", "✕ failed 16 min"),
        ("cooling", "✕ failed 8 °F"),
        ("oxygen", "✕ failed 4.7"),
    ],
)
def test_each_check_has_its_mark_its_word_and_its_figure(name: str, words: str) -> None:
    times = Times(
        start=START, bag_issued=START.replace(hour=17, minute=44), weighed=START.replace(hour=18), bag_emptied=None
    )
    assert said(name, SEEN, times) == words


def test_what_is_not_recorded_is_blank() -> None:
    assert [said(name, Observed(), Times(start=START)) for name in CHECKS] == [""] * len(CHECKS)


def test_a_livewell_warmer_than_the_lake_has_a_minus() -> None:
    warmer = Observed(livewell=water("88 F"), lake=water("86 F"))
    assert said("cooling", warmer, Times(start=START)) == "✓ passed −2 °F"


# 84 °F less 77 °F are 7 °F, and 7 x 5 / 9 = 3.9 °C; what no setting says is as the livewell was read
@pytest.mark.parametrize(
    ("setting", "livewell", "written"),
    [("", "77 F", "7 °F"), ("C", "77 F", "3.9 °C"), ("", "25 C", "3.9 °C"), ("F", "25 C", "7 °F")],
)
def test_how_far_a_livewell_is_below_the_lake_is_in_the_club_s_degrees(
    setting: str, livewell: str, written: str
) -> None:
    seen = Observed(livewell=water(livewell), lake=water("84 F"))
    with written_as(Writing(degrees=setting)):
        assert (
            mark("cooling", care(rulebook.read({}, "lb"), Times(START), seen), seen).figure.replace("\xa0", " ")
            == written
        )


def test_a_livewell_that_is_warmer_than_the_lake_has_a_minus() -> None:
    seen = Observed(livewell=water("86 F"), lake=water("84 F"))
    assert mark("cooling", care(rulebook.read({}, "lb"), Times(START), seen), seen).figure == "\u22122\xa0°F"
