"""What a correction changed, field by field."""

from dataclasses import dataclass
from itertools import pairwise

from weighin.events.domain.table import Table
from weighin.slips.domain.in_words import LABELS, NOT_WRITTEN, said
from weighin.slips.models import WeighSlip


@dataclass(frozen=True)
class Change:
    """One field before and after, in words."""

    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Step:
    """One slip of a chain of corrections, and what it changed of the slip before it; none for a void."""

    slip: WeighSlip
    changes: tuple[Change, ...] = ()


def changes(before: WeighSlip, after: WeighSlip, table: Table) -> tuple[Change, ...]:
    """The fields whose written values differ; a void changes none."""
    if after.void:
        return ()
    calendar, unit = table.calendar, table.rules.unit
    pairs = (
        (label, said(before, name, calendar, unit), said(after, name, calendar, unit)) for name, label in LABELS.items()
    )
    return tuple(
        Change(label, was or str(NOT_WRITTEN), now or str(NOT_WRITTEN)) for label, was, now in pairs if was != now
    )


def steps(chain: list[WeighSlip], table: Table) -> list[Step]:
    """A chain of corrections, first to last, each with what it changed."""
    first = [Step(chain[0])] if chain else []
    return first + [Step(after, changes(before, after, table)) for before, after in pairwise(chain)]
