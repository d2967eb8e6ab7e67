"""Two-sided quantiles of the normal and of Student's distribution."""

from functools import lru_cache
from statistics import NormalDist


def checked_level(level: float) -> float:
    """The confidence level, or ValueError when it is not strictly between 0 and 1."""
    if not 0.0 < level < 1.0:
        raise ValueError(f"a confidence level lies between 0 and 1, not {level!r}: use 0.95 for 95 %")
    return float(level)


def load() -> None:
    """Load now what the first figure would load: a quarter of a second, which a server rather takes before it serves."""
    student(1)


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

    Examples
    --------
    >>> round(student(1), 4), round(student(6), 4), round(student(1000), 4)
    (12.7062, 2.4469, 1.9623)
    """
    level = checked_level(level)
    if df < 1 or df != int(df):
        raise ValueError(f"degrees of freedom are a whole number from 1, not {df!r}: count the clusters less one")
    from scipy.special import stdtrit

    return float(stdtrit(df, (1.0 + level) / 2.0))
