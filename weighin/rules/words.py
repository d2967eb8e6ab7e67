"""Rules, deductions, statuses and ties in words: plain sentences for members, no mark-up."""

from collections.abc import Sequence
from decimal import Decimal

from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import Deduction, Score
from weighin.rules.values import plain
from weighin.rules.weights import show, word

STATUS_WORDS = {
    "ranked": "ranked",
    "in_question": "in question",
    "no_fish": "no fish",
    "not_weighed": "not weighed",
    "absent": "absent",
    "disqualified": "disqualified",
    "withdrawn": "withdrawn",
    "entered": "entered",
}
LOST_WORDS = {
    "ruling": "day lost by ruling",
    "over_limit": "day lost for fish over the limit",
    "short_fish": "day lost for a short fish",
    "late": "day lost for coming in late",
}
TIE_WORDS = {
    "big_fish": ("ahead by the larger big fish", "behind by the smaller big fish"),
    "live_fish": ("ahead by more live fish", "behind by fewer live fish"),
    "fish_count": ("ahead by more fish weighed", "behind by fewer fish weighed"),
    "fewest_deductions": ("ahead by less weight taken off", "behind by more weight taken off"),
    "first_day": ("ahead by the better first day", "behind by the poorer first day"),
    "last_day": ("ahead by the better last day", "behind by the poorer last day"),
    "lot": ("ahead by lot", "behind by lot"),
}
TIE_RULES = {
    "big_fish": "the larger big fish",
    "live_fish": "more live fish on days not lost",
    "fish_count": "more fish weighed",
    "fewest_deductions": "less weight taken off",
    "first_day": "the better first day",
    "last_day": "the better last day",
    "lot": "lot, the lower number first",
    "total_weight": "more weight over the season",
}


def days_lost_said(days: Sequence[int]) -> str:
    """``day 1 lost``, ``days 1 and 2 lost``; empty for none."""
    numbers = [str(day) for day in days]
    if len(numbers) < 2:
        return f"day {numbers[0]} lost" if numbers else ""
    return f"days {', '.join(numbers[:-1])} and {numbers[-1]} lost"


def status_in_words(status: str) -> str:
    """A team's status, or its status on the roster, as pages and papers write it. Raises KeyError for another word."""
    return STATUS_WORDS[status]


def lost_in_words(reason: str) -> str:
    """Why a day is lost; ``reason`` is one of ``scoring.LOST_REASONS``, KeyError otherwise."""
    return LOST_WORDS[reason]


def tie_in_words(key: str, ahead: bool) -> str:
    """What a tie-breaker did for a team: put it ahead of, or behind, teams with the same total.

    ``key`` is one of ``keys.TIES`` but ``share``, KeyError otherwise.
    """
    return TIE_WORDS[key][0 if ahead else 1]


def explain(what: Deduction | Score, rulebook: Rulebook, score: Score | None = None) -> str:
    """One line of words for a deduction; for a whole score a line each, or the reason its day is lost.

    The amount itself stands beside the line. ``score`` is the score a deduction belongs to: with it the
    line can say that the rules left no fish on the scale.

    >>> from weighin.rules import rulebook
    >>> rules = rulebook.read({"dead_fish_penalty": "0.25, 0.50"}, "lb")
    >>> explain(Deduction("dead_fish", 3, Decimal("1.25")), rules)
    '3 dead fish: 0.25, then 0.50 lb each'
    >>> explain(Deduction("late", 1, Decimal("1.00")), rules)
    '1 minute late, 1.00 lb each'
    """
    if isinstance(what, Score):
        if what.lost:
            return lost_in_words(what.lost)
        return "\n".join(explain(line, rulebook, what) for line in what.deductions)
    count = what.count
    if what.reason == "extra":
        return f"extra penalty: {what.text}"
    if what.reason == "late":
        grace = f" after {_minutes(rulebook.late_grace_minutes)} of grace" if rulebook.late_grace_minutes else ""
        return f"{_count(count, 'minute')} late{grace}, {_each(rulebook.late_penalty_per_minute, rulebook)}"
    if what.reason == "dead_fish":
        return _dead(count, rulebook)
    if what.reason == "over_limit":
        fish, left = f"{count} over the limit", ""
        rule, penalty = rulebook.over_limit, rulebook.over_limit_penalty
    else:
        fish, left = f"{count} short fish", " left"
        rule, penalty = rulebook.short_fish, rulebook.short_fish_penalty
    if rule == "penalty":
        return f"{fish}, {_each(penalty, rulebook)}"
    if not what.amount:
        return f"{fish}: nothing left on the scale to remove"
    if score is not None and not score.weighed:
        return f"{fish}: all {score.on_scale} on the scale removed"
    return f"{fish}: the {'' if count == 1 else f'{count} '}largest fish{left} removed"


