"""How long a boat takes at the scales, learned from those that were weighed today."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median, pstdev

LOOKS_BACK = 20
CLIPPED_AT = 3.0
WEIGHT_OF_ASSUMED = 3
LONGEST_SERVICE_MIN = 20.0
ASSUMED_SPREAD = 0.5


@dataclass(frozen=True)
class Weighing:
    """A boat at the scales, in minutes of one clock: when it could have begun, and when it was done.

    ``ready`` is when the boat stood at the table with its bag; None is not known. ``began`` is when it went on the
    scales, where somebody said so.
    """

    done: float
    ready: float | None = None
    began: float | None = None


@dataclass(frozen=True)
class Service:
    """Minutes a boat takes at one scale: the figure to reckon with, its spread, and what both stand on.

    ``boats`` is how many were measured today, ``middle`` their median (None for none), ``assumed`` what was given
    before any.
    """

    minutes: float
    spread: float
    boats: int
    middle: float | None
    assumed: float


def measured_minutes(weighings: Iterable[Weighing], scales: int = 1) -> list[float]:
    """Minutes at the scales of each boat whose beginning is known, in the order in which they were done.

    Where nobody said when a boat began, it began when it was ready and a scale was free: with c scales the boat that is
    done as number k (from 0) found one free when k - c + 1 boats were done. That is exact for one scale, whoever was let
    go first; for several it is about 2 % short, measured on simulated lines. A boat of which neither is known is left
    out, so that a table without work does not pass for a slow one; so is one of more than 20 minutes or of none.

    Parameters
    ----------
    weighings : iterable of Weighing
        All of today, in any order.
    scales : int
        Scales in use, 1 or more.
    """
    found = sorted(weighings, key=lambda one: one.done)
    measured = []
    for place, one in enumerate(found):
        began = one.began
        if began is None and one.ready is not None:
            began = max(one.ready, found[place - scales].done) if place >= scales else one.ready
        if began is not None and 0 < one.done - began <= LONGEST_SERVICE_MIN:
            measured.append(one.done - began)
    return measured


def learned(measured: Sequence[float], assumed_min: float) -> Service:
    """The service time to reckon with, from measured minutes in the order of the day.

    The last 20 count. A time of more than three times the middle one is put down to that (a protest at the table, a
    fish measured again: the next boat will not take as long). The mean of these, with the assumed figure counting
    as much as three boats, so that the first boats do not throw it about. The mean and not the median, since the
    minutes of several boats add up. The trade's own figures were not found: these are our choices.

    Parameters
    ----------
    measured : sequence of float
        Minutes, more than 0.
    assumed_min : float
        Minutes a boat to reckon with before any is measured, more than 0.
    """
    recent = list(measured[-LOOKS_BACK:])
    if not recent:
        return Service(assumed_min, assumed_min * ASSUMED_SPREAD, 0, None, assumed_min)
    middle = median(recent)
    clipped = [min(one, CLIPPED_AT * middle) for one in recent]
    both = [*clipped, *[assumed_min] * WEIGHT_OF_ASSUMED]
    mean = sum(both) / len(both)
    share = len(clipped) / len(both)
    spread = share * pstdev(clipped) + (1 - share) * assumed_min * ASSUMED_SPREAD
    return Service(mean, spread, len(measured), middle, assumed_min)
