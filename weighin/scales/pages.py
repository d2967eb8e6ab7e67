"""Checks of scales as the record shows them."""

from datetime import datetime, tzinfo
from typing import TYPE_CHECKING

from django.utils.translation import gettext

if TYPE_CHECKING:
    from weighin.scales.queries import Failure
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.rules.values import plain
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.words import error_in_words, size_in_words
from weighin.scales.models import ScaleCheck
from weighin.ui import figures


def failure_in_words(failure: "Failure", unit: str, zone: tzinfo) -> tuple[str, str]:
    """What failed, when and how far off; and between which good checks nobody knows better."""
    worst = failure.worst
    check, verdict = worst.check, worst.verdict
    said = gettext("Scale %(scale)s read %(error)s light at %(time)s with %(weight)s on it; %(allowed)s is allowed.")
    if verdict.error > 0:
        said = gettext(
            "Scale %(scale)s read %(error)s heavy at %(time)s with %(weight)s on it; %(allowed)s is allowed."
        )
    finding = said % {
        "scale": failure.scale.name,
        "error": size_in_words(verdict.error, unit),
        "time": _clock(check.at, zone),
        "weight": f"{check.test_weight} {unit}",
        "allowed": size_in_words(verdict.tolerance, unit),
    }
    since, until = failure.since, failure.until
    if since is None and until is None:
        between = gettext("No good check with that weight comes before it, and none has come after.")
    elif since is None:
        between = gettext("No good check with that weight comes before it, the next at %(until)s.")
    elif until is None:
        between = gettext("The last good check with that weight was at %(since)s, and none has come after.")
    else:
        between = gettext("The last good check with that weight was at %(since)s, the next at %(until)s.")
    times = {"since": since and _clock(since.at, zone), "until": until and _clock(until.at, zone)}
    return finding, between % times


def _clock(moment: datetime, zone: tzinfo) -> str:
    return figures.moment(moment, zone)


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
                gettext("%(error)s (%(divisions)s d)")
                % {"error": error_in_words(verdict, check.unit), "divisions": plain(abs(verdict.divisions))},
                verdict.passed,
                gettext("Voided by %(by)s: %(why)s") % {"by": void.recorded_by, "why": void.reason} if void else "",
            )
        )
    return rows


def _when(moment: datetime, calendar: Calendar) -> str:
    local = moment.astimezone(calendar.zone)
    return (
        figures.clock(local) if len(calendar.days) == 1 and local.date() in _dates(calendar) else figures.moment(local)
    )


def _dates(calendar: Calendar) -> set[Any]:
    return {day.date for day in calendar.days.values()}
