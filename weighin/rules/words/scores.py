"""Deductions, statuses and ties in words: one line each, no mark-up, in the reader's language."""

from collections.abc import Sequence

from weighin.rules.faults import Together, gettext_noop
from weighin.rules.language import gettext as _
from weighin.rules.language import ngettext
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import Deduction, Score
from weighin.rules.weights import show, word
from weighin.rules.words.amounts import each_costs, minutes_said, steps

STATUS_WORDS = {
    "ranked": gettext_noop("ranked"),
    "in_question": gettext_noop("in question"),
    "no_fish": gettext_noop("no fish"),
    "not_weighed": gettext_noop("not weighed"),
    "absent": gettext_noop("absent"),
    "disqualified": gettext_noop("disqualified"),
    "withdrawn": gettext_noop("withdrawn"),
    "entered": gettext_noop("entered"),
}
LOST_WORDS = {
    "ruling": gettext_noop("day lost by ruling"),
    "over_limit": gettext_noop("day lost for fish over the limit"),
    "short_fish": gettext_noop("day lost for a short fish"),
    "late": gettext_noop("day lost for coming in late"),
}
TIE_WORDS = {
    "big_fish": (gettext_noop("ahead by the larger big fish"), gettext_noop("behind by the smaller big fish")),
    "live_fish": (gettext_noop("ahead by more live fish"), gettext_noop("behind by fewer live fish")),
    "fish_count": (gettext_noop("ahead by more fish weighed"), gettext_noop("behind by fewer fish weighed")),
    "fewest_deductions": (
        gettext_noop("ahead by smaller penalties"),
        gettext_noop("behind by larger penalties"),
    ),
    "first_day": (gettext_noop("ahead by the better first day"), gettext_noop("behind by the poorer first day")),
    "last_day": (gettext_noop("ahead by the better last day"), gettext_noop("behind by the poorer last day")),
    "lot": (gettext_noop("ahead by lot"), gettext_noop("behind by lot")),
}


def days_lost_said(days: Sequence[int]) -> str:
    """``day 1 lost``, ``days 1 and 2 lost``; empty for none."""
    if not days:
        return ""
    listed = Together(tuple(days)).shown()
    return ngettext("day %(days)s lost", "days %(days)s lost", len(days)) % {"days": listed}


def status_in_words(status: str) -> str:
    """A team's status, or its status on the roster, as pages and papers write it. Raises KeyError for another word."""
    return _(STATUS_WORDS[status])


def lost_in_words(reason: str) -> str:
    """Why a day is lost; ``reason`` is one of ``scoring.LOST_REASONS``, KeyError otherwise."""
    return _(LOST_WORDS[reason])


def tie_in_words(key: str, ahead: bool) -> str:
    """What a tie-breaker did for a team: put it ahead of, or behind, teams with the same total.

    ``key`` is one of ``keys.TIES`` but ``share``, KeyError otherwise.
    """
    return _(TIE_WORDS[key][0 if ahead else 1])


def explain(what: Deduction | Score, rulebook: Rulebook, score: Score | None = None) -> str:
    """One line of words for a deduction; for a whole score a line each, or the reason its day is lost.

    The amount itself stands beside the line. ``score`` is the score a deduction belongs to: with it the
    line can say that the rules left no fish on the scale.

    >>> from decimal import Decimal
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
    if what.reason == "extra":
        return _("extra penalty: %(why)s") % {"why": what.text}
    if what.reason == "late":
        return _late(what.count, rulebook)
    if what.reason == "dead_fish":
        return _dead(what.count, rulebook)
    return _taken_off(what, rulebook, score)


def _late(minutes: int, rules: Rulebook) -> str:
    each, grace = each_costs(rules.late_penalty_per_minute, rules), rules.late_grace_minutes
    if not grace:
        return ngettext("%(n)s minute late, %(each)s", "%(n)s minutes late, %(each)s", minutes) % {
            "n": minutes,
            "each": each,
        }
    return ngettext(
        "%(n)s minute late after %(grace)s of grace, %(each)s",
        "%(n)s minutes late after %(grace)s of grace, %(each)s",
        minutes,
    ) % {"n": minutes, "grace": minutes_said(grace), "each": each}


def _dead(count: int, rules: Rulebook) -> str:
    taken = steps(rules)[:count]
    if len(taken) == 1:
        one = ngettext("%(n)s dead fish, %(each)s", "%(n)s dead fish, %(each)s", count)
        return one % {"n": count, "each": each_costs(taken[0], rules)}
    first, last = ", ".join(show(step, rules.unit) for step in taken[:-1]), show(taken[-1], rules.unit)
    if count > len(taken):
        said = _("%(n)s dead fish: %(first)s, then %(last)s %(unit)s each")
    else:
        said = _("%(n)s dead fish: %(first)s, then %(last)s %(unit)s")
    return said % {"n": count, "first": first, "last": last, "unit": word(rules.unit)}


def _taken_off(what: Deduction, rules: Rulebook, score: Score | None) -> str:
    """What fish over the limit, or short fish, took away."""
    over = what.reason == "over_limit"
    rule = rules.over_limit if over else rules.short_fish
    each = each_costs(rules.over_limit_penalty if over else rules.short_fish_penalty, rules)
    if rule == "penalty":
        said = _("%(n)s over the limit, %(each)s") if over else _("%(n)s short fish, %(each)s")
    elif not what.amount:
        said = (
            _("%(n)s over the limit: nothing left on the scale to remove")
            if over
            else _("%(n)s short fish: nothing left on the scale to remove")
        )
    elif score is not None and not score.weighed:
        said = (
            _("%(n)s over the limit: all %(all)s on the scale removed")
            if over
            else _("%(n)s short fish: all %(all)s on the scale removed")
        )
    elif over:
        said = ngettext(
            "%(n)s over the limit: the largest fish removed",
            "%(n)s over the limit: the %(n)s largest fish removed",
            what.count,
        )
    else:
        said = ngettext(
            "%(n)s short fish: the largest fish left removed",
            "%(n)s short fish: the %(n)s largest fish left removed",
            what.count,
        )
    return said % {"n": what.count, "each": each, "all": score.on_scale if score else 0}