def sheet_in_words(rulebook: Rulebook) -> list[tuple[str, list[str]]]:
    """The whole rule sheet: sections in the order of the keys, each with its sentences.

    Every key that matters under the others is in the words, so two sheets that read alike score alike.
    """
    return [
        ("Fish", _fish_rules(rulebook)),
        ("Dead fish", _dead_rules(rulebook)),
        ("Short fish", [_short_rule(rulebook)]),
        ("Over the limit", [_over_rule(rulebook)]),
        ("Late", _late_rules(rulebook)),
        ("Totals and ties", _total_rules(rulebook)),
        ("Money", _money_rules(rulebook)),
        ("Points", _points_rules(rulebook)),
        ("Fish care", _care_rules(rulebook)),
    ]


def _fish_rules(rules: Rulebook) -> list[str]:
    unit = {
        "lb": "Weights are in pounds.",
        "lb-oz": "Weights are in pounds and ounces: 9-07.5 is 9 lb 7.5 oz.",
        "kg": "Weights are in kilograms.",
    }
    length = rules.minimum_length_in
    return [
        unit[rules.unit],
        f"The fish that count: {rules.species}.",
        f"A team may present at most {_count(rules.fish_limit, 'fish', 'fish')} a day. "
        "Everything laid on the table counts towards that, short and dead fish too.",
        f"Where a slip gives no tare, the empty bag weighs {_cost(rules.bag_tare, rules)}.",
        "No limit is set for the fish kept on board."
        if rules.boat_limit is None
        else f"At most {_count(rules.boat_limit, 'fish', 'fish')} may be kept on board at once; "
        "fish care checks it, it costs no weight.",
        "No minimum length is set."
        if length is None
        else f"A fish under {plain(length)} in, mouth closed and flat on the board, is short.",
    ]


def _dead_rules(rules: Rulebook) -> list[str]:
    sentences = ["Dead fish are weighed." if rules.dead_are_weighed else "Dead fish are not weighed."]
    if rules.dead_cost_weight:
        sentences.append(_dead_cost(rules))
    big = rules.dead_are_weighed and rules.dead_fish_big_fish
    return [
        *sentences,
        "A dead fish may be the big fish." if big else "A dead fish cannot be the big fish.",
        "A fish that dies after the table costs nothing; it counts among the dead of the event.",
    ]


def _dead_cost(rules: Rulebook) -> str:
    steps = _steps(rules)
    if len(steps) == 1:
        return f"Each dead fish, short or not, costs {_cost(steps[0], rules)}."
    parts = [f"the {_ordinal(place)} {_cost(step, rules)}" for place, step in enumerate(steps, start=1)]
    parts[-1] = f"the {_ordinal(len(steps))} and each further one {_cost(steps[-1], rules)}"
    return f"Dead fish, short or not, cost by their number in the day: {', '.join(parts)}."


def _short_rule(rules: Rulebook) -> str:
    if rules.short_fish == "lose_day":
        return "A short fish on the table loses the day."
    if rules.short_fish == "lose_largest":
        return "Short fish are not weighed, and each also takes away the largest fish still on the scale."
    return f"Short fish are not weighed, and each costs {_cost(rules.short_fish_penalty, rules)}."


def _over_rule(rules: Rulebook) -> str:
    if rules.over_limit == "disqualify_day":
        return "A fish over the limit loses the day."
    if rules.over_limit == "remove_largest":
        return "Each fish over the limit takes away the largest fish still on the scale."
    limit = _count(rules.fish_limit, "fish", "fish")
    return (
        f"The smallest come off until no more than {limit} are weighed, "
        f"and each fish over the limit costs {_cost(rules.over_limit_penalty, rules)}."
    )


