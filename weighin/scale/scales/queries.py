"""Scales with their checks, which scale has none yet today, and the slips that a failed check casts doubt on.

A slip does not name its scale. With one scale in the event every slip is its. With several a slip belongs to the scale
its readings came from; without readings, to the scale that its station is written beside; where neither is known it
may be any scale's, and a failed check of any marks it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from uuid import UUID

from django.utils import timezone

from weighin.events.calendar import Calendar
from weighin.events.models import Event
from weighin.rules import weights
from weighin.scale.models import Scale, ScaleCheck, ScaleReading, WeighSlip
from weighin.scale.scales.judging import verdict_of
from weighin.scale.tolerance import Verdict

STATION = "station "


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


@dataclass(frozen=True)
class Mark:
    """Why a slip is in doubt. ``sure``: it is known that it was weighed on the scale."""

    failures: tuple[Failure, ...]
    sure: bool

    @property
    def error(self) -> Decimal:
        """The largest error seen."""
        return max(one.error for one in self.failures)


@dataclass(frozen=True)
class Doubts:
    """The failures of an event's scales, and the slips they mark by id."""

    failures: tuple[Failure, ...] = ()
    marks: dict[UUID, Mark] = field(default_factory=dict)


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


def doubts_of(event: Event, slips: Iterable[WeighSlip]) -> Doubts:
    """The failures, and which of the slips they mark; one query where no check failed, four where one did."""
    unit = event.weight_unit
    failures = failures_of([one for one in tested(checks_of(event)) if one.check.unit == unit])
    if not failures:
        return Doubts()
    origins = _origins(event)
    marks = {}
    for slip in slips:
        known = origins.of(slip)
        moment = slip.weighed or slip.received_at
        found = [one for one in failures if (not known or one.scale.pk in known) and one.covers(moment)]
        if found and not slip.void:
            marks[slip.pk] = Mark(tuple(found), bool(known))
    return Doubts(tuple(failures), marks)


@dataclass(frozen=True)
class _Origins:
    """Which scale a slip was weighed on, as far as it is known; a corrected slip was weighed where the first one was."""

    scales: Sequence[Scale]
    read_from: dict[UUID, set[int]]
    beside: dict[str, int]
    before: dict[UUID, tuple[UUID, str]]

    def of(self, slip: WeighSlip) -> set[int]:
        """The ids of its scales; none when it is not recorded."""
        if len(self.scales) == 1:
            return {self.scales[0].pk}
        chain, by = [slip.pk], [slip.recorded_by]
        while chain[-1] in self.before:
            earlier, recorded_by = self.before[chain[-1]]
            chain.append(earlier)
            by.append(recorded_by)
        read = next((self.read_from[one] for one in chain if one in self.read_from), set())
        return read or next(({self.beside[name]} for name in by if name in self.beside), set())


def _origins(event: Event) -> _Origins:
    scales = list(Scale.objects.filter(event=event))
    read_from: dict[UUID, set[int]] = {}
    taken = ScaleReading.objects.filter(event=event, scale__isnull=False)
    for slip_id, scale_id in taken.values_list("slip_id", "scale_id"):
        read_from.setdefault(slip_id, set()).add(scale_id)
    beside = {f"{STATION}{name}": scale.pk for scale in scales for name in scale.station_names}
    corrections = WeighSlip.objects.filter(event=event, replaces__isnull=False)
    before = {
        pk: (earlier, by) for pk, earlier, by in corrections.values_list("pk", "replaces_id", "replaces__recorded_by")
    }
    return _Origins(scales, read_from, beside, before)


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


def readings_of(slip: WeighSlip) -> list[ScaleReading]:
    """The lines that the slip's weights came from."""
    return list(ScaleReading.objects.filter(event=slip.event_id, slip_id=slip.pk).select_related("scale"))
