"""One slip (a team, a day): the section of that name of the scoring contract, sentence by sentence."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from fractions import Fraction
from math import ceil
from typing import Any

from .amounts import given, weight, weights, whole, yes
from .clock import Day, minutes

Row = Mapping[str, str]
ZERO = Fraction(0)


@dataclass
class Counts:
    """Fish of a slip as the rule sheet divides them."""

    fish: int
    alive: int
    dead: int
    short: int
    legal_alive: int
    over: int
    on_scale: int
    removed_over: int
    removed_short: int

    @property
    def removed(self) -> int:
        return self.removed_over + self.removed_short


@dataclass
class DayScore:
    """What one current slip comes to."""

    day: int
    fish: int
    alive: int
    dead: int
    weighed: int
    net: Fraction
    bonus: Fraction
    total: Fraction
    big_fish: Fraction | None
    lost: str | None
    deductions: list[dict[str, Any]] = field(default_factory=list)

    @property
    def penalty(self) -> Fraction:
        return sum((line["amount"] for line in self.deductions), ZERO)


def count(fish: int, alive: int, dead: int, short: int, rules: Mapping[str, Any]) -> Counts:
    """The bullets from `fish` presented to `removed`."""
    # "live ones are taken to be the short ones first: short_alive = min(short, alive), short_dead = the rest"
    short_alive = min(short, alive)
    # "legal = fish - short; legal_alive = alive - short_alive"
    legal = fish - short
    legal_alive = alive - short_alive
    # "over = max(0, fish - fish_limit): everything presented counts, short and dead too"
    limit = rules["fish_limit"]
    over = max(0, fish - limit)
    # "on_scale = all legal fish; with dead_fish = not_weighed or both, only the legal live ones;
    # with over_limit = penalty at most fish_limit"
    on_scale = legal_alive if rules["dead_fish"] in ("not_weighed", "both") else legal
    if rules["over_limit"] == "penalty":
        on_scale = min(on_scale, limit)
    # "removed = (over if over_limit = remove_largest) + (short if short_fish = lose_largest)"
    removed_over = over if rules["over_limit"] == "remove_largest" else 0
    removed_short = short if rules["short_fish"] == "lose_largest" else 0
    return Counts(fish, alive, dead, short, legal_alive, over, on_scale, removed_over, removed_short)


def lateness(slip: Row, day: Day, due: datetime, roll: Sequence[Row]) -> Fraction:
    """As written: "Lateness is checked_in minus the due time minus excused_minutes, never negative; or
    minutes_late, which is whole minutes before grace (and takes no excuse ...). A slip with neither takes the
    boat's check-in of that day (the first row that gives a time or minutes, the excuse said last; ...)".
    `roll` has the check-ins of the boat and day in the order they were written."""
    said = slip
    excused = slip.get("excused_minutes")
    if not given(slip.get("minutes_late")) and not given(slip.get("checked_in")):
        timed = [row for row in roll if given(row.get("checked_in")) or given(row.get("minutes_late"))]
        said = timed[0] if timed else {}
        # "a slip with an excuse alone takes the check-in's time and its own excuse"
        excuses = [row["excused_minutes"] for row in roll if given(row.get("excused_minutes"))]
        if not given(excused) and excuses:
            excused = excuses[-1]
    if given(said.get("minutes_late")):  # "beside minutes_late it is ignored"
        return Fraction(whole(said["minutes_late"]))
    if not given(said.get("checked_in")):
        return ZERO
    return max(ZERO, minutes(day.moment(said["checked_in"]), due) - (whole(excused) if given(excused) else 0))


def score(
    slip: Row, rules: Mapping[str, Any], unit: str, day: Day, due: datetime, roll: Sequence[Row] = ()
) -> DayScore:
    """The day's score of a slip; `due` is the flight's due time that day, else the day's; `roll` as in `lateness`."""
    short = whole(slip["short"]) if given(slip.get("short")) else 0
    counts = count(whole(slip["fish"]), whole(slip["alive"]), whole(slip["dead"]), short, rules)
    listed = weights(slip["largest_weights"], unit) if given(slip.get("largest_weights")) else []
    # "net = gross - tare, never negative (a blank tare is the rule sheet's bag_tare); where on_scale is 0,
    # gross is empty or equal to the tare and net is 0"
    tare = weight(slip["tare"], unit) if given(slip.get("tare")) else rules["bag_tare"]
    net = weight(slip["gross"], unit) - tare if counts.on_scale > 0 else ZERO
    net = max(ZERO, net)
    # "unless removed >= on_scale: then everything goes, and the loss is the whole net, put under over_limit
    # if that removes anything, else under short_fish"; "the counts stay as they are, and a short_fish line
    # whose fish went under over_limit stays with amount 0"
    if counts.removed >= counts.on_scale:
        lost_over = net if counts.removed_over else ZERO
        lost_short = net if counts.removed_short and not counts.removed_over else ZERO
    else:
        # "the first `over` of largest_weights"; "the next `short` of largest_weights"
        lost_over = sum(listed[: counts.removed_over], ZERO)
        lost_short = sum(listed[counts.removed_over : counts.removed], ZERO)
    # "weighed (fish that count) = max(0, on_scale - removed)"
    weighed = max(0, counts.on_scale - counts.removed)

    late = lateness(slip, day, due, roll)
    late_line = _late(late, rules)
    lines = [
        _over(counts, lost_over, rules),
        _short(counts, lost_short, rules),
        _dead(counts, rules),
        late_line,
        _extra(slip, unit),
    ]
    # "left out when count is 0 (an amount may be 0)"
    deductions = [line for line in lines if line["count"] > 0]

    lost = _lost(slip, counts, late, rules)
    if lost:
        # "(total 0, weighed 0, no bonus, no big fish, no deductions listed, lost = its reason)";
        # "its net stays in gross"
        return DayScore(day.number, counts.fish, counts.alive, counts.dead, 0, net, ZERO, ZERO, None, lost)

    # "bonus = live_fish_bonus x min(legal_alive, fish_limit)"
    bonus = rules["live_fish_bonus"] * min(counts.legal_alive, rules["fish_limit"])
    # "total = net - deductions + bonus; negative_totals = floor makes it at least 0 (per day)"
    total = net - sum((line["amount"] for line in deductions), ZERO) + bonus
    if rules["negative_totals"] == "floor":
        total = max(ZERO, total)
    big_fish = _big_fish(slip, counts, late_line["amount"], rules, unit)
    return DayScore(
        day.number,
        counts.fish,
        counts.alive,
        counts.dead,
        weighed,
        net,
        bonus,
        total,
        big_fish,
        None,
        deductions,
    )


