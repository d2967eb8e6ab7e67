"""Checks of scales in words and figures."""

from decimal import Decimal

from django.utils.translation import gettext

from weighin.rules import weights
from weighin.rules.values import plain
from weighin.scales.domain.tolerance import Verdict


def size_in_words(size: Decimal, unit: str) -> str:
    """A difference as an official says it: ``0.02 lb``, ``0.5 oz``, ``0.004 kg``.

    >>> size_in_words(Decimal("0.03125"), "lb-oz"), size_in_words(Decimal("0.020"), "lb")
    ('0.5 oz', '0.02 lb')
    """
    if unit == "lb-oz":
        return f"{plain(abs(size) / weights.OUNCE)} oz"
    return f"{plain(abs(size))} {unit}"


def error_in_words(verdict: Verdict, unit: str) -> str:
    """What a test showed, against what is allowed."""
    if verdict.error == 0:
        said = gettext("passed, exact; %(allowed)s is allowed")
    elif verdict.passed and verdict.error > 0:
        said = gettext("passed, %(error)s heavy; %(allowed)s is allowed")
    elif verdict.passed:
        said = gettext("passed, %(error)s light; %(allowed)s is allowed")
    elif verdict.error > 0:
        said = gettext("failed, %(error)s heavy; %(allowed)s is allowed")
    else:
        said = gettext("failed, %(error)s light; %(allowed)s is allowed")
    return said % {"error": size_in_words(verdict.error, unit), "allowed": size_in_words(verdict.tolerance, unit)}
