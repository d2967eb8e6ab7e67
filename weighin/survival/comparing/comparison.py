"""A care practice against going without it, within strata before any pooling.

Ice is used on hot days, when more fish die: taken all together, ice looks harmful. So the comparison is made
among days alike (a stratum each) and only then put together. What comes out is an observation, not an
experiment: teams chose their practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, sqrt

from weighin.survival.clusters import Clustered
from weighin.survival.intervals import checked_counts
from weighin.survival.quantiles import normal


@dataclass(frozen=True)
class Group:
    """Dead fish and fish of one group; counts, or counts divided by a design effect."""

    dead: float
    n: float

    def __post_init__(self) -> None:
        checked_counts(self.dead, self.n)

    @classmethod
    def effective(cls, group: Clustered) -> Group:
        """A clustered group as the independent fish that would say as much (Rao & Scott 1992)."""
        return cls(group.dead / group.design_effect, group.effective_n)

    @property
    def alive(self) -> float:
        """n less dead."""
        return self.n - self.dead


@dataclass(frozen=True)
class Stratum:
    """Days alike, with and without the practice."""

    name: str
    practice: Group
    without: Group

    @property
    def odds_ratio(self) -> float | None:
        """Odds of dying with the practice over odds without; None where a zero leaves it undefined."""
        below = self.practice.alive * self.without.dead
        return self.practice.dead * self.without.alive / below if below > 0.0 else None

    @property
    def n(self) -> float:
        """Fish of both groups."""
        return self.practice.n + self.without.n


@dataclass(frozen=True)
class OddsRatio:
    """A ratio of odds of dying (below 1: fewer died with the practice) with limits at a level."""

    value: float
    low: float
    high: float
    level: float


def mantel_haenszel(strata: Sequence[Stratum], level: float = 0.95) -> OddsRatio:
    """The common odds ratio over strata.

    Parameters
    ----------
    strata : sequence of Stratum
        Days alike; each has fish with and without the practice.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    OddsRatio
        Show the strata first: one ratio for all means something only where theirs are alike (`homogeneity`).

    Raises
    ------
    ValueError
        When no stratum can tell the two apart (none died, or none without the practice, in every stratum).

    References
    ----------
    Mantel, N. & Haenszel, W. (1959), J. Natl. Cancer Inst. 22, 719-748; limits by Robins, J., Breslow, N. &
    Greenland, S. (1986), Biometrics 42, 311-323. Clustered fish: counts over design effects, Rao & Scott
    (1992).

    Examples
    --------
    >>> days = [
    ...     Stratum("cool", Group(1, 20), Group(9, 150)),
    ...     Stratum("hot", Group(18, 150), Group(5, 30)),
    ... ]
    >>> [round(day.odds_ratio, 2) for day in days], round(crude(days).value, 2)
    ([0.82, 0.68], 1.49)
    >>> pooled = mantel_haenszel(days)
    >>> round(pooled.value, 3), round(pooled.low, 2), round(pooled.high, 2)
    (0.713, 0.27, 1.89)
    """
    z = normal(level)
    for_practice = against = first = cross = last = 0.0
    for stratum in strata:
        a, b = stratum.practice.dead, stratum.practice.alive
        c, d = stratum.without.dead, stratum.without.alive
        r, s = a * d / stratum.n, b * c / stratum.n
        p, q = (a + d) / stratum.n, (b + c) / stratum.n
        for_practice, against = for_practice + r, against + s
        first, cross, last = first + p * r, cross + p * s + q * r, last + q * s
    if for_practice == 0.0 or against == 0.0:
        raise ValueError("no odds ratio: in no stratum did fish die and live on both sides; show the rates and limits")
    variance = first / for_practice**2 / 2.0 + cross / (for_practice * against) / 2.0 + last / against**2 / 2.0
    value, half = for_practice / against, z * sqrt(variance)
    return OddsRatio(value, value * exp(-half), value * exp(half), level)


def crude(strata: Sequence[Stratum], level: float = 0.95) -> OddsRatio:
    """The odds ratio with all strata thrown together: shown to warn, beside the stratified one.

    Parameters, errors as for `mantel_haenszel`; of a single table its limits are Woolf's.

    Examples
    --------
    >>> round(crude([Stratum("all", Group(4, 40), Group(2, 40))]).value, 2)
    2.11
    """
    practice = Group(sum(s.practice.dead for s in strata), sum(s.practice.n for s in strata))
    without = Group(sum(s.without.dead for s in strata), sum(s.without.n for s in strata))
    return mantel_haenszel([Stratum("all", practice, without)], level)


def homogeneity(strata: Sequence[Stratum]) -> float:
    """Breslow and Day's test, with Tarone's correction, that the strata share one odds ratio: its p.

    Parameters
    ----------
    strata : sequence of Stratum
        Two or more in which some fish died and some lived.

    Returns
    -------
    float
        A small p says that the practice goes with different odds in different strata: do not pool. A large
        one says little when fish are few.

    Raises
    ------
    ValueError
        As for `mantel_haenszel`, or when fewer than two strata have both dead and living fish.

    References
    ----------
    Breslow, N. E. & Day, N. E. (1980), Statistical Methods in Cancer Research I, section 4.4; Tarone, R. E.
    (1985), Biometrika 72, 91-95.

    Examples
    --------
    >>> days = [Stratum("cool", Group(1, 20), Group(9, 150)), Stratum("hot", Group(18, 150), Group(5, 30))]
    >>> round(homogeneity(days), 2)
    0.88
    """
    from scipy.special import chdtrc

    common = mantel_haenszel(strata).value
    telling = [s for s in strata if 0.0 < s.practice.dead + s.without.dead < s.n]
    if len(telling) < 2:
        raise ValueError("fewer than two strata have both dead and living fish: there is nothing to compare")
    statistic = excess = spread = 0.0
    for stratum in telling:
        dead = stratum.practice.dead + stratum.without.dead
        expected = _expected(stratum, dead, common)
        cells = (
            expected,
            stratum.practice.n - expected,
            dead - expected,
            stratum.without.n - dead + expected,
        )
        variance = 1.0 / sum(1.0 / cell for cell in cells)
        difference = stratum.practice.dead - expected
        statistic += difference**2 / variance
        excess, spread = excess + difference, spread + variance
    # Strata that agree to the last fish leave a hair less than nothing, of which there is no chance
    return float(chdtrc(len(telling) - 1, max(statistic - excess**2 / spread, 0.0)))


def _expected(stratum: Stratum, dead: float, ratio: float) -> float:
    """Dead fish with the practice if the stratum had exactly this odds ratio and its own margins."""
    middle = stratum.without.n - dead + ratio * (stratum.practice.n + dead)
    product = ratio * stratum.practice.n * dead
    return 2.0 * product / (middle + sqrt(middle * middle + 4.0 * (1.0 - ratio) * product))
