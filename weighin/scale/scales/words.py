"""Checks of scales in words and figures."""

from datetime import datetime, tzinfo
from decimal import Decimal
from typing import TYPE_CHECKING

from weighin.rules import weights
from weighin.rules.values import plain
from weighin.scale.tolerance import Verdict

if TYPE_CHECKING:
    from weighin.scale.scales.queries import Failure, Mark


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


def failure_in_words(failure: "Failure", unit: str, zone: tzinfo) -> tuple[str, str]:
    """What failed, when and how far off; and between which good checks nobody knows better."""
    worst = failure.worst
    check, verdict = worst.check, worst.verdict
    way = "heavy" if verdict.error > 0 else "light"
    finding = (
        f"Scale {failure.scale.name} read {size_in_words(verdict.error, unit)} {way} at {_clock(check.at, zone)} with "
        f"{check.test_weight} {unit} on it; {size_in_words(verdict.tolerance, unit)} is allowed."
    )
    if failure.since is None:
        since = "No good check with that weight comes before it"
    else:
        since = f"The last good check with that weight was at {_clock(failure.since.at, zone)}"
    if failure.until is None:
        return finding, f"{since}, and none has come after."
    return finding, f"{since}, the next at {_clock(failure.until.at, zone)}."


def mark_in_words(mark: "Mark", unit: str) -> str:
    """Why a slip is in doubt, in one sentence."""
    names = " and ".join(dict.fromkeys(one.scale.name for one in mark.failures))
    size = size_in_words(mark.error, unit)
    if mark.sure:
        return f"It was weighed on scale {names} between good checks: the scale was up to {size} off."
    return f"It may have been weighed on scale {names}, which was up to {size} off; which scale it was is not recorded."


def _clock(moment: datetime, zone: tzinfo) -> str:
    local = moment.astimezone(zone)
    return f"{local:%H:%M} on {local:%b} {local.day}"
