"""A random rule sheet: key -> text, every key varied over what the workbook contract allows."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from .spelling import weight_text, weights_text, yes_text

F = Fraction
TIE_KEYS = ["big_fish", "live_fish", "fish_count", "fewest_deductions", "first_day", "last_day", "lot"]


def random_rules(rng: Random, unit: str, days: int, boats: int) -> dict[str, str]:
    """Each key is given or left to its default; cut keys only where there is a day after the cut."""
    # steps of a quarter pound, or of 0.1 kg, so that penalties meet the coarse weights and make ties
    step = F("0.1") if unit == "kg" else F("0.25")

    def penalty(*steps: int) -> str:
        return weight_text(rng, step * rng.choice(steps), unit)

    pick = rng.choice
    rules = {
        "species": pick(["crappie", "black crappie"]),
        "fish_limit": pick(["1", "2", "5", "7", "7"]),
        "bag_tare": weight_text(rng, step * pick([0, 1, 2]), unit),
        "boat_limit": pick(["none", "7", "30"]),
        "minimum_length_in": pick(["none", "9", "10.5"]),
        "dead_fish": pick(["penalty", "penalty", "not_weighed", "both"]),
        "dead_fish_penalty": weights_text(
            rng, [step * s for s in pick([[1], [2], [1, 2], [0, 1], [1, 2, 4], [0, 0, 3]])], unit
        ),
        "dead_fish_big_fish": yes_text(rng, rng.random() < 0.5),
        "short_fish": pick(["penalty", "penalty", "lose_largest", "lose_largest", "lose_day"]),
        "short_fish_penalty": penalty(0, 2, 4),
        "over_limit": pick(["disqualify_day", "remove_largest", "penalty"]),
        "over_limit_penalty": penalty(0, 2, 4),
        "late_penalty_per_minute": penalty(0, 1, 2, 4),
        "late_grace_minutes": pick(["0", "1", "5", "5"]),
        "late_disqualify_after_minutes": pick(["none", "10", "15", "5"]),
        "late_reduces_big_fish": yes_text(rng, rng.random() < 0.5),
        "live_fish_bonus": penalty(0, 1, 1),
        "negative_totals": pick(["floor", "keep"]),
        "ties": _ties(rng),
        "places_paid": pick([f"1 per {rng.randint(1, 6)}", f"1 per {rng.randint(1, 3)}", str(rng.randint(1, 9))]),
        "payback_percent": pick(["100", "100", "80", "85.5", "33.3", rng.choice(["0", "90"])]),
        "place_shares": pick(["none", "40, 30, 20, 10", "50, 30", "3,2,1", "7.5, 2.5, 0", "none", "1"]),
        "rounding": pick(["1.00", "5", "10", "0.01", "0.25"]),
        "big_fish_pot_fee": pick(["0", "10", "7.77", "5.00"]),
        "big_fish_shares": pick(["100", "60, 40", "50, 30, 20", "1, 1, 1"]),
        "points_table": pick(["none", "200, 195, 190", "60, 50, 45, 40, 39.5", "10"]),
        "points_first": pick(["100", "60", "250"]),
        "points_step": pick(["1", "2", "0.5", "0"]),
        "points_floor": pick(["0", "1", "52", "95"]),
        "points_no_fish": pick(["0", "25", "last"]),
        "points_not_weighed": pick(["0", "10", "2.5"]),
        "points_absent_below_last": pick(["none", "5", "70"]),
        "points_per_pound": pick(["0", "1", "0.5"]),
        "points_big_fish": pick(["0", "3", "5"]),
        "count_best": pick(["none", "8"]),
        "season_ties": pick(["big_fish, share", "total_weight, big_fish", "share"]),
        "care_warm_f": pick(["70", "75", "80", "80.6"]),
        "care_max_cooling_f": pick(["5", "7", "8.1", "10"]),
        "care_min_do": pick(["5.0", "5.5"]),
        "care_max_bag_minutes": pick(["5", "7.5", "10"]),
        "care_max_held_minutes": pick(["none", "300", "420", "540"]),
        "care_stop_percent": pick(["10", "5"]),
    }
    left_out = rng.choice([0.0, 0.3, 0.8])
    rules = {key: text for key, text in rules.items() if rng.random() >= left_out}
    rules |= {"deep_fish_kept_ft": "25", "measured_lengths_above": "85"}  # told to the boats, scored nowhere
    if rng.random() < 0.2:  # both take the largest fish, one after the other
        rules |= {"over_limit": "remove_largest", "short_fish": "lose_largest"}
    if days > 1 and rng.random() < 0.5:
        if rng.random() < 0.5:  # a team that fishes on may end below one that does not
            rules |= {"negative_totals": "keep", "late_disqualify_after_minutes": "none"}
            rules["late_penalty_per_minute"] = penalty(4)
        rules["cut_after_day"] = str(rng.randint(1, days - 1))
        rules["cut_keep"] = str(rng.randint(1, boats))
    return rules


def _ties(rng: Random) -> str:
    if rng.random() < 0.15:
        return rng.choice(["first_day", "last_day"]) + rng.choice(["", ", share", ", lot"])
    keys = rng.sample(TIE_KEYS, rng.choice([0, 0, 1, 2, 3, len(TIE_KEYS)]))
    if not keys or rng.random() < 0.6:
        keys.append("share")
    return ", ".join(keys)
