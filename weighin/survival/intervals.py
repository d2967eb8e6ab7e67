"""Confidence intervals for one rate: of so many fish, so many dead.

They take the fish as independent. Fish of one livewell are not: use `clusters` wherever the livewell is
known. Zero dead never means 0 %: each interval here then still has an upper limit above zero.
"""

from dataclasses import dataclass
from math import isfinite, sqrt

from weighin.survival.quantiles import checked_level, normal


@dataclass(frozen=True)
class Interval:
    """Limits of a rate, as shares from 0 to 1."""

    low: float
    high: float


def wilson(dead: float, n: float, level: float = 0.95) -> Interval:
    """Wilson's score interval, without continuity correction: the house interval.

    Parameters
    ----------
    dead : float
        Dead fish, 0 <= dead <= n. A count; a fraction is taken too (a count divided by a design effect).
    n : float
        Fish looked at, above 0.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    Interval
        Shares of `n`, 0 <= low <= dead/n <= high <= 1.

    Raises
    ------
    ValueError
        When there are no fish, more dead than fish, a negative or not finite count, or a level out of range.

    References
    ----------
    Wilson, E. B. (1927), J. Am. Stat. Assoc. 22, 209-212; method 3 of Newcombe, R. G. (1998), Stat. Med. 17,
    857-872.

    Examples
    --------
    >>> limits = wilson(81, 263)
    >>> round(limits.low, 4), round(limits.high, 4)
    (0.2553, 0.3662)
    """
    dead, n = checked_counts(dead, n)
    return score_limits(dead / n, n, normal(level))


def exact(dead: float, n: float, level: float = 0.95) -> Interval:
    """The exact interval of Clopper and Pearson: never too short, mostly too long.

    Parameters
    ----------
    dead, n : float
        Dead fish and fish looked at, 0 <= dead <= n, n above 0.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    Interval
        Shares of `n`.

    Raises
    ------
    ValueError
        As for `wilson`.

    References
    ----------
    Clopper, C. J. & Pearson, E. S. (1934), Biometrika 26, 404-413, by quantiles of the beta distribution.

    Examples
    --------
    >>> round(exact(0, 40).high, 3)
    0.088
    """
    dead, n = checked_counts(dead, n)
    tail = (1.0 - checked_level(level)) / 2.0
    return Interval(
        0.0 if dead == 0 else _beta_quantile(dead, n - dead + 1.0, tail),
        1.0 if dead == n else _beta_quantile(dead + 1.0, n - dead, 1.0 - tail),
    )


def jeffreys(dead: float, n: float, level: float = 0.95) -> Interval:
    """The interval from Jeffreys' prior, Beta(1/2, 1/2); its limits reach 0 for no dead, 1 for all dead.

    Parameters
    ----------
    dead, n : float
        Dead fish and fish looked at, 0 <= dead <= n, n above 0.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    Interval
        Shares of `n`.

    Raises
    ------
    ValueError
        As for `wilson`.

    References
    ----------
    Brown, L. D., Cai, T. T. & DasGupta, A. (2001), Stat. Sci. 16, 101-133 (the modified Jeffreys interval).

    Examples
    --------
    >>> limits = jeffreys(4, 43)
    >>> round(limits.low, 4), round(limits.high, 4)
    (0.0322, 0.2062)
    """
    dead, n = checked_counts(dead, n)
    tail = (1.0 - checked_level(level)) / 2.0
    return Interval(
        0.0 if dead == 0 else _beta_quantile(dead + 0.5, n - dead + 0.5, tail),
        1.0 if dead == n else _beta_quantile(dead + 0.5, n - dead + 0.5, 1.0 - tail),
    )


def score_limits(rate: float, n: float, z: float) -> Interval:
    """Wilson's limits around `rate` seen on `n` fish (0 < n, not necessarily whole) for the quantile `z`."""
    spread = z * z / n
    middle = (rate + spread / 2.0) / (1.0 + spread)
    half = z * sqrt((rate * (1.0 - rate) + spread / 4.0) / n) / (1.0 + spread)
    # At the ends the exact limit is the rate itself; rounding must not push it past.
    return Interval(
        0.0 if rate == 0.0 else max(0.0, middle - half),
        1.0 if rate == 1.0 else min(1.0, middle + half),
    )


def checked_counts(dead: float, n: float) -> tuple[float, float]:
    """Both counts as floats, or ValueError with what to put right."""
    dead, n = float(dead), float(n)
    if not (isfinite(dead) and isfinite(n)):
        raise ValueError("dead and n must be finite numbers: leave out what was not counted")
    if n <= 0.0:
        raise ValueError(f"a rate needs at least one fish, not {n:g}: leave this group out")
    if not 0.0 <= dead <= n:
        raise ValueError(f"dead must lie between 0 and the {n:g} fish looked at, not {dead:g}: check both counts")
    return dead, n


def _beta_quantile(a: float, b: float, share: float) -> float:
    from scipy.special import betaincinv

    return float(betaincinv(a, b, share))
