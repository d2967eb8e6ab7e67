"""Deaths after the release, and both losses together.

Fish held in pens after a tournament die of the tournament and of being held. Reference fish, held alike but
never through a tournament, tell the second apart (Abbott's correction). Initial and delayed deaths then
compound: only the fish that left the scales alive can die later.
"""

from collections.abc import Sequence, Sized
from dataclasses import replace
from math import exp, hypot, inf, log

from weighin.survival.clusters import Clustered, clustered
from weighin.survival.estimates import Estimate, Rated, common_level, recovered
from weighin.survival.intervals import Interval

Counts = float | Sequence[float]  # one number for all fish, or one for each pen


def abbott(
    treated_dead: Counts, treated_n: Counts, control_dead: Counts, control_n: Counts, level: float = 0.95
) -> Estimate:
    """The delayed mortality due to the tournament: (Mt - Mc) / (1 - Mc).

    Parameters
    ----------
    treated_dead, treated_n : float or sequence of float
        Tournament fish: dead, and held (missing ones left out). A sequence has one entry for each pen, and
        fish of a pen are then taken to live or die together; a number takes every fish as independent.
    control_dead, control_n : float or sequence of float
        Reference fish, alike.
    level : float
        Confidence level of the limits, 0 < level < 1.

    Returns
    -------
    Estimate
        `rate` as a share; negative when the reference fish died more often: say 'no increase shown', not a
        gain. `standard_error` by the delta method. `low` and `high` are recovered from the limits of both
        groups and are the better guide: with no dead at all the standard error is 0, the limits are not.
        `low` may be negative, `high` is at most 1.

    Raises
    ------
    ValueError
        When every reference fish died (nothing is left to compare with: the study cannot be used), a group
        has no fish, or a count is out of range.

    References
    ----------
    Abbott, W. S. (1925), J. Econ. Entomol. 18, 265-267. Limits: Zou & Donner (2008) on the logarithm of
    survival.

    Examples
    --------
    >>> delayed = abbott(15, 50, 6, 53)
    >>> round(100 * delayed.rate, 2), round(100 * delayed.standard_error, 2)
    (21.06, 8.27)

    By pens of twenty, which vary more than single fish would:

    >>> by_pen = abbott([2, 3, 9], [20, 20, 20], [1, 0, 1], [20, 20, 20])
    >>> round(100 * by_pen.rate, 2), round(100 * by_pen.standard_error, 2)
    (20.69, 11.46)
    """
    return corrected(_group(treated_dead, treated_n, level), _group(control_dead, control_n, level))


def corrected(treated: Rated, control: Rated) -> Estimate:
    """Abbott's correction of one rate by another, each with its own limits at one level: see `abbott`.

    Raises
    ------
    ValueError
        When every reference fish died, or the two have limits at different levels.

    Examples
    --------
    >>> study = corrected(clustered([2, 3, 9], [20] * 3), clustered([1, 0, 1], [20] * 3))
    >>> round(100 * study.rate, 2)
    20.69
    """
    level = common_level(treated, control)
    if control.rate == 1.0:
        raise ValueError(
            "every reference fish died, so the deaths of holding cannot be told from those of the "
            "tournament: give no delayed mortality for this study"
        )
    left = (1.0 - treated.rate) / (1.0 - control.rate)
    error = hypot(treated.standard_error, left * control.standard_error) / (1.0 - control.rate)
    survived, reference = _log_survival(treated), _log_survival(control)
    limits = _loss([survived, (-reference[0], Interval(-reference[1].high, -reference[1].low))])
    return Estimate(1.0 - left, error, limits.low, limits.high, level)


def uncorrected(dead: Counts, n: Counts, level: float = 0.95) -> Estimate:
    """The delayed mortality of a study without reference fish: the deaths of holding are in it, so say so.

    Counts, pens, level and errors are as for `abbott`.

    Examples
    --------
    >>> uncorrected(15, 50).rate
    0.3
    """
    held = _group(dead, n, level)
    return Estimate(held.rate, held.standard_error, held.low, held.high, held.level)


