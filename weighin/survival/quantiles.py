"""Two-sided quantiles of the normal and of Student's distribution, in plain Python.

An event's page needs one such number per interval; importing scipy for it would cost more than the whole
page.
"""

from functools import lru_cache
from math import cos, pi, sin, sqrt, tan
from statistics import NormalDist

_SERIES_UP_TO = 200  # beyond it the expansion in 1/df is as exact as the series and does not grow with df


def checked_level(level: float) -> float:
    """The confidence level, or ValueError when it is not strictly between 0 and 1."""
    if not 0.0 < level < 1.0:
        raise ValueError(f"a confidence level lies between 0 and 1, not {level!r}: use 0.95 for 95 %")
    return float(level)


@lru_cache(maxsize=64)
def normal(level: float = 0.95) -> float:
    """The z with a share `level` of the standard normal between -z and z.

    Parameters
    ----------
    level : float
        Confidence level, 0 < level < 1 (a share, not per cent).

    Raises
    ------
    ValueError
        When the level is outside its range.

    Examples
    --------
    >>> round(normal(0.95), 12)
    1.95996398454
    """
    return NormalDist().inv_cdf((1.0 + checked_level(level)) / 2.0)


@lru_cache(maxsize=1024)
def student(df: int, level: float = 0.95) -> float:
    """The t with a share `level` of Student's distribution with `df` degrees of freedom between -t and t.

    Parameters
    ----------
    df : int
        Degrees of freedom, 1 or more; whole, since it counts clusters less one.
    level : float
        Confidence level, 0 < level < 1.

    Raises
    ------
    ValueError
        When `df` is below 1 or not whole, or the level is outside its range.

    Notes
    -----
    Abramowitz & Stegun, Handbook of Mathematical Functions (1964): the finite series 26.7.3 and 26.7.4,
    solved by halving; above 200 degrees of freedom the expansion 26.7.5.

    Examples
    --------
    >>> round(student(1), 4), round(student(6), 4), round(student(1000), 4)
    (12.7062, 2.4469, 1.9623)
    """
    level = checked_level(level)
    if df < 1 or df != int(df):
        raise ValueError(f"degrees of freedom are a whole number from 1, not {df!r}: count the clusters less one")
    if df > _SERIES_UP_TO:
        return _expansion(df, normal(level))
    low, high = 0.0, pi / 2.0
    while True:
        angle = (low + high) / 2.0
        if angle in (low, high):
            return sqrt(df) * tan(angle)
        if _share_within(angle, df) < level:
            low = angle
        else:
            high = angle


def _share_within(angle: float, df: int) -> float:
    """P(|T| < t), where t = sqrt(df) tan(angle)."""
    square = cos(angle) ** 2
    odd = df % 2
    term = cos(angle) if odd else 1.0
    total = 0.0
    for k in range(2 + odd, df + 1, 2):
        total += term
        term *= square * (k - 1) / k
    if odd:
        return 2.0 / pi * (angle + sin(angle) * total)
    return sin(angle) * total


def _expansion(df: int, z: float) -> float:
    """Student's quantile as the normal's and four terms in 1/df."""
    s = z * z
    return z * (
        1.0
        + (s + 1.0) / 4.0 / df
        + ((5.0 * s + 16.0) * s + 3.0) / 96.0 / df**2
        + (((3.0 * s + 19.0) * s + 17.0) * s - 15.0) / 384.0 / df**3
        + ((((79.0 * s + 776.0) * s + 1482.0) * s - 1920.0) * s - 945.0) / 92160.0 / df**4
    )
