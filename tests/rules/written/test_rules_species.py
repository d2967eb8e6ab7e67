"""Kinds of fish by the names on rule sheets, and what one fish may weigh (from memory, no source)."""

from decimal import Decimal

import pytest

from weighin.rules.species import KINDS, believable, kinds_of


@pytest.mark.parametrize(
    "text, names",
    [
        ("crappie", ["crappie"]),
        ("Crappies (black or white)", ["crappie"]),
        ("Black Bass", ["largemouth_bass", "smallmouth_bass"]),
        ("Largemouth bass", ["largemouth_bass"]),
        ("small mouth", ["smallmouth_bass"]),
        ("walleye / channel catfish", ["walleye", "channel_catfish"]),
        ("largemouth, smallmouth and any other bass", []),
        ("striped bass", []),
        ("white bass", []),
        ("catfish", []),
        ("whatever bites", []),
        ("", []),
    ],
)
def test_a_rule_sheets_fish_are_known_by_their_names(text, names):
    assert [kind.name for kind in kinds_of(text)] == names


@pytest.mark.parametrize(
    "text, lightest, heaviest",
    [
        ("crappie", "0.25", "3.5"),
        ("largemouth", "0.5", "12"),
        ("smallmouth", "0.5", "9"),
        ("bass", "0.5", "12"),
        ("walleye", "0.5", "14"),
        ("channel catfish", "0.5", "25"),
        ("crappie and walleye", "0.25", "14"),
    ],
)
def test_what_one_fish_may_weigh(text, lightest, heaviest):
    for unit in ("lb", "lb-oz"):
        asked = believable(text, unit)
        assert (asked.lightest, asked.heaviest) == (Decimal(lightest), Decimal(heaviest))
    in_kg = believable(text, "kg")
    assert in_kg.heaviest == Decimal(heaviest) * Decimal("0.45359237")


def test_nothing_is_believed_of_fish_that_are_not_known():
    assert believable("carp", "lb") is None


def test_every_kind_is_known_by_its_own_words():
    assert [kinds_of(kind.words) for kind in KINDS] == [(kind,) for kind in KINDS]
