"""How much a rate has changed: from one season, plan or group to another."""

from dataclasses import dataclass
from math import hypot

from weighin.survival.estimates import Rated, common_level, recovered
from weighin.survival.intervals import Interval


@dataclass(frozen=True)
class Change:
    """A difference of two rates, in shares (0.02 is two percentage points), its error and limits."""

    difference: float
    standard_error: float
    low: float
    high: float
    level: float

    @property
    def is_shown(self) -> bool:
        """Whether the limits leave out no change. If not, the data cannot tell which way it went."""
        return self.low > 0.0 or self.high < 0.0


def change(before: Rated, after: Rated) -> Change:
    """The rate after less the rate before, with limits.

    Parameters
    ----------
    before, after : Rated
        Two independent rates with limits at one level: `clusters.clustered` by event for seasons,
        `standardisation.standardise` where the temperatures differed.

    Returns
    -------
    Change
        Above 0 when more died after. A difference seen is not a difference made: say what else changed.

    Raises
    ------
    ValueError
        When the limits have different levels.

    References
    ----------
    Newcombe, R. G. (1998), Stat. Med. 17, 873-890, method 10 (from Wilson's limits); Zou & Donner (2008) for
    any others.

    Examples
    --------
    >>> from weighin.survival.clusters import clustered
    >>> one, other = ([5, 3, 9, 4], [60, 55, 70, 50]), ([3, 2, 2, 4], [58, 66, 49, 61])
    >>> less = change(clustered(*one, correlation=0.05), clustered(*other, correlation=0.05))
    >>> round(less.difference, 3), round(less.low, 3), round(less.high, 3), less.is_shown
    (-0.042, -0.142, 0.061, False)
    """
    level = common_level(before, after)
    limits = recovered(
        [(after.rate, Interval(after.low, after.high)), (-before.rate, Interval(-before.high, -before.low))]
    )
    error = hypot(before.standard_error, after.standard_error)
    return Change(after.rate - before.rate, error, limits.low, limits.high, level)
