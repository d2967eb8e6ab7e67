"""Checks of scales in words and figures."""

from decimal import Decimal
from typing import TYPE_CHECKING

from weighin.rules import weights
from weighin.rules.values import plain
from weighin.scales.domain.tolerance import Verdict

if TYPE_CHECKING:
    pass


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
    allowed = f"{size_in_words(verdict.tolerance, unit)} is allowed"
    if verdict.error == 0:
        return f"passed, exact; {allowed}"
    way = "heavy" if verdict.error > 0 else "light"
    said = f"{size_in_words(verdict.error, unit)} {way}; {allowed}"
    return f"passed, {said}" if verdict.passed else f"failed, {said}"
