"""Amounts in words: weights, counts, minutes and points with their nouns, in the reader's language."""

from collections.abc import Sequence
from decimal import Decimal

from weighin.rules.language import gettext as _
from weighin.rules.language import ngettext
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.rules.weights import spoken


def weight_said(weight: Decimal, rules: Rulebook) -> str:
    """``0.25 lb``."""
    return spoken(weight, rules.unit)


def cost(weight: Decimal, rules: Rulebook) -> str:
    """``0.25 lb``, or ``nothing``."""
    return weight_said(weight, rules) if weight else _("nothing")


def each_costs(weight: Decimal, rules: Rulebook) -> str:
    """``0.25 lb each``, or ``no penalty``."""
    return _("%(weight)s each") % {"weight": weight_said(weight, rules)} if weight else _("no penalty")


def steps(rules: Rulebook) -> tuple[Decimal, ...]:
    """The penalties for the 1st, 2nd, ... dead fish, without repeats at the end."""
    found = rules.dead_fish_penalty
    while len(found) > 1 and found[-1] == found[-2]:
        found = found[:-1]
    return found


def count_of_fish(number: int) -> str:
    """``1 fish``, ``7 fish``."""
    return ngettext("%(n)s fish", "%(n)s fish", number) % {"n": number}


def count_of_teams(number: int) -> str:
    """``1 team``, ``5 teams``."""
    return ngettext("%(n)s team", "%(n)s teams", number) % {"n": number}


def minutes_said(minutes: Decimal) -> str:
    """``1 minute``, ``2.5 minutes``."""
    return ngettext("%(n)s minute", "%(n)s minutes", minutes) % {"n": plain(minutes)}


def points_said(points: Decimal) -> str:
    """``1 point``, ``0.5 points``."""
    return ngettext("%(n)s point", "%(n)s points", points) % {"n": plain(points)}


def numbers(listed: Sequence[Decimal]) -> str:
    """``40, 30, 20, 10``."""
    return ", ".join(plain(number) for number in listed)


def ordinal(number: int) -> str:
    """``1st``, ``2nd``, ``11th``; a language with other endings has one text for them all."""
    if number % 10 == 1 and number % 100 != 11:
        said = _("%(n)sst")
    elif number % 10 == 2 and number % 100 != 12:
        said = _("%(n)snd")
    elif number % 10 == 3 and number % 100 != 13:
        said = _("%(n)srd")
    else:
        said = _("%(n)sth")
    return said % {"n": number}
