"""Score one slip by the rule sheet, naming every deduction.

The order of the deductions, the reasons for a lost day and every boundary follow the project's
scoring contract (DEVELOPERS.md). Figures are exact; nothing is rounded here.
"""

import math
from collections.abc import Collection, Set
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from weighin.rules.faults import Fault, Faults, FieldName, Sentence, gettext_noop, ngettext_noop
from weighin.rules.rulebook import Rulebook
from weighin.rules.slips import Slip

GROSS_BELOW_TARE = Sentence(
    "gross_below_tare",
    gettext_noop("the scale reading is less than the tare: read the scale again or correct the tare"),
)
EXTRA_PENALTY_WITHOUT_REASON = Sentence(
    "extra_penalty_without_reason",
    gettext_noop("an extra penalty needs a reason: write it in %(extra_penalty_reason)s"),
)
COUNT_NEGATIVE = Sentence("count_negative", gettext_noop("a count is negative: write 0 or more"))
COUNTS_DISAGREE = Sentence(
    "counts_disagree", gettext_noop("%(fish)s fish, but %(alive)s alive and %(dead)s dead make %(total)s: count again")
)
MORE_SHORT_THAN_FISH = Sentence(
    "more_short_than_fish", gettext_noop("%(short)s short fish of %(fish)s: short fish are among the fish, count again")
)
LARGEST_NOT_FALLING = Sentence(
    "largest_not_falling", gettext_noop("the largest weights are not largest first: write them in falling order")
)
BIG_FISH_WITHOUT_FISH = Sentence(
    "big_fish_without_fish", gettext_noop("a big fish is given, but no fish was presented: correct one of the two")
)
BIG_FISH_DEAD_OF_LIVE = Sentence(
    "big_fish_dead_of_live", gettext_noop("no fish is dead, but the big fish is said to be: correct one of the two")
)
BIG_FISH_ALIVE_OF_DEAD = Sentence(
    "big_fish_alive_of_dead", gettext_noop("no fish is alive, but the big fish is said to be: correct one of the two")
)
BIG_FISH_ALIVE_MISSING = Sentence(
    "big_fish_alive_missing", gettext_noop("some fish are dead: say whether the big fish was alive, yes or no")
)
LARGEST_MISSING = Sentence(
    "largest_missing",
    ngettext_noop(
        "the rules take away the %(n)s largest fish: write its weight, largest first",
        "the rules take away the %(n)s largest fish: write their weights, largest first",
    ),
)
NO_WEIGHT = Sentence(
    "no_weight",
    ngettext_noop(
        "%(n)s fish is on the scale, but no weight: write the scale reading",
        "%(n)s fish are on the scale, but no weight: write the scale reading",
    ),
)
BIG_FISH_TOO_HEAVY = Sentence(
    "big_fish_too_heavy",
    gettext_noop("the big fish, %(big_fish)s, is heavier than the %(left)s that counts: read both again"),
)
LARGEST_ABOVE_NET = Sentence(
    "largest_above_net", gettext_noop("the largest weights add up to more than the net weight %(net)s: read them again")
)
WEIGHT_WITHOUT_FISH = Sentence(
    "weight_without_fish", gettext_noop("no fish goes on the scale under these rules: leave the weight empty")
)

ZERO = Decimal(0)
LOST_REASONS = ("ruling", "over_limit", "short_fish", "late")
DEDUCTION_REASONS = ("over_limit", "short_fish", "dead_fish", "late", "extra")
# What each thing that can be wrong hangs on: fields of the slip and keys of the rule sheet
COUNTS = ("fish", "alive", "dead", "short")
LATENESS = ("day", "boat", "checked_in", "minutes_late", "excused_minutes")
EXTRA = ("extra_penalty", "extra_penalty_reason")
SCALE_KEYS = ("fish_limit", "dead_fish", "over_limit")
REMOVAL = (*COUNTS, *SCALE_KEYS, "short_fish", "late_disqualify_after_minutes", "disqualified_reason", *LATENESS)