def total(initial: float, delayed: float) -> float:
    """Initial and delayed mortality together: 1 - (1 - initial)(1 - delayed).

    Parameters
    ----------
    initial : float
        Share of the fish brought to the scales that were dead, 0 to 1.
    delayed : float
        Share of the released fish that died of the tournament later, at most 1; a correction may make it
        negative.

    Returns
    -------
    float
        A share of the fish brought to the scales.

    Raises
    ------
    ValueError
        When a rate is out of its range (per cent given for shares, most often).

    References
    ----------
    Wilde, G. R. (1998), Fisheries 23: the totals of its decades follow from this form, not from
    a sum.

    Examples
    --------
    >>> round(total(0.065, 0.233), 3)
    0.283
    """
    initial, delayed = float(initial), float(delayed)
    if not 0.0 <= initial <= 1.0:
        raise ValueError(f"initial mortality is a share from 0 to 1, not {initial:g}: divide per cent by 100")
    if not delayed <= 1.0:
        raise ValueError(f"delayed mortality is a share of at most 1, not {delayed:g}: divide per cent by 100")
    return initial + (1.0 - initial) * delayed  # the same, and exactly initial where nothing died later


def compound(initial: Rated, delayed: Estimate) -> Estimate:
    """`total` with the uncertainty of both parts carried through.

    Parameters
    ----------
    initial : Rated
        From `clusters.clustered`; fish brought to the scales.
    delayed : Estimate
        From `abbott` or `uncorrected`, at the same level.

    Returns
    -------
    Estimate
        Standard error by the delta method; limits recovered from those of both parts. A delayed mortality below 0
        (no increase shown) counts as none: the total is never below what was seen, nor is its lower limit below
        that of `initial`.

    Raises
    ------
    ValueError
        When a rate is out of its range or the two have limits at different levels.

    Examples
    --------
    >>> both = compound(uncorrected(12, 240), abbott(15, 50, 6, 53))
    >>> round(100 * both.rate, 2), round(100 * both.standard_error, 2)
    (25.01, 7.94)
    >>> round(100 * both.low, 1), round(100 * both.high, 1)
    (8.4, 40.5)
    """
    level = common_level(initial, delayed)
    later = max(0.0, delayed.rate)
    rate = total(initial.rate, later)
    error = hypot((1.0 - later) * initial.standard_error, (1.0 - initial.rate) * delayed.standard_error)
    limits = _loss([_log_survival(initial), _log_survival(replace(delayed, rate=later, high=max(later, delayed.high)))])
    return Estimate(rate, error, max(limits.low, initial.low), max(limits.high, initial.high, rate), level)


def _group(dead: Counts, n: Counts, level: float) -> Clustered:
    """One entry for each pen; a single number is one group of independent fish."""
    if isinstance(dead, Sized) and isinstance(n, Sized):
        return clustered(dead, n, level)
    if isinstance(dead, Sized) or isinstance(n, Sized):
        raise ValueError("give dead and fish both by pen, or both as one number")
    return clustered([dead], [n], level, correlation=0.0)


def _log_survival(rate: Rated) -> tuple[float, Interval]:
    """The logarithm of the share alive, with its limits (a mortality's upper limit is survival's lower)."""
    return _log(1.0 - rate.rate), Interval(_log(1.0 - rate.high), _log(1.0 - rate.low))


def _loss(terms: list[tuple[float, Interval]]) -> Interval:
    """1 - survival from the logarithms of its factors."""
    if any(limits.low == -inf for _, limits in terms):
        # Survival may be nil, and its logarithm is then no number: take the product of the upper limits.
        return Interval(1.0 - exp(sum(limits.high for _, limits in terms)), 1.0)
    limits = recovered(terms)
    return Interval(1.0 - exp(limits.high), 1.0 - exp(limits.low))


def _log(share: float) -> float:
    return log(share) if share > 0.0 else -inf
