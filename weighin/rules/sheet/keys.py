"""The keys of a rule sheet in their order, each with its kind, its default and its meaning in words."""

from weighin.rules.faults import gettext_noop as _
from weighin.rules.sheet.care_keys import CARE_KEYS
from weighin.rules.sheet.key import Key

FISH = _("Fish")
DEAD_FISH = _("Dead fish")
SHORT_FISH = _("Short fish")
OVER_THE_LIMIT = _("Over the limit")
LATE = _("Late")
TOTALS = _("Totals and ties")
MONEY = _("Money")
POINTS = _("Points")
TIES = ("big_fish", "live_fish", "fish_count", "fewest_deductions", "first_day", "last_day", "lot", "share")
SEASON_TIES = ("big_fish", "total_weight", "share")


KEYS: tuple[Key, ...] = (
    Key("species", FISH, _("Species"), "text", "crappie", _("The fish that count.")),
    Key("fish_limit", FISH, _("Limit"), "whole", "7", _("Most fish a team may present in a day."), least=1),
    Key(
        "bag_tare",
        FISH,
        _("Bag tare"),
        "weight",
        "0",
        _("Weight of the empty bag or basket, subtracted when a slip gives no tare."),
    ),
    Key(
        "boat_limit",
        FISH,
        _("Boat limit"),
        "whole",
        "none",
        _("Most fish kept on board at once. Checked in fish care only; none = no such rule."),
        optional=True,
        least=1,
    ),
    Key(
        "minimum_length_in",
        FISH,
        _("Minimum length"),
        "number",
        "none",
        _("Shortest legal fish, in inches, mouth closed and flat on the board."),
        optional=True,
    ),
    Key(
        "dead_fish",
        DEAD_FISH,
        _("Dead fish"),
        "choice",
        "penalty",
        "",
        choices=("penalty", "not_weighed", "both"),
        _meanings=(
            _("weighed, but each costs weight"),
            _("dead fish stay off the scale"),
            _("off the scale and a penalty"),
        ),
    ),
    Key(
        "dead_fish_penalty",
        DEAD_FISH,
        _("Penalty for a dead fish"),
        "weights",
        "0.25",
        _(
            "Penalty for each dead fish; a list gives the 1st, 2nd, ... and the last repeats (0, 0.25 = the first is free)."
        ),
        default_kg="0.1",
    ),
    Key(
        "dead_fish_big_fish",
        DEAD_FISH,
        _("Dead fish as big fish"),
        "yes/no",
        "no",
        _("Whether a dead fish may be the big fish."),
    ),
    Key(
        "short_fish",
        SHORT_FISH,
        _("Short fish"),
        "choice",
        "penalty",
        "",
        choices=("penalty", "lose_largest", "lose_day"),
        _meanings=(
            _("each costs weight"),
            _("each also takes the largest fish"),
            _("the day is lost"),
        ),
    ),
    Key(
        "short_fish_penalty",
        SHORT_FISH,
        _("Penalty for a short fish"),
        "weight",
        "1.00",
        _("Penalty for each short fish."),
        default_kg="0.5",
    ),
    Key(
        "over_limit",
        OVER_THE_LIMIT,
        _("Over the limit"),
        "choice",
        "disqualify_day",
        "",
        choices=("disqualify_day", "remove_largest", "penalty"),
        _meanings=(
            _("the day is lost"),
            _("the largest fish come off"),
            _("the smallest come off and each costs weight"),
        ),
    ),
    Key(
        "over_limit_penalty",
        OVER_THE_LIMIT,
        _("Penalty for a fish over the limit"),
        "weight",
        "1.00",
        _("Penalty for each fish over the limit."),
        default_kg="0.5",
    ),
    Key(
        "late_penalty_per_minute",
        LATE,
        _("Penalty for a minute late"),
        "weight",
        "1.00",
        _("Penalty for each minute begun after the grace."),
        default_kg="0.5",
    ),
    Key("late_grace_minutes", LATE, _("Grace"), "number", "0", _("Minutes past the due time that cost nothing.")),
    Key(
        "late_disqualify_after_minutes",
        LATE,
        _("Day lost when later than"),
        "number",
        "15",
        _("Minutes past the due time after which the day is lost; none = never."),
        optional=True,
    ),
    Key(
        "late_reduces_big_fish",
        LATE,
        _("Late takes from the big fish"),
        "yes/no",
        "no",
        _("Whether the late penalty comes off the big fish too."),
    ),
    Key(
        "live_fish_bonus",
        TOTALS,
        _("Bonus for a live fish"),
        "weight",
        "0",
        _("Added for each legal live fish, up to the limit."),
    ),
    Key(
        "negative_totals",
        TOTALS,
        _("Totals below zero"),
        "choice",
        "floor",
        "",
        choices=("floor", "keep"),
        _meanings=(
            _("a day’s total is never below 0"),
            _("it stays negative"),
        ),
    ),
    Key(
        "ties",
        TOTALS,
        _("Ties"),
        "choices",
        "big_fish, live_fish, share",
        _("What separates equal totals, in order. share ends the list: tied teams share the place and the prize."),
        choices=TIES,
    ),
    Key(
        "cut_after_day",
        TOTALS,
        _("Cut after day"),
        "whole",
        "none",
        _("Day after which only the best fish on."),
        optional=True,
        least=1,
    ),
    Key(
        "cut_keep",
        TOTALS,
        _("Teams kept by the cut"),
        "whole",
        "none",
        _("How many teams fish on; all that are level at the line go on."),
        optional=True,
        least=1,
    ),
    Key("places_paid", MONEY, _("Places paid"), "places", "1 per 5", _("A number, or 1 per so many paid entries.")),
    Key(
        "payback_percent",
        MONEY,
        _("Paid back"),
        "percent",
        "100",
        _("Share of the entry fees that is paid out, in percent."),
    ),
    Key(
        "place_shares",
        MONEY,
        _("Shares of the places"),
        "numbers",
        "none",
        _("How paid places share, first to last, such as 40, 30, 20, 10; none = n, n-1, ..., 1."),
        optional=True,
    ),
    Key(
        "rounding",
        MONEY,
        _("Prizes rounded down to"),
        "money",
        "1.00",
        _("What each prize is rounded down to; the rest goes to first place."),
    ),
    Key(
        "big_fish_pot_fee",
        MONEY,
        _("Big fish pot fee"),
        "money",
        "0",
        _("Paid by each team that enters the big fish pot."),
    ),
    Key(
        "big_fish_shares",
        MONEY,
        _("Shares of the big fish pot"),
        "numbers",
        "100",
        _("Shares of the largest, second largest, ... big fish."),
    ),
    Key(
        "points_table",
        POINTS,
        _("Points table"),
        "numbers",
        "none",
        _("Points for 1st, 2nd, ...; beyond its end the last less the step a place. none = first and step."),
        optional=True,
    ),
    Key(
        "points_first",
        POINTS,
        _("Points for first place"),
        "number",
        "100",
        _("Points for first place when there is no table."),
    ),
    Key("points_step", POINTS, _("Step a place"), "number", "1", _("Points less for each further place.")),
    Key("points_floor", POINTS, _("Fewest points"), "number", "0", _("A ranked team never gets fewer.")),
    Key(
        "points_no_fish",
        POINTS,
        _("Points for no fish"),
        "number or last",
        "0",
        _(
            "Points for a team that presented no fish: a number, or last = the fewest a ranked team got before additions."
        ),
    ),
    Key(
        "points_not_weighed",
        POINTS,
        _("Points for not weighed"),
        "number",
        "0",
        _("Points for a team that never came to the table."),
    ),
    Key(
        "points_absent_below_last",
        POINTS,
        _("Absent, below last"),
        "number",
        "none",
        _("Points an absent team stands below the last ranked team; none = absent teams get 0."),
        optional=True,
    ),
    Key(
        "points_per_pound",
        POINTS,
        _("Points a whole pound"),
        "number",
        "0",
        _("Added for each whole pound of a ranked team’s total."),
    ),
    Key(
        "points_big_fish",
        POINTS,
        _("Points for the big fish"),
        "number",
        "0",
        _("Added for the largest big fish of the event."),
    ),
    Key(
        "count_best",
        POINTS,
        _("Best events counted"),
        "whole",
        "none",
        _("How many of a season’s events count; none = all."),
        optional=True,
        least=1,
    ),
    Key(
        "season_ties",
        POINTS,
        _("Season ties"),
        "choices",
        "big_fish, share",
        _("What separates equal points over the season, in order."),
        choices=SEASON_TIES,
    ),
    *CARE_KEYS,
)

BY_NAME: dict[str, Key] = {key.name: key for key in KEYS}

# What a season may say for all its events; none of them is a weight. The last two mean nothing within one event.
SEASON_KEYS = tuple(key.name for key in KEYS if key.section == POINTS)
OF_SEASON_ALONE = ("count_best", "season_ties")


def default_of(key: Key, unit: str) -> str:
    """The key's default as text in the event's unit (0.25 lb is written 0-04 in a pound-and-ounce event)."""
    if unit == "kg" and key.default_kg is not None:
        return key.default_kg
    if unit == "lb-oz" and key.kind.startswith("weight"):
        return {"0": "0", "0.25": "0-04", "1.00": "1-00"}[key.default]
    return key.default