@dataclass(frozen=True)
class Deduction:
    """One line taken off: why, how many, and how much weight in all; ``text`` is the official's own reason."""

    reason: str
    count: int
    amount: Decimal
    text: str = ""


@dataclass(frozen=True)
class Score:
    """A scored slip. Weights are Decimal in the event's unit.

    ``net`` = gross less tare; ``on_scale`` fish the official weighs; ``weighed`` fish that count;
    ``big_fish`` the counting value or None; ``lost`` the reason the day is lost or None, and then
    ``total``, ``weighed`` and ``bonus`` are 0 and no deduction is listed.
    """

    net: Decimal
    deductions: tuple[Deduction, ...]
    bonus: Decimal
    total: Decimal
    on_scale: int
    weighed: int
    big_fish: Decimal | None
    lost: str | None


def on_scale(rulebook: Rulebook, slip: Slip) -> int:
    """How many fish go on the scale: legal ones, live ones only where the rules say so."""
    short_alive = min(slip.short, slip.alive)
    legal = slip.fish - slip.short if rulebook.dead_are_weighed else slip.alive - short_alive
    return min(legal, rulebook.fish_limit) if rulebook.over_limit == "penalty" else legal


def removed(rulebook: Rulebook, slip: Slip) -> tuple[int, int]:
    """How many of the largest fish come off: for the limit, and for short fish."""
    over = max(0, slip.fish - rulebook.fish_limit) if rulebook.over_limit == "remove_largest" else 0
    return over, slip.short if rulebook.short_fish == "lose_largest" else 0


def net_weight(rulebook: Rulebook, slip: Slip) -> Decimal:
    """Gross less tare; 0 where nothing was put on the scale. A blank tare is the rule sheet's bag tare."""
    if slip.gross is None:
        return ZERO
    return slip.gross - (rulebook.bag_tare if slip.tare is None else slip.tare)


def lost_day(rulebook: Rulebook, slip: Slip) -> str | None:
    """Why the day is lost, the first of LOST_REASONS that holds, or None."""
    if slip.disqualified_reason:
        return "ruling"
    if slip.fish > rulebook.fish_limit and rulebook.over_limit == "disqualify_day":
        return "over_limit"
    if slip.short > 0 and rulebook.short_fish == "lose_day":
        return "short_fish"
    limit = rulebook.late_disqualify_after_minutes
    if limit is not None and Fraction(slip.minutes_late) > Fraction(limit):
        return "late"
    return None


def minutes_begun(rulebook: Rulebook, slip: Slip) -> int:
    """Whole minutes begun after the grace; nearly every boat is on time, and fractions take a third of a score's time."""
    if not slip.minutes_late:
        return 0
    return max(0, math.ceil(Fraction(slip.minutes_late) - Fraction(rulebook.late_grace_minutes)))


def score(rulebook: Rulebook, slip: Slip) -> Score:
    """Score ``slip`` by ``rulebook``; every weight in the event's unit, exact.

    The slip must be sound: ``faults`` returns nothing for it. Raises Faults otherwise.

    A worked example of common practice: limit 7, dead 0.25 then 0.50, short fish lose the largest, one
    pound a minute late; 9.47 lb gross, 0.32 lb tare, two dead, one short, 2 min 10 s late.

    >>> from weighin.rules import rulebook
    >>> rules = rulebook.read({"dead_fish_penalty": "0.25, 0.50", "short_fish": "lose_largest"}, "lb")
    >>> slip = Slip(fish=7, alive=5, dead=2, short=1, gross=Decimal("9.47"), tare=Decimal("0.32"),
    ...             largest_weights=(Decimal("1.71"), Decimal("1.66")), minutes_late=Fraction(130, 60))
    >>> [(line.reason, line.count, str(line.amount)) for line in score(rules, slip).deductions]
    [('short_fish', 1, '1.71'), ('dead_fish', 2, '0.75'), ('late', 3, '3.00')]
    >>> str(score(rules, slip).total)
    '3.69'
    """
    wrong = faults(rulebook, slip)
    if wrong:
        raise Faults(wrong)
    net = net_weight(rulebook, slip)
    scale = on_scale(rulebook, slip)
    lost = lost_day(rulebook, slip)
    if lost:
        return Score(net, (), ZERO, ZERO, scale, 0, None, lost)

    late = minutes_begun(rulebook, slip) * rulebook.late_penalty_per_minute
    deductions = _deductions(rulebook, slip, net, scale, late)
    bonus = rulebook.live_fish_bonus * min(slip.alive - min(slip.short, slip.alive), rulebook.fish_limit)
    total = net - sum((line.amount for line in deductions), ZERO) + bonus
    if rulebook.negative_totals == "floor":
        total = max(total, ZERO)
    return Score(
        net=net,
        deductions=deductions,
        bonus=bonus,
        total=total,
        on_scale=scale,
        weighed=max(0, scale - sum(removed(rulebook, slip))),
        big_fish=_big_fish(rulebook, slip, late),
        lost=None,
    )


