"""How the rate changes with something: a test over ordered classes, and the curve of `logistic`."""

from collections.abc import Sequence
from math import erfc, isfinite, sqrt
from typing import NamedTuple

from weighin.survival.clusters import checked_clusters
from weighin.survival.logistic import LogisticFit, NoCurve, fit_logistic

__all__ = ["LogisticFit", "NoCurve", "Trend", "cochran_armitage", "fit_logistic"]


class Trend(NamedTuple):
    """A test for trend: z (above 0 when the rate rises with the scores) and its two-sided p."""

    z: float
    p: float


def cochran_armitage(scores: Sequence[float], dead: Sequence[float], n: Sequence[float]) -> Trend:
    """Cochran and Armitage's test for a trend of the rate over ordered classes.

    Parameters
    ----------
    scores : sequence of float
        A number for each class, in its order (the class's middle, or 0, 1, 2, ...); finite.
    dead, n : sequence of float
        Dead fish and fish of each class; classes without fish are ignored. The fish are taken as independent:
        with livewells, give counts divided by each class's design effect (Rao & Scott 1992).

    Returns
    -------
    Trend
        (z, p), without continuity correction.

    Raises
    ------
    ValueError
        When lengths differ, a number is out of range, no or all fish died, or only one score has fish.

    References
    ----------
    Cochran, W. G. (1954), Biometrics 10, 417-451; Armitage, P. (1955), Biometrics 11, 375-386; as in Agresti,
    A. (2002), Categorical Data Analysis, section 3.4.

    Examples
    --------
    Malformation by the mother's drinks a day:

    >>> trend = cochran_armitage([0, 0.5, 1.5, 4, 7], [48, 38, 5, 1, 1], [17114, 14502, 793, 127, 38])
    >>> round(trend.z, 4), round(trend.p, 5)
    (2.5632, 0.01037)
    """
    if len(scores) != len(n):
        raise ValueError(f"{len(scores)} scores for {len(n)} classes: give each class its score")
    pairs = checked_clusters(dead, n)
    kept = [float(score) for score, count in zip(scores, n, strict=True) if count]
    if not all(map(isfinite, kept)):
        raise ValueError("scores must be finite numbers: give each class its middle, or 0, 1, 2, ...")
    total = sum(count for _, count in pairs)
    rate = sum(d for d, _ in pairs) / total
    middle = sum(score * count for score, (_, count) in zip(kept, pairs, strict=True)) / total
    spread = sum((score - middle) ** 2 * count for score, (_, count) in zip(kept, pairs, strict=True))
    if rate in (0.0, 1.0) or spread == 0.0:
        raise ValueError("a trend needs both dead and living fish and two scores: show the rates by class")
    slope = sum((score - middle) * d for score, (d, _) in zip(kept, pairs, strict=True))
    z = slope / sqrt(rate * (1.0 - rate) * spread)
    return Trend(z, erfc(abs(z) / sqrt(2.0)))