def _late_rules(rules: Rulebook) -> list[str]:
    penalty, last = rules.late_penalty_per_minute, rules.late_disqualify_after_minutes
    sentences = ["Coming in late costs no weight."]
    if penalty:
        grace = rules.late_grace_minutes
        after = f"after {_minutes(grace)} of grace" if grace else "past the due time"
        big_fish = "loses as much" if rules.late_reduces_big_fish else "keeps its weight"
        sentences = [f"Each minute begun {after} costs {_cost(penalty, rules)}; the big fish {big_fish}."]
    return [
        *sentences,
        "However late a team comes in, it keeps its day."
        if last is None
        else f"A team more than {_minutes(last)} past its due time, seconds included, loses the day.",
        "Minutes a team is excused for do not count.",
    ]


def _total_rules(rules: Rulebook) -> list[str]:
    bonus, cut = rules.live_fish_bonus, rules.cut_after_day
    floor = rules.negative_totals == "floor"
    return [
        f"Each legal live fish adds {_weight(bonus, rules)}, for up to {_count(rules.fish_limit, 'fish', 'fish')}."
        if bonus
        else "Live fish add no bonus.",
        "A day's total is never below 0." if floor else "A day's total may be below 0 and counts as it is.",
        "A lost day counts 0; its fish still count in fish care and among the dead of the event.",
        _ties("Equal totals", rules.ties, "the place and the prizes"),
        "Every team may fish every day: there is no cut."
        if cut is None or rules.cut_keep is None
        else f"After day {cut} the best {_count(rules.cut_keep, 'team')} "
        "and all that are level with the last of them fish on; the others rank below them.",
    ]


def _ties(what: str, keys: Sequence[str], shared: str) -> str:
    names = [TIE_RULES[key] for key in dict.fromkeys(keys) if key != "share"]
    if not names:
        return f"{what} share {shared}."
    return f"{what} are separated by {', then by '.join(names)}; what is still equal shares {shared}."


def _money_rules(rules: Rulebook) -> list[str]:
    places, shares = rules.places_paid, rules.place_shares
    if places.number is not None:
        paid = f"{_count(places.number, 'place')} {'is' if places.number == 1 else 'are'} paid"
    else:
        paid = f"One place is paid for every {_count(places.one_per or 1, 'paid entry', 'paid entries')}, at least one"
    most = "" if shares is None else f", at most {len(shares)}"
    divided = (
        "With n places paid, first place has n shares of the purse, second n - 1, and so on down to 1."
        if shares is None
        else f"The shares of the purse, from first place on: {_numbers(shares)}."
    )
    return [
        f"{plain(rules.payback_percent)} % of the paid entry fees goes into the purse, and all added money.",
        f"{paid}{most}.",
        divided,
        f"Each prize is rounded down to {rules.rounding:.2f}; what is left goes to first place.",
        "Teams that tie split the prizes of the places they cover.",
        "A team that has not paid keeps its place; its prize passes to the next that has.",
        *_pot_rules(rules),
    ]


def _pot_rules(rules: Rulebook) -> list[str]:
    if not rules.big_fish_pot_fee:
        return ["There is no big fish pot."]
    sentences = [f"The big fish pot costs a team {rules.big_fish_pot_fee:.2f} and is paid out whole."]
    if len(rules.big_fish_shares) == 1:
        return [*sentences, "The largest big fish of the ranked teams in it wins it."]
    return [
        *sentences,
        f"Its shares, from the largest big fish on, one a team: {_numbers(rules.big_fish_shares)}.",
    ]