def faults(rulebook: Rulebook, slip: Slip, unsure: Collection[str] = ()) -> list[Fault]:
    """What is wrong with a slip under this rule sheet, each with its field; empty when it can be scored.

    Every fault is told, not the first, but nothing that hangs on a field already found wrong, nor on those that are
    ``unsure``: fields of the slip and keys of the rule sheet that could not be read.
    """
    wrong = count_faults(slip, unsure)
    doubt = {*unsure, *(COUNTS if wrong else ())}
    sure = doubt.isdisjoint
    weighed = ("gross", "bag_tare" if slip.tare is None else "tare")
    net = net_weight(rulebook, slip)
    scale = on_scale(rulebook, slip)
    if net < 0 and sure(weighed):
        wrong.append(GROSS_BELOW_TARE.at("gross"))
    elif sure(COUNTS) and sure(SCALE_KEYS) and sure(weighed):
        if scale > 0 and slip.gross is None:
            wrong.append(NO_WEIGHT.at("gross", n=scale))
        if scale == 0 and net > 0:
            wrong.append(WEIGHT_WITHOUT_FISH.at("gross"))
    doubt.update(fault.field for fault in wrong)
    wrong.extend(_largest_faults(rulebook, slip, net if sure(weighed) else None, scale, doubt))
    doubt.update(fault.field for fault in wrong)
    wrong.extend(_big_fish_faults(rulebook, slip, net if sure(weighed) else None, scale, doubt))
    if slip.extra_penalty is not None and not slip.extra_penalty_reason.strip() and sure(EXTRA):
        wrong.append(
            EXTRA_PENALTY_WITHOUT_REASON.at("extra_penalty", extra_penalty_reason=FieldName("extra_penalty_reason"))
        )
    return wrong


def count_faults(slip: Slip, unsure: Collection[str] = ()) -> list[Fault]:
    """What is wrong with a slip's counts under any rule sheet; ``unsure`` as for ``faults``."""
    if min(slip.fish, slip.alive, slip.dead, slip.short) < 0:
        return [COUNT_NEGATIVE.at("fish")]
    wrong = []
    if slip.fish != slip.alive + slip.dead and not {"fish", "alive", "dead"}.intersection(unsure):
        wrong.append(
            COUNTS_DISAGREE.at(
                "fish", "alive", "dead", fish=slip.fish, alive=slip.alive, dead=slip.dead, total=slip.alive + slip.dead
            )
        )
    if slip.short > slip.fish and not {"short", "fish"}.intersection(unsure):
        wrong.append(MORE_SHORT_THAN_FISH.at("short", "fish", short=slip.short, fish=slip.fish))
    return wrong


def _largest_faults(rulebook: Rulebook, slip: Slip, net: Decimal | None, scale: int, doubt: Set[str]) -> list[Fault]:
    """``net`` is None when it is in doubt."""
    largest = slip.largest_weights
    if "largest_weights" in doubt:
        return []
    wrong = []
    if any(later > earlier for earlier, later in pairwise(largest)):
        wrong.append(LARGEST_NOT_FALLING.at("largest_weights"))
    elif net is not None and slip.gross is not None and sum(largest, ZERO) > net:
        wrong.append(LARGEST_ABOVE_NET.at("largest_weights", net=net))
    taken = sum(removed(rulebook, slip))
    if len(largest) < taken < scale and doubt.isdisjoint(REMOVAL) and not lost_day(rulebook, slip):
        wrong.append(LARGEST_MISSING.at("largest_weights", n=taken))
    return wrong


