"""Small events drawn towards the others: one dead of four fish is not a 25 % event.

Events' true rates are taken to scatter as a beta distribution, whose two parameters are estimated from the
events themselves (empirical Bayes). A small event then says little and is shown near the club's mean; a large
one stays where its own fish put it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from weighin.survival.clusters import checked_clusters
from weighin.survival.intervals import checked_counts
from weighin.survival.quantiles import checked_level

_CELLS = 40  # strengths averaged over; four times as many move no limit by more than 0.0003


@dataclass(frozen=True)
class Shrunk:
    """An event's rate after drawing it towards the mean, its standard deviation and limits, as shares."""

    rate: float
    sd: float
    low: float
    high: float
    level: float


@dataclass(frozen=True)
class Scatter:
    """How events' true rates scatter: a beta distribution.

    Attributes
    ----------
    alpha, beta : float
        Its parameters, above 0: like `alpha` dead and `beta` living fish known beforehand.
    """

    alpha: float
    beta: float

    @classmethod
    def from_moments(cls, mean: float, sd: float) -> Scatter:
        """The beta distribution with this mean and standard deviation.

        Raises
        ------
        ValueError
            When the mean is not between 0 and 1, or the sd is not above 0 and below sqrt(mean (1 - mean)).

        Examples
        --------
        >>> tumours = Scatter.from_moments(0.1360, 0.1035)
        >>> round(tumours.alpha, 2), round(tumours.beta, 2)
        (1.36, 8.61)
        """
        if not 0.0 < mean < 1.0 or not 0.0 < sd * sd < mean * (1.0 - mean):
            raise ValueError(f"no scatter of rates has mean {mean:g} and sd {sd:g}: give both as shares")
        return cls(*_parameters(mean, sd))

    @property
    def strength(self) -> float:
        """How many fish the mean weighs as much as."""
        return self.alpha + self.beta

    @property
    def mean(self) -> float:
        """The events' mean rate."""
        return self.alpha / self.strength

    @property
    def sd(self) -> float:
        """The standard deviation of events' true rates."""
        return sqrt(self.mean * (1.0 - self.mean) / (self.strength + 1.0))

    def update(self, dead: float, n: float, level: float = 0.95) -> Shrunk:
        """What a new event with these fish is then thought to be.

        Examples
        --------
        >>> new = Scatter.from_moments(0.1360, 0.1035).update(4, 14)
        >>> round(new.rate, 4), round(new.sd, 4)
        (0.2234, 0.0834)
        """
        dead, n = checked_counts(dead, n)
        return _of_beta(self.alpha + dead, self.beta + n - dead, level)


def scatter(dead: Sequence[float], n: Sequence[float]) -> Scatter | None:
    """The scatter of events' true rates by moments, chance taken out.

    Parameters
    ----------
    dead, n : sequence of float
        One entry for each event: dead fish and fish looked at; events without fish are ignored. Counts
        divided by an event's own design effect allow for its livewells.

    Returns
    -------
    Scatter or None
        Its strength is 1/rho - 1, rho the correlation of two fish of one event. None where the events differ
        by no more than chance (rho not above 0), or none or all fish died.

    Raises
    ------
    ValueError
        When fewer than two events have fish, lengths differ, or a count is out of range.

    Notes
    -----
    rho by the moments of the analysis of variance: (B - W) / (B + (n0 - 1) W) with mean squares between and
    within events and n0 = (N - sum n_i^2 / N) / (events - 1).

    References
    ----------
    Ridout, M. S., Demetrio, C. G. B. & Firth, D. (1999), Biometrics 55, 137-148; Kleinman, J. C. (1973), J.
    Am. Stat. Assoc. 68, 46-54 (beta-binomial by moments).

    Examples
    --------
    >>> season = scatter([1, 1, 9, 1, 7, 1], [42] * 6)
    >>> round(season.mean, 4), round(season.strength, 1)
    (0.0794, 11.4)
    """
    pairs = _events(dead, n)
    total, gone = sum(k for _, k in pairs), sum(d for d, _ in pairs)
    rate = gone / total
    between = sum((d - rate * k) ** 2 / k for d, k in pairs) / (len(pairs) - 1)
    within = sum(d * (k - d) / k for d, k in pairs) / max(1.0, total - len(pairs))
    if between <= within or rate in (0.0, 1.0):
        return None
    strength = _typical_size(pairs) * within / (between - within)
    return Scatter(rate * strength, (1.0 - rate) * strength) if strength > 0.0 else None


