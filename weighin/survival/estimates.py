"""A rate with its standard error and limits, and the limits of what is computed from several such rates.

The limits of a sum are recovered from the limits of its terms, each on its own side, so that they keep the
lopsidedness that a small rate has and stay open where no fish died (a standard error alone would then be 0).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import Protocol

from weighin.survival.intervals import Interval


class Rated(Protocol):
    """Anything with a rate, its error and its limits at a level: `Estimate`, `clusters.Clustered`."""

    @property
    def rate(self) -> float: ...
    @property
    def standard_error(self) -> float: ...
    @property
    def low(self) -> float: ...
    @property
    def high(self) -> float: ...
    @property
    def level(self) -> float: ...


@dataclass(frozen=True)
class Estimate:
    """A rate (a share, which a correction may push below 0), its standard error, and limits at a level."""

    rate: float
    standard_error: float
    low: float
    high: float
    level: float = 0.95

    def __float__(self) -> float:
        return self.rate


def recovered(terms: Sequence[tuple[float, Interval]]) -> Interval:
    """Limits of a sum of independent terms from each term's value and its own limits.

    low = sum - sqrt(sum (value - low)^2), high = sum + sqrt(sum (high - value)^2). Turn a term that is
    subtracted round first: value -b, limits -high and -low.

    References
    ----------
    Zou, G. Y. & Donner, A. (2008), Stat. Med. 27, 1693-1702 (variance estimates recovery, "MOVER"); for a
    difference of two rates with Wilson's limits it is method 10 of Newcombe, R. G. (1998), Stat. Med. 17,
    873-890.
    """
    total = sum(value for value, _ in terms)
    return Interval(
        total - hypot(*(value - limits.low for value, limits in terms)),
        total + hypot(*(limits.high - value for value, limits in terms)),
    )


def common_level(*rates: Rated) -> float:
    """The level that all the limits have, or ValueError: limits of different levels cannot be combined."""
    levels = {rate.level for rate in rates}
    if len(levels) != 1:
        raise ValueError(f"the limits have levels {sorted(levels)}: compute them all at one level")
    return levels.pop()
