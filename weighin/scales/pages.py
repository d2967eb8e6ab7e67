"""Checks of scales as the record shows them."""

from datetime import datetime, tzinfo
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from weighin.scales.queries import Failure
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.words import error_in_words, size_in_words
from weighin.scales.models import ScaleCheck


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


def _clock(moment: datetime, zone: tzinfo) -> str:
    local = moment.astimezone(zone)
    return f"{local:%H:%M} on {local:%b} {local.day}"


@dataclass(frozen=True)
class Row:
    """A check as the record shows it."""

    check: ScaleCheck
    when: str
    verdict: str
    passed: bool
    out: str


def rows_of(checks: Sequence[ScaleCheck], calendar: Calendar) -> list[Row]:
    rows = []
    for check in checks:
        verdict = verdict_of(check)
        void = getattr(check, "replaced_by", None)
        rows.append(
            Row(
                check,
                _when(check.at, calendar),
                f"{error_in_words(verdict, check.unit)} ({size_in_words(verdict.divisions, 'd')})",
                verdict.passed,
                f"Taken out by {void.recorded_by}: {void.reason}" if void else "",
            )
        )
    return rows


def _when(moment: datetime, calendar: Calendar) -> str:
    local = moment.astimezone(calendar.zone)
    return (
        f"{local:%H:%M}"
        if len(calendar.days) == 1 and local.date() in _dates(calendar)
        else f"{local:%b} {local.day}, {local:%H:%M}"
    )


def _dates(calendar: Calendar) -> set[Any]:
    return {day.date for day in calendar.days.values()}
