"""Scales with their checks, what failed between good ones, and which scale has no check yet today."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.utils import timezone

from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event
from weighin.rules import weights
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.tolerance import Verdict
from weighin.scales.models import Scale, ScaleCheck


@dataclass(frozen=True)
class Tested:
    """A check and its verdict."""

    check: ScaleCheck
    verdict: Verdict


@dataclass(frozen=True)
class Failure:
    """Failed checks of one scale with one test weight, between the last good one before and the first good one after."""

    scale: Scale
    failed: tuple[Tested, ...]
    since: ScaleCheck | None
    until: ScaleCheck | None

    @property
    def worst(self) -> Tested:
        """The check that was furthest off."""
        return max(self.failed, key=lambda one: abs(one.verdict.error))

    @property
    def error(self) -> Decimal:
        """How far the scale was off at most, in the event's unit."""
        return abs(self.worst.verdict.error)

    def covers(self, moment: datetime) -> bool:
        """Whether what was weighed at ``moment`` was weighed between the good checks."""
        return (self.since is None or moment >= self.since.at) and (self.until is None or moment <= self.until.at)


def scales_of(event: Event) -> list[Scale]:
    """The event's scales by name."""
    return list(Scale.objects.filter(event=event).select_related("now"))


def checks_of(event: Event) -> list[ScaleCheck]:
    """Every check of the event's scales, first to last, those that were taken out among them."""
    found = ScaleCheck.objects.filter(scale__event=event, void=False).select_related("scale", "replaced_by")
    return list(found.order_by("at", "received_at"))


def tested(checks: Iterable[ScaleCheck]) -> list[Tested]:
    """The checks that stand, judged."""
    return [Tested(one, verdict_of(one)) for one in checks if getattr(one, "replaced_by", None) is None]


def failures_of(found: Sequence[Tested]) -> list[Failure]:
    """The failures among judged checks in the order of time. A good check counts for its own test weight only."""
    lines: dict[tuple[int, Decimal], list[Tested]] = {}
    for one in found:
        size = weights.read(one.check.test_weight, one.check.unit)
        lines.setdefault((one.check.scale_id, size), []).append(one)
    failures = []
    for line in lines.values():
        good: ScaleCheck | None = None
        failed: list[Tested] = []
        for one in line:
            if not one.verdict.passed:
                failed.append(one)
                continue
            if failed:
                failures.append(Failure(failed[0].check.scale, tuple(failed), good, one.check))
            good, failed = one.check, []
        if failed:
            failures.append(Failure(failed[0].check.scale, tuple(failed), good, None))
    return sorted(failures, key=lambda one: one.failed[0].check.at)


def untested(scales: Iterable[Scale], checks: Iterable[ScaleCheck], day: date, calendar: Calendar) -> list[Scale]:
    """The scales in use that have no check on ``day``, by the event's clock."""
    done = {one.scale_id for one in checks if one.at.astimezone(calendar.zone).date() == day}
    return [scale for scale in scales if scale.in_use and scale.pk not in done]


def due_today(event: Event, calendar: Calendar, scales: Sequence[Scale], checks: Iterable[ScaleCheck]) -> list[Scale]:
    """The scales that wait for a check today; none on a day that is not fished."""
    today = timezone.now().astimezone(calendar.zone).date()
    if event.closed_at or today not in {calendar.days[number].date for number in calendar.fished}:
        return []
    standing = [one for one in checks if getattr(one, "replaced_by", None) is None]
    return untested(scales, standing, today, calendar)