def _over(counts: Counts, lost: Fraction, rules: Mapping[str, Any]) -> dict[str, Any]:
    """1. over_limit."""
    if rules["over_limit"] == "remove_largest":
        amount = lost
    else:  # "penalty: over x over_limit_penalty"; with disqualify_day the day is lost and no line is seen
        amount = counts.over * rules["over_limit_penalty"]
    return {"reason": "over_limit", "count": counts.over, "amount": amount}


def _short(counts: Counts, lost: Fraction, rules: Mapping[str, Any]) -> dict[str, Any]:
    """2. short_fish: "penalty: short x short_fish_penalty; lose_largest: ... one for each short fish"."""
    amount = lost if rules["short_fish"] == "lose_largest" else counts.short * rules["short_fish_penalty"]
    return {"reason": "short_fish", "count": counts.short, "amount": amount}


def _dead(counts: Counts, rules: Mapping[str, Any]) -> dict[str, Any]:
    """3. dead_fish "(dead_fish = penalty or both): every dead fish presented, short or not; the amounts of
    dead_fish_penalty for the 1st, 2nd, ...; the last repeats"."""
    if rules["dead_fish"] == "not_weighed":
        return {"reason": "dead_fish", "count": 0, "amount": ZERO}
    steps = rules["dead_fish_penalty"]
    amount = sum((steps[min(i, len(steps) - 1)] for i in range(counts.dead)), ZERO)
    return {"reason": "dead_fish", "count": counts.dead, "amount": amount}


def _late(late: Fraction, rules: Mapping[str, Any]) -> dict[str, Any]:
    """4. late: "minutes = whole minutes begun after the grace: max(0, ceil(lateness in minutes -
    late_grace_minutes)) x late_penalty_per_minute"."""
    begun = max(0, ceil(late - rules["late_grace_minutes"]))
    return {"reason": "late", "count": begun, "amount": begun * rules["late_penalty_per_minute"]}


def _extra(slip: Row, unit: str) -> dict[str, Any]:
    """5. extra: "extra_penalty, with its reason (count 1)"."""
    if not given(slip.get("extra_penalty")):
        return {"reason": "extra", "count": 0, "amount": ZERO}
    amount = weight(slip["extra_penalty"], unit)
    return {"reason": "extra", "count": 1, "amount": amount, "text": slip["extra_penalty_reason"].strip()}


def _lost(slip: Row, counts: Counts, late: Fraction, rules: Mapping[str, Any]) -> str | None:
    """As written: "If several, the first of these in this order": ruling, over_limit, short_fish, late."""
    if given(slip.get("disqualified_reason")):
        return "ruling"
    if counts.over > 0 and rules["over_limit"] == "disqualify_day":
        return "over_limit"
    if counts.short > 0 and rules["short_fish"] == "lose_day":
        return "short_fish"
    last = rules["late_disqualify_after_minutes"]
    # "lateness in minutes, seconds included, is more than late_disqualify_after_minutes"
    return "late" if last is not None and late > last else None


def _big_fish(slip: Row, counts: Counts, late_amount: Fraction, rules: Mapping[str, Any], unit: str) -> Fraction | None:
    """As written: "Big fish of the slip: counts when given, the day is not lost, and it was alive or
    dead_fish_big_fish = yes"; "With dead_fish = not_weighed or both a dead big fish never counts"."""
    if not given(slip.get("big_fish")):
        return None
    if given(slip.get("big_fish_alive")):
        alive = yes(slip["big_fish_alive"])
    elif counts.dead == 0:  # "big_fish_alive empty means alive when dead = 0"
        alive = True
    else:
        raise ValueError("big_fish_alive is empty with dead fish and a big fish")
    if not alive and (rules["dead_fish"] in ("not_weighed", "both") or not rules["dead_fish_big_fish"]):
        return None
    value = weight(slip["big_fish"], unit)
    # "its value is big_fish, less the late amount if late_reduces_big_fish = yes; worn down to 0 or below it
    # does not count"
    if rules["late_reduces_big_fish"]:
        value = value - late_amount
        return value if value > 0 else None
    return value