def _points_rules(rules: Rulebook) -> list[str]:
    table, step = rules.points_table, rules.points_step
    further = f"each further place {plain(step)} fewer" if step else "each further place as many"
    first = (
        f"First place gets {_points(rules.points_first)}, {further}"
        if table is None
        else f"The points of the places, from first on: {_numbers(table)}; {further}"
    )
    below, no_fish = rules.points_absent_below_last, rules.points_no_fish
    least = "the fewest a ranked team got before additions"
    return [
        f"{first}; a ranked team never gets fewer than {plain(rules.points_floor)}.",
        f"A team that presented no fish gets {least if no_fish is None else _points(no_fish)}.",
        f"A team that never came to the table gets {_points(rules.points_not_weighed)}.",
        "An absent, disqualified or withdrawn team gets 0 points."
        if below is None
        else f"An absent team gets {plain(below)} fewer than {least}, never below 0; "
        "a disqualified or withdrawn team gets 0 points.",
        *_additions(rules),
        "All events of the season count."
        if rules.count_best is None
        else f"A team's best {_count(rules.count_best, 'event')} of the season count; "
        "one it was disqualified in is among them and cannot be dropped.",
        _ties("Equal points over the season", rules.season_ties, "the place"),
    ]


def _additions(rules: Rulebook) -> list[str]:
    sentences = []
    if rules.points_per_pound:
        sentences.append(f"Each whole pound of a ranked team's total adds {_points(rules.points_per_pound)}.")
    if rules.points_big_fish:
        sentences.append(f"The largest big fish of the ranked teams adds {_points(rules.points_big_fish)}.")
    return sentences or ["Nothing is added for weight or for the big fish."]


def _care_rules(rules: Rulebook) -> list[str]:
    held, deep, hot = rules.care_max_held_minutes, rules.deep_fish_kept_ft, rules.measured_lengths_above
    return [
        "Fish care is checked and costs no weight.",
        f"With the lake at {plain(rules.care_warm_f)} °F or warmer, a livewell has ice.",
        f"A livewell is at most {plain(rules.care_max_cooling_f)} °F cooler than the lake.",
        f"A livewell has at least {plain(rules.care_min_do)} mg/L of dissolved oxygen.",
        f"Fish are at most {_minutes(rules.care_max_bag_minutes)} in the bag.",
        "No limit is set for the time from first fish to release."
        if held is None
        else f"From first fish to release pass at most {_minutes(held)}.",
        f"When {plain(rules.care_stop_percent)} % of the fish are dead, the director decides whether to go on.",
        *(
            []
            if deep is None
            else [f"Fish from {plain(deep)} ft or deeper are kept where the law allows it, not released."]
        ),
        *(
            []
            if hot is None
            else [f"With the lake at {plain(hot)} °F or warmer, fish are measured and released at once."]
        ),
    ]


def _dead(count: int, rules: Rulebook) -> str:
    steps = _steps(rules)
    taken = steps[:count]
    shown = [show(step, rules.unit) for step in taken]
    if len(taken) == 1:
        return f"{count} dead fish, {_each(taken[0], rules)}"
    each = " each" if count > len(taken) else ""
    return f"{count} dead fish: {', '.join(shown[:-1])}, then {shown[-1]} {word(rules.unit)}{each}"


def _steps(rules: Rulebook) -> tuple[Decimal, ...]:
    """The penalties for the 1st, 2nd, ... dead fish, without repeats at the end."""
    steps = rules.dead_fish_penalty
    while len(steps) > 1 and steps[-1] == steps[-2]:
        steps = steps[:-1]
    return steps


def _weight(weight: Decimal, rules: Rulebook) -> str:
    return f"{show(weight, rules.unit)} {word(rules.unit)}"


def _cost(weight: Decimal, rules: Rulebook) -> str:
    return _weight(weight, rules) if weight else "nothing"


def _each(weight: Decimal, rules: Rulebook) -> str:
    return f"{_weight(weight, rules)} each" if weight else "no penalty"


def _count(count: int, one: str, many: str = "") -> str:
    return f"{count} {one if count == 1 else many or one + 's'}"


def _minutes(minutes: Decimal) -> str:
    return f"{plain(minutes)} {'minute' if minutes == 1 else 'minutes'}"


def _points(points: Decimal) -> str:
    return f"{plain(points)} {'point' if points == 1 else 'points'}"


def _numbers(numbers: Sequence[Decimal]) -> str:
    return ", ".join(plain(number) for number in numbers)


def _ordinal(number: int) -> str:
    ending = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
