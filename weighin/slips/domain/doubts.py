"""What is unlikely about a slip: said before it is kept and after, never in the way of keeping it.

The same as ``slip/doubts.js`` says on the tablet; a test runs both.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from statistics import median_high

from django.utils.translation import gettext

from weighin.events.domain.table import Table
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import on_scale
from weighin.rules.slips import Slip
from weighin.rules.species import believable
from weighin.rules.weights import show, word
from weighin.slips.domain.values import rules_slip
from weighin.slips.models import WeighSlip

GIANT = (
    2  # the heaviest that is believable, divided by this, is a giant (1.75 lb in crappie): common practice, no source
)
TIMES_USUAL = Fraction("2.5")  # where the event's own slips say what is usual, this often more or less is unlikely
TENFOLD = 6  # from here the point may stand in the wrong place
ENOUGH = 5


@dataclass(frozen=True)
class Doubt:
    """The field it stands at, and the sentence."""

    field: str
    message: str


def usual_per_fish(slips: Iterable[WeighSlip], table: Table) -> Fraction | None:
    """The middle weight per fish of these slips, bag taken off; None while they are few."""
    found = [per_fish(table.rules, rules_slip(slip, table)) for slip in slips if not slip.void and slip.fish]
    weighed = [one for one in found if one is not None and one > 0]
    return median_high(weighed) if len(weighed) >= ENOUGH else None


def per_fish(rules: Rulebook, slip: Slip) -> Fraction | None:
    """Weight per fish on the scale, bag taken off; None when it cannot be told."""
    number = on_scale(rules, slip)
    if slip.gross is None or number < 1:
        return None
    return Fraction(slip.gross - (rules.bag_tare if slip.tare is None else slip.tare)) / number


def doubts(rules: Rulebook, slip: Slip, usual: Fraction | None) -> list[Doubt]:
    """``slip`` is one that can be scored; ``usual`` is the event's middle weight per fish."""
    found = []
    kind = believable(rules.species, rules.unit)
    giant, lightest = (Fraction(kind.heaviest) / GIANT, Fraction(kind.lightest)) if kind else (None, Fraction(0))
    if slip.fish > rules.fish_limit:
        over = gettext("%(n)s fish, and the limit is %(limit)s: count again.")
        found.append(Doubt("alive", over % {"n": slip.fish, "limit": rules.fish_limit}))
    each = per_fish(rules, slip)
    most, fewest = (usual * TIMES_USUAL, max(usual / TIMES_USUAL, lightest)) if usual else (giant, lightest)
    compared = ""
    if usual:
        compared = gettext("boats here bring %(weight)s a fish") % {"weight": _written(usual, rules)}
    elif kind and giant:
        compared = gettext("a fish of %(weight)s is a giant among %(kind)s") % {
            "weight": _written(giant, rules),
            "kind": kind.words,
        }
    if each is not None and (each < fewest or (most is not None and each > most)):
        why = compared
        if kind and each < lightest:
            why = gettext("%(kind)s are hardly lighter than %(weight)s each") % {
                "kind": kind.words,
                "weight": _written(lightest, rules),
            }
        said = gettext("%(gross)s is %(each)s a fish; %(why)s. Read the scale again.")
        if usual and not usual / TENFOLD <= each <= usual * TENFOLD:
            said = gettext("%(gross)s is %(each)s a fish; %(why)s. Is the point in its place? Read the scale again.")
        gross = show(slip.gross or Decimal(0), rules.unit)
        found.append(Doubt("gross", said % {"gross": gross, "each": _written(each, rules), "why": why}))
    if slip.big_fish:
        big = show(slip.big_fish, rules.unit)
        too_big = max((one for one in (usual and usual * TIMES_USUAL, giant) if one), default=None)
        if too_big is not None and Fraction(slip.big_fish) > too_big:
            heavier = gettext("%(weight)s is heavier than the fish one expects: %(compared)s.")
            found.append(Doubt("big_fish", heavier % {"weight": big, "compared": compared}))
        elif each is not None and Fraction(slip.big_fish) < each:
            lighter = gettext(
                "%(weight)s is lighter than this boat’s fish on average (%(average)s): weigh the largest."
            )
            found.append(Doubt("big_fish", lighter % {"weight": big, "average": _written(each, rules)}))
    return found


def _written(size: Fraction, rules: Rulebook) -> str:
    return f"{float(size):.2f} {'kg' if rules.unit == 'kg' else word('lb')}"