def shrink(dead: Sequence[float], n: Sequence[float], level: float = 0.95) -> list[Shrunk]:
    """Each event's rate drawn towards the events' mean by as much as its few fish deserve.

    Parameters
    ----------
    dead, n : sequence of float
        As for `scatter`.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    list of Shrunk
        In the order given; an event without fish gets what is expected of a further event.

    Raises
    ------
    ValueError
        As for `scatter`, or when the level is out of range.

    Notes
    -----
    How much events scatter is itself uncertain: with few of them the moments often say 'not at all', and
    limits that believe it hold half the true rates. So the scatter's strength is averaged over, its weight on
    the mean S / (S + n0) taken as equally likely anywhere from 0 to 1 beforehand and weighed by the
    beta-binomial likelihood; the mean for each strength is the events' weighted one with its own variance.
    Limits are of the beta distribution with the averaged mean and variance. Simulated cover with 2-100 events
    of 10-200 fish: 0.90-0.95, higher where the events share one rate.

    References
    ----------
    Gelman, A. et al. (2013), Bayesian Data Analysis, 3rd ed., sections 5.1-5.3; Daniels, M. J. (1999), Can.
    J. Stat. 27, 567-578 (the uniform prior on the weight); Kleinman (1973) (the weighted mean).

    Examples
    --------
    >>> drawn = shrink([1, 1, 9, 1, 7, 1, 1], [42, 42, 42, 42, 42, 42, 4])
    >>> [round(event.rate, 3) for event in drawn]
    [0.046, 0.046, 0.167, 0.046, 0.137, 0.046, 0.115]
    """
    import numpy as np
    from scipy.special import betaln

    pairs = _events(dead, n)
    checked_level(level)
    d, k = np.array(dead, dtype=float), np.array(n, dtype=float)
    weight = (np.arange(_CELLS)[:, None] + 0.5) / _CELLS
    strength = _typical_size(pairs) * weight / (1.0 - weight)
    worth = 1.0 / (1.0 + (k - 1.0) / (1.0 + strength))  # of one fish of an event, in independent fish
    size, gone = (k * worth).sum(axis=1, keepdims=True), (d * worth).sum(axis=1, keepdims=True)
    none_or_all = d.sum() in (0.0, k.sum())
    mean = (gone + 0.5) / (size + 1.0) if none_or_all else gone / size
    alpha, beta = mean * strength, (1.0 - mean) * strength

    likelihood = (betaln(alpha + d, beta + k - d) - betaln(alpha, beta)).sum(axis=1, keepdims=True)
    odds = np.exp(likelihood - likelihood.max())
    odds /= odds.sum()
    known = strength + k
    rate = (alpha + d) / known
    variance = rate * (1.0 - rate) / (known + 1.0) + (strength / known) ** 2 * mean * (1.0 - mean) / (size + 1.0)
    averaged = (odds * rate).sum(axis=0)
    spread = (odds * (variance + rate**2)).sum(axis=0) - averaged**2
    return [_of_beta(*_parameters(m, sqrt(v)), level) for m, v in zip(averaged.tolist(), spread.tolist(), strict=True)]


def _events(dead: Sequence[float], n: Sequence[float]) -> list[tuple[float, float]]:
    pairs = checked_clusters(dead, n)
    if len(pairs) < 2:
        raise ValueError("one event shows no scatter between events: show its own rate and limits")
    return pairs


def _typical_size(pairs: Sequence[tuple[float, float]]) -> float:
    """The size of event that counts when events differ in size: n0 of the analysis of variance."""
    total = sum(k for _, k in pairs)
    return (total - sum(k * k for _, k in pairs) / total) / (len(pairs) - 1)


def _parameters(mean: float, sd: float) -> tuple[float, float]:
    """Of the beta distribution with this mean and standard deviation."""
    strength = mean * (1.0 - mean) / sd**2 - 1.0
    return mean * strength, (1.0 - mean) * strength


def _of_beta(alpha: float, beta: float, level: float) -> Shrunk:
    from scipy.special import betaincinv

    tail = (1.0 - checked_level(level)) / 2.0
    mean = alpha / (alpha + beta)
    return Shrunk(
        rate=mean,
        sd=sqrt(mean * (1.0 - mean) / (alpha + beta + 1.0)),
        low=float(betaincinv(alpha, beta, tail)),
        high=float(betaincinv(alpha, beta, 1.0 - tail)),
        level=level,
    )
