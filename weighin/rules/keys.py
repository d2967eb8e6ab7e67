"""The keys of a rule sheet in their order, each with its kind, its default and its meaning in words."""

from dataclasses import dataclass

TIES = ("big_fish", "live_fish", "fish_count", "fewest_deductions", "first_day", "last_day", "lot", "share")
SEASON_TIES = ("big_fish", "total_weight", "share")


@dataclass(frozen=True)
class Key:
    """One line of the rule sheet.

    ``kind`` names the reader; ``default`` is text, with ``default_kg`` where kilograms differ;
    ``optional`` keys may say ``none``; ``least`` bounds whole numbers.
    """

    name: str
    section: str
    label: str
    kind: str
    default: str
    meaning: str
    default_kg: str | None = None
    choices: tuple[str, ...] = ()
    optional: bool = False
    least: int = 0


KEYS: tuple[Key, ...] = (
    Key("species", "Fish", "Species", "text", "crappie", "The fish that count."),
    Key("fish_limit", "Fish", "Limit", "whole", "7", "Most fish a team may present in a day.", least=1),
    Key(
        "bag_tare",
        "Fish",
        "Bag tare",
        "weight",
        "0",
        "Weight of the empty bag or basket, taken off when a slip gives no tare.",
    ),
    Key(
        "boat_limit",
        "Fish",
        "Boat limit",
        "whole",
        "none",
        "Most fish kept on board at once. Checked in fish care only; none = no such rule.",
        optional=True,
        least=1,
    ),
    Key(
        "minimum_length_in",
        "Fish",
        "Minimum length",
        "number",
        "none",
        "Shortest legal fish, in inches, mouth closed and flat on the board.",
        optional=True,
    ),
    Key(
        "dead_fish",
        "Dead fish",
        "Dead fish",
        "choice",
        "penalty",
        "penalty: weighed, but each costs weight. not_weighed: dead fish stay off the scale. both: off the scale and a penalty.",
        choices=("penalty", "not_weighed", "both"),
    ),
    Key(
        "dead_fish_penalty",
        "Dead fish",
        "Penalty for a dead fish",
        "weights",
        "0.25",
        "Taken off for each dead fish; a list gives the 1st, 2nd, ... and the last repeats (0, 0.25 = the first is free).",
        default_kg="0.1",
    ),
    Key(
        "dead_fish_big_fish",
        "Dead fish",
        "Dead fish as big fish",
        "yes/no",
        "no",
        "Whether a dead fish may be the big fish.",
    ),
    Key(
        "short_fish",
        "Short fish",
        "Short fish",
        "choice",
        "penalty",
        "penalty: each costs weight. lose_largest: each also takes the largest fish. lose_day: the day is lost.",
        choices=("penalty", "lose_largest", "lose_day"),
    ),
    Key(
        "short_fish_penalty",
        "Short fish",
        "Penalty for a short fish",
        "weight",
        "1.00",
        "Taken off for each short fish.",
        default_kg="0.5",
    ),
    Key(
        "over_limit",
        "Over the limit",
        "Over the limit",
        "choice",
        "disqualify_day",
        "disqualify_day: the day is lost. remove_largest: the largest fish come off. penalty: the smallest come off and each costs weight.",
        choices=("disqualify_day", "remove_largest", "penalty"),
    ),
    Key(
        "over_limit_penalty",
        "Over the limit",
        "Penalty for a fish over the limit",
        "weight",
        "1.00",
        "Taken off for each fish over the limit.",
        default_kg="0.5",
    ),
    Key(
        "late_penalty_per_minute",
        "Late",
        "Penalty for a minute late",
        "weight",
        "1.00",
        "Taken off for each minute begun after the grace.",
        default_kg="0.5",
    ),
    Key("late_grace_minutes", "Late", "Grace", "number", "0", "Minutes past the due time that cost nothing."),
    Key(
        "late_disqualify_after_minutes",
        "Late",
        "Day lost when later than",
        "number",
        "15",
        "Minutes past the due time after which the day is lost; none = never.",
        optional=True,
    ),
    Key(
        "late_reduces_big_fish",
        "Late",
        "Late takes from the big fish",
        "yes/no",
        "no",
        "Whether the late penalty comes off the big fish too.",
    ),
    Key(
        "live_fish_bonus",
        "Totals and ties",
        "Bonus for a live fish",
        "weight",
        "0",
        "Added for each legal live fish, up to the limit.",
    ),
    Key(
        "negative_totals",
        "Totals and ties",
        "Totals below zero",
        "choice",
        "floor",
        "floor: a day's total is never below 0. keep: it stays negative.",
        choices=("floor", "keep"),
    ),
    Key(
        "ties",
        "Totals and ties",
        "Ties",
        "choices",
        "big_fish, live_fish, share",
        "What separates equal totals, in order. share ends the list: tied teams share the place and the prize.",
        choices=TIES,
    ),
    Key(
        "cut_after_day",
        "Totals and ties",
        "Cut after day",
        "whole",
        "none",
        "Day after which only the best fish on.",
        optional=True,
        least=1,
    ),
    Key(
        "cut_keep",
        "Totals and ties",
        "Teams kept by the cut",
        "whole",
        "none",
        "How many teams fish on; all that are level at the line go on.",
        optional=True,
        least=1,
    ),
    Key("places_paid", "Money", "Places paid", "places", "1 per 5", "A number, or 1 per so many paid entries."),
    Key(
        "payback_percent",
        "Money",
        "Paid back",
        "percent",
        "100",
        "Share of the entry fees that is paid out, in per cent.",
    ),
    Key(
        "place_shares",
        "Money",
        "Shares of the places",
        "numbers",
        "none",
        "The places' shares of the purse, first to last, such as 40, 30, 20, 10; none = n, n-1, ..., 1.",
        optional=True,
    ),
    Key(
        "rounding",
        "Money",
        "Prizes rounded down to",
        "money",
        "1.00",
        "What each prize is rounded down to; the rest goes to first place.",
    ),
    Key(
        "big_fish_pot_fee",
        "Money",
        "Big fish pot fee",
        "money",
        "0",
        "Paid by each team that enters the big fish pot.",
    ),
    Key(
        "big_fish_shares",
        "Money",
        "Shares of the big fish pot",
        "numbers",
        "100",
        "Shares of the largest, second largest, ... big fish.",
    ),
    Key(
        "points_table",
        "Points",
        "Points table",
        "numbers",
        "none",
        "Points for 1st, 2nd, ...; beyond its end the last less the step a place. none = first and step.",
        optional=True,
    ),
    Key(
        "points_first",
        "Points",
        "Points for first place",
        "number",
        "100",
        "Points for first place when there is no table.",
    ),
    Key("points_step", "Points", "Step a place", "number", "1", "Points less for each further place."),
    Key("points_floor", "Points", "Fewest points", "number", "0", "A ranked team never gets fewer."),
    Key(
        "points_no_fish",
        "Points",
        "Points for no fish",
        "number or last",
        "0",
        "Points for a team that presented no fish: a number, or last = the fewest a ranked team got before additions.",
    ),
    Key(
        "points_not_weighed",
        "Points",
        "Points for not weighed",
        "number",
        "0",
        "Points for a team that never came to the table.",
    ),
    Key(
        "points_absent_below_last",
        "Points",
        "Absent, below last",
        "number",
        "none",
        "Points an absent team stands below the last ranked team; none = absent teams get 0.",
        optional=True,
    ),
    Key(
        "points_per_pound",
        "Points",
        "Points a whole pound",
        "number",
        "0",
        "Added for each whole pound of a ranked team's total.",
    ),
    Key(
        "points_big_fish",
        "Points",
        "Points for the big fish",
        "number",
        "0",
        "Added for the largest big fish of the event.",
    ),
    Key(
        "count_best",
        "Points",
        "Best events counted",
        "whole",
        "none",
        "How many of a season's events count; none = all.",
        optional=True,
        least=1,
    ),
    Key(
        "season_ties",
        "Points",
        "Season ties",
        "choices",
        "big_fish, share",
        "What separates equal points over the season, in order.",
        choices=SEASON_TIES,
    ),
    Key(
        "care_warm_f",
        "Fish care",
        "Care steps from",
        "number",
        "75",
        "Lake temperature in °F from which ice is looked for (Kansas agency rule: 75 °F).",
    ),
    Key(
        "care_max_cooling_f",
        "Fish care",
        "Largest cooling",
        "number",
        "7",
        "Most °F a livewell may be below the lake (Mississippi State summary: 7; other sources 8-10).",
    ),
    Key(
        "care_min_do",
        "Fish care",
        "Least oxygen",
        "number",
        "5.0",
        "Least dissolved oxygen in a livewell, mg/L (common practice: 5).",
    ),
    Key(
        "care_max_bag_minutes",
        "Fish care",
        "Longest in the bag",
        "number",
        "10",
        "Most minutes from bag issued to bag emptied (common practice: 10, with aerated tanks along the line: a closed bag of 15 lb in 2 gal lasts about 3 at rest).",
    ),
    Key(
        "care_max_held_minutes",
        "Fish care",
        "Longest held",
        "number",
        "none",
        "Most minutes from first fish to release; none = not checked.",
        optional=True,
    ),
    Key(
        "care_stop_percent",
        "Fish care",
        "Stop level",
        "percent",
        "10",
        "Share of dead fish, in per cent, at which the event should stop and think (Kansas called more than 10 % after weigh-in excessive).",
    ),
    Key(
        "deep_fish_kept_ft",
        "Fish care",
        "Deep fish are kept from",
        "number",
        "none",
        "Depth in feet from which fish are kept, not released, where the law allows it: from deep water few live, vented or not "
        "(care from 20 to 25 ft). Told to the boats; nothing is scored by it. none = no such rule.",
        optional=True,
    ),
    Key(
        "measured_lengths_above",
        "Fish care",
        "Measured lengths from",
        "number",
        "none",
        "Lake temperature in °F from which fish are measured and released at once instead of being held, decided the evening "
        "before. Told to the boats; nothing is scored by it. none = no such rule.",
        optional=True,
    ),
)

BY_NAME: dict[str, Key] = {key.name: key for key in KEYS}


def default_of(key: Key, unit: str) -> str:
    """The key's default as text in the event's unit (0.25 lb is written 0-04 in a pound-and-ounce event)."""
    if unit == "kg" and key.default_kg is not None:
        return key.default_kg
    if unit == "lb-oz" and key.kind.startswith("weight"):
        return {"0": "0", "0.25": "0-04", "1.00": "1-00"}[key.default]
    return key.default
