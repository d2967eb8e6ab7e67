"""The rule sheet: every key with its default, as typed values in a dict.

"The weights among these are written in the event's unit; lists are separated by commas."
An empty value is the key's default; `none` is None where the workbook contract allows none.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from .amounts import given, number, numbers, weight, weights, whole, yes

F = Fraction

# key -> (kind, default); a default of two values is (pounds, kilograms)
KEYS: dict[str, tuple[str, Any]] = {
    "species": ("text", "crappie"),
    "fish_limit": ("whole", 7),
    "bag_tare": ("weight", (F(0), F(0))),
    "boat_limit": ("whole", None),
    "minimum_length_in": ("number", None),
    "dead_fish": ("text", "penalty"),
    "dead_fish_penalty": ("weights", ([F("0.25")], [F("0.1")])),
    "dead_fish_big_fish": ("yes", False),
    "short_fish": ("text", "penalty"),
    "short_fish_penalty": ("weight", (F("1.00"), F("0.5"))),
    "over_limit": ("text", "disqualify_day"),
    "over_limit_penalty": ("weight", (F("1.00"), F("0.5"))),
    "late_penalty_per_minute": ("weight", (F("1.00"), F("0.5"))),
    "late_grace_minutes": ("number", F(0)),
    "late_disqualify_after_minutes": ("number", F(15)),
    "late_reduces_big_fish": ("yes", False),
    "live_fish_bonus": ("weight", (F(0), F(0))),
    "negative_totals": ("text", "floor"),
    "ties": ("words", ["big_fish", "live_fish", "share"]),
    "cut_after_day": ("whole", None),
    "cut_keep": ("whole", None),
    "places_paid": ("text", "1 per 5"),
    "payback_percent": ("number", F(100)),
    "place_shares": ("numbers", None),
    "rounding": ("number", F(1)),
    "big_fish_pot_fee": ("number", F(0)),
    "big_fish_shares": ("numbers", [F(100)]),
    "points_table": ("numbers", None),
    "points_first": ("number", F(100)),
    "points_step": ("number", F(1)),
    "points_floor": ("number", F(0)),
    "points_no_fish": ("number or last", F(0)),
    "points_not_weighed": ("number", F(0)),
    "points_absent_below_last": ("number", None),
    "points_per_pound": ("number", F(0)),
    "points_big_fish": ("number", F(0)),
    "count_best": ("whole", None),
    "season_ties": ("words", ["big_fish", "share"]),
    "care_warm_f": ("number", F(75)),
    "care_max_cooling_f": ("number", F(7)),
    "care_min_do": ("number", F(5)),
    "care_max_bag_minutes": ("number", F(10)),
    "care_max_held_minutes": ("number", None),
    "care_stop_percent": ("number", F(10)),
    "deep_fish_kept_ft": ("number", None),
    "measured_lengths_above": ("number", None),
}
MAY_BE_NONE = {key for key, (_, default) in KEYS.items() if default is None} | {"late_disqualify_after_minutes"}


def read_rules(written: Mapping[str, str], unit: str) -> dict[str, Any]:
    """Typed rules from key -> text."""
    rules: dict[str, Any] = {}
    for key, (kind, default) in KEYS.items():
        text = written.get(key)
        if not given(text):
            rules[key] = default[unit == "kg"] if isinstance(default, tuple) else default
        elif str(text).strip().lower() == "none" and key in MAY_BE_NONE:
            rules[key] = None
        else:
            rules[key] = _typed(kind, str(text), unit)
    return rules


def _typed(kind: str, text: str, unit: str) -> Any:
    match kind:
        case "whole":
            return whole(text)
        case "number":
            return number(text)
        case "numbers":
            return numbers(text)
        case "number or last":
            return "last" if text.strip() == "last" else number(text)
        case "weight":
            return weight(text, unit)
        case "weights":
            return weights(text, unit)
        case "yes":
            return yes(text)
        case "words":
            return [word.strip() for word in text.split(",")]
        case _:
            return text.strip()
