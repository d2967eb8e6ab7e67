"""An event's holding study as it stands: pens under way with their checks, finished rows, and what they say together."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property

from weighin.events.models import Event
from weighin.holding.domain.study import REFERENCE, HoldingStudy, Pen, holding_study
from weighin.holding.models import HoldingPen, PenCheck, StudyPen

CHECK_EVERY = timedelta(hours=12)  # twice a day
GRACE = timedelta(hours=2)  # before a check that is due is called late
CAUTION = 0.10  # reference deaths above which to be careful
LEAST_PENS = 3


@dataclass(frozen=True)
class PenSoFar:
    """A pen under way, with its checks in order of time; its counts are those of the checks so far."""

    row: StudyPen
    checks: Sequence[PenCheck]

    @property
    def kind(self) -> str:
        return self.row.kind

    @property
    def held(self) -> int:
        return self.row.held

    @property
    def species(self) -> str:
        return self.row.species

    @property
    def dead(self) -> int:
        return sum(check.dead for check in self.checks)

    @property
    def missing(self) -> int:
        """Fish no longer there to look at: missing or escaped."""
        return sum(check.missing + check.escaped for check in self.checks)

    @property
    def escaped(self) -> int:
        return sum(check.escaped for check in self.checks)

    @property
    def left(self) -> int:
        """Fish still alive in the pen, as far as is known."""
        return self.held - self.dead - self.missing

    @property
    def hours(self) -> str:
        """Through how many hours it speaks: from its start to its last check."""
        return hours_between(self.row.started, self.checks[-1].at) if self.checks else "0"

    @property
    def ends(self) -> datetime:
        return self.row.started + timedelta(hours=self.row.planned_hours)

    @property
    def next_check(self) -> datetime:
        """Twelve hours after the last look, but no later than the end that was planned."""
        last = self.checks[-1].at if self.checks else self.row.started
        return min(last + CHECK_EVERY, self.ends) if last < self.ends else last

    @property
    def may_end(self) -> bool:
        """Whether it has been watched for as long as was planned."""
        return bool(self.checks) and self.checks[-1].at >= self.ends

    def is_late(self, now: datetime) -> bool:
        return not self.may_end and now > self.next_check + GRACE


@dataclass(frozen=True)
class Study:
    """Everything of a study: finished rows, pens under way, and the result of all that have been looked at."""

    records: Sequence[HoldingPen]
    under_way: Sequence[PenSoFar]

    @cached_property
    def result(self) -> HoldingStudy | None:
        """Of the finished pens and those under way that have been looked at; None without tournament fish."""
        return holding_study([*self.records, *(pen for pen in self.under_way if pen.checks)])

    @property
    def so_far(self) -> bool:
        """Whether the result will still change."""
        return bool(self.under_way)

    @property
    def reference_share(self) -> float | None:
        """Dead of the reference fish, or None without any."""
        beside = self.result.reference if self.result else None
        return beside.dead / beside.fish if beside and beside.fish else None

    @property
    def gives_estimate(self) -> bool:
        """Whether the study gives a rate: not where more than a fifth of the reference fish died."""
        return self.result is not None and self.result.delayed is not None

    @property
    def corrected(self) -> bool:
        return self.result is not None and self.result.basis == REFERENCE

    @property
    def hours(self) -> tuple[float, float] | None:
        """The shortest and the longest any pen of the result was watched: it speaks through the shortest."""
        counted: list[Pen] = [*self.records, *(pen for pen in self.under_way if pen.checks)]
        found = [float(pen.hours) for pen in counted if pen.held > pen.missing and pen.hours]
        return (min(found), max(found)) if found else None


def study_of(event: Event) -> Study:
    """An event's study, in three queries."""
    rows = list(event.study_pens.filter(record__isnull=True))
    checks: dict[object, list[PenCheck]] = defaultdict(list)
    for check in PenCheck.objects.filter(pen__event=event).select_related("pen").order_by("at", "id"):
        checks[check.pen_id].append(check)
    return Study(list(event.holding_pens.all()), [PenSoFar(row, checks[row.pk]) for row in rows])


def pen_so_far(pen: StudyPen) -> PenSoFar:
    """One pen with its checks."""
    return PenSoFar(pen, list(pen.checks.select_related("pen")))


def hours_between(start: datetime, end: datetime) -> str:
    """Hours with at most one decimal, as the workbook writes them."""
    tenths = round((end - start) / timedelta(hours=1), 1)
    return f"{tenths:g}"


def late(pens: Iterable[PenSoFar], now: datetime) -> list[PenSoFar]:
    """Pens whose next look is overdue."""
    return [pen for pen in pens if pen.is_late(now)]
