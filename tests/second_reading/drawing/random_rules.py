"""A random rule sheet: key -> text, every key varied over what the workbook contract allows."""

from __future__ import annotations

from fractions import Fraction

from .chance import Chance
from .spelling import weight_text, weights_text, yes_text

F = Fraction
TIE_KEYS = ["big_fish", "live_fish", "fish_count", "fewest_deductions", "first_day", "last_day", "lot"]


def random_rules(rng: Chance, unit: str, days: int, boats: int) -> dict[str, str]:
    """Each key is given or left to its default; cut keys only where there is a day after the cut."""
    # steps of a quarter pound, or of 0.1 kg, so that penalties meet the coarse weights and make ties
    step = F("0.1") if unit == "kg" else F("0.25")

    def penalty(key: str, *steps: int) -> str:
        return weight_text(rng.of(key, "spelt"), step * rng.pick(key, steps), unit)

    def yes(key: str) -> str:
        return yes_text(rng.of(key, "spelt"), rng.happens(key, 0.5))

    any_of = {
        "species": ["crappie", "black crappie"],
        "fish_limit": ["1", "2", "5", "7", "7"],
        "boat_limit": ["none", "7", "30"],
        "minimum_length_in": ["none", "9", "10.5"],
        "dead_fish": ["penalty", "penalty", "not_weighed", "both"],
        "short_fish": ["penalty", "penalty", "lose_largest", "lose_largest", "lose_day"],
        "over_limit": ["disqualify_day", "remove_largest", "penalty"],
        "late_grace_minutes": ["0", "1", "5", "5"],
        "late_disqualify_after_minutes": ["none", "10", "15", "5"],
        "negative_totals": ["floor", "keep"],
        "places_paid": [*(f"1 per {k}" for k in (1, 1, 2, 2, 3, 3, 4, 5, 6)), *"1234579"],
        "payback_percent": ["100", "100", "80", "85.5", "33.3", "90", "0"],
        "place_shares": ["none", "40, 30, 20, 10", "50, 30", "3,2,1", "7.5, 2.5, 0", "none", "1"],
        "rounding": ["1.00", "5", "10", "0.01", "0.25"],
        "big_fish_pot_fee": ["0", "10", "7.77", "5.00"],
        "big_fish_shares": ["100", "60, 40", "50, 30, 20", "1, 1, 1"],
        "points_table": ["none", "200, 195, 190", "60, 50, 45, 40, 39.5", "10"],
        "points_first": ["100", "60", "250"],
        "points_step": ["1", "2", "0.5", "0"],
        "points_floor": ["0", "1", "52", "95"],
        "points_no_fish": ["0", "25", "last"],
        "points_not_weighed": ["0", "10", "2.5"],
        "points_absent_below_last": ["none", "5", "70"],
        "points_per_pound": ["0", "1", "0.5"],
        "points_big_fish": ["0", "3", "5"],
        "count_best": ["none", "8"],
        "season_ties": ["big_fish, share", "total_weight, big_fish", "share"],
        "care_warm_f": ["70", "75", "80", "80.6"],
        "care_max_cooling_f": ["5", "7", "8.1", "10"],
        "care_min_do": ["5.0", "5.5"],
        "care_max_bag_minutes": ["5", "7.5", "10"],
        "care_max_held_minutes": ["none", "300", "420", "540"],
        "care_stop_percent": ["10", "5"],
    }
    deaths = rng.pick("dead_fish_penalty", [[1], [2], [1, 2], [0, 1], [1, 2, 4], [0, 0, 3]])
    rules = {key: rng.pick(key, values) for key, values in any_of.items()} | {
        "bag_tare": penalty("bag_tare", 0, 1, 2),
        "dead_fish_penalty": weights_text(rng.of("dead_fish_penalty", "spelt"), [step * n for n in deaths], unit),
        "dead_fish_big_fish": yes("dead_fish_big_fish"),
        "short_fish_penalty": penalty("short_fish_penalty", 0, 2, 4),
        "over_limit_penalty": penalty("over_limit_penalty", 0, 2, 4),
        "late_penalty_per_minute": penalty("late_penalty_per_minute", 0, 1, 2, 4),
        "late_reduces_big_fish": yes("late_reduces_big_fish"),
        "live_fish_bonus": penalty("live_fish_bonus", 0, 1, 1),
        "ties": _ties(rng.of("ties")),
    }
    left_out = rng.pick("left out", [0.0, 0.3, 0.8])
    rules = {key: text for key, text in rules.items() if not rng.of(key).happens("left out", left_out)}
    rules |= {"deep_fish_kept_ft": "25", "measured_lengths_above": "85"}  # told to the boats, scored nowhere
    if rng.happens("both take the largest fish, one after the other", 0.2):
        rules |= {"over_limit": "remove_largest", "short_fish": "lose_largest"}
    if days > 1 and rng.happens("cut", 0.5):
        if rng.happens("a team that fishes on may end below one that does not", 0.5):
            rules |= {"negative_totals": "keep", "late_disqualify_after_minutes": "none"}
            rules["late_penalty_per_minute"] = penalty("late and kept", 4)
        rules["cut_after_day"] = str(rng.of("cut_after_day").randint(1, days - 1))
        rules["cut_keep"] = str(rng.of("cut_keep").randint(1, boats))
    return rules


def _ties(rng: Chance) -> str:
    if rng.random() < 0.15:
        return rng.choice(["first_day", "last_day"]) + rng.choice(["", ", share", ", lot"])
    keys = rng.sample(TIE_KEYS, rng.choice([0, 0, 1, 2, 3, len(TIE_KEYS)]))
    if not keys or rng.random() < 0.6:
        keys.append("share")
    return ", ".join(keys)