def _big_fish_faults(rulebook: Rulebook, slip: Slip, net: Decimal | None, scale: int, doubt: Set[str]) -> list[Fault]:
    """``net`` is None when it is in doubt."""
    wrong = []
    if slip.big_fish is not None and slip.fish == 0 and doubt.isdisjoint(COUNTS):
        return [BIG_FISH_WITHOUT_FISH.at("big_fish")]
    if "big_fish_alive" not in doubt and doubt.isdisjoint(COUNTS):
        said = _alive_fault(slip)
        wrong += [said.at("big_fish_alive")] if said else []
    if slip.big_fish is None or net is None or not doubt.isdisjoint(REMOVAL):
        return wrong
    left = net if lost_day(rulebook, slip) else net - sum(_removed_weights(rulebook, slip, net, scale), ZERO)
    if slip.big_fish > left and doubt.isdisjoint(("largest_weights", "big_fish")):
        wrong.append(BIG_FISH_TOO_HEAVY.at("big_fish", big_fish=slip.big_fish, left=left))
    return wrong


def _alive_fault(slip: Slip) -> Sentence | None:
    if slip.big_fish_alive is False and slip.dead == 0:
        return BIG_FISH_DEAD_OF_LIVE
    if slip.big_fish_alive is True and slip.alive == 0:
        return BIG_FISH_ALIVE_OF_DEAD
    if slip.big_fish is not None and slip.big_fish_alive is None and slip.dead > 0:
        return BIG_FISH_ALIVE_MISSING
    return None


def _removed_weights(rulebook: Rulebook, slip: Slip, net: Decimal, scale: int) -> tuple[Decimal, Decimal]:
    """The weight that comes off for the limit and for short fish."""
    over, short = removed(rulebook, slip)
    if over + short >= scale:
        return (net, ZERO) if over else (ZERO, net if short else ZERO)
    taken = slip.largest_weights
    return sum(taken[:over], ZERO), sum(taken[over : over + short], ZERO)


def _deductions(rulebook: Rulebook, slip: Slip, net: Decimal, scale: int, late: Decimal) -> tuple[Deduction, ...]:
    over = max(0, slip.fish - rulebook.fish_limit)
    off_for_limit, off_for_short = _removed_weights(rulebook, slip, net, scale)
    if rulebook.over_limit == "penalty":
        off_for_limit = over * rulebook.over_limit_penalty
    if rulebook.short_fish == "penalty":
        off_for_short = slip.short * rulebook.short_fish_penalty
    dead = slip.dead if rulebook.dead_cost_weight else 0
    extra = slip.extra_penalty or ZERO
    steps = rulebook.dead_fish_penalty
    for_dead = sum(steps[:dead], ZERO) + max(0, dead - len(steps)) * steps[-1]
    lines = (
        Deduction("over_limit", over, off_for_limit),
        Deduction("short_fish", slip.short, off_for_short),
        Deduction("dead_fish", dead, for_dead),
        Deduction("late", minutes_begun(rulebook, slip), late),
        Deduction("extra", 0 if slip.extra_penalty is None else 1, extra, slip.extra_penalty_reason),
    )
    return tuple(line for line in lines if line.count)


def _big_fish(rulebook: Rulebook, slip: Slip, late: Decimal) -> Decimal | None:
    if slip.big_fish is None:
        return None
    alive = slip.dead == 0 if slip.big_fish_alive is None else slip.big_fish_alive
    if not alive and not (rulebook.dead_are_weighed and rulebook.dead_fish_big_fish):
        return None
    if not rulebook.late_reduces_big_fish:
        return slip.big_fish
    left = slip.big_fish - late
    return left if left > 0 else None
