"""How many pens a holding study needs before it starts."""

from math import sqrt

from weighin.survival.delayed import corrected
from weighin.survival.estimates import Estimate
from weighin.survival.intervals import score_limits
from weighin.survival.quantiles import checked_level, student

LEAST_PENS = 3
MOST_PENS = 200


def pens_for_width(
    *,
    delayed: float,
    reference: float,
    width: float,
    fish_per_pen: float,
    correlation: float,
    level: float = 0.95,
) -> int:
    """The fewest pens of each kind whose corrected interval is no wider than `width`, should it come out as expected.

    Parameters
    ----------
    delayed : float
        Share of tournament fish expected to die of the tournament, 0 to 0.9.
    reference : float
        Share of reference fish expected to die, 0 to 0.9.
    width : float
        Upper less lower limit of the corrected rate, a share, 0 < width < 1.
    fish_per_pen : float
        1 or more.
    correlation : float
        How alike two fish of one pen fare, 0 to 1.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    int
        3 or more: with two pens nobody can tell how pens differ.

    Raises
    ------
    ValueError
        When a number is out of range, or it would take more than 200 pens of each kind.

    Notes
    -----
    Each kind's limits are Wilson's on fish over the design effect 1 + (fish_per_pen - 1) correlation with Student's t
    of pens less one, as `clusters.clustered` would find them; the difference is `delayed.corrected`.

    References
    ----------
    Kish, L. (1965), Survey Sampling, ch. 5 (design effect of equal clusters); Abbott (1925).

    Examples
    --------
    >>> plan = {"delayed": 0.2, "reference": 0.05, "fish_per_pen": 20, "correlation": 0.05}
    >>> pens_for_width(width=0.3, **plan), pens_for_width(width=0.2, **plan)
    (7, 12)
    """
    if not 0.0 < width < 1.0:
        raise ValueError("the width wanted is a share between 0 and 1: 0.2 for twenty points")
    for pens in range(LEAST_PENS, MOST_PENS + 1):
        found = expected(
            pens=pens,
            delayed=delayed,
            reference=reference,
            fish_per_pen=fish_per_pen,
            correlation=correlation,
            level=level,
        )
        if found.high - found.low <= width:
            return pens
    raise ValueError(f"it would take more than {MOST_PENS} pens of each kind: allow a wider interval")


def expected(
    *, pens: int, delayed: float, reference: float, fish_per_pen: float, correlation: float, level: float = 0.95
) -> Estimate:
    """The corrected rate and its limits that a study of so many pens of each kind may expect.

    Parameters are as for `pens_for_width`; `pens` is 2 or more.

    Examples
    --------
    >>> plan = {"delayed": 0.2, "reference": 0.05, "fish_per_pen": 20, "correlation": 0.05}
    >>> three = expected(pens=3, **plan)
    >>> round(three.low, 2), round(three.high, 2)
    (-0.4, 0.6)
    """
    if not 0.0 <= delayed <= 0.9 or not 0.0 <= reference <= 0.9:
        raise ValueError("give the deaths expected as shares from 0 to 0.9: 0.2 for 20 %")
    if not fish_per_pen >= 1.0 or not 0.0 <= correlation <= 1.0:
        raise ValueError("give at least one fish a pen, and a correlation from 0 to 1")
    if pens < 2:
        raise ValueError(f"{pens} pen cannot show how pens differ: plan at least {LEAST_PENS} of each kind")
    worth = pens * fish_per_pen / (1.0 + (fish_per_pen - 1.0) * correlation)
    t = student(pens - 1, checked_level(level))

    def kind(rate: float) -> Estimate:
        limits = score_limits(rate, worth, t)
        return Estimate(rate, sqrt(rate * (1.0 - rate) / worth), limits.low, limits.high, level)

    return corrected(kind(1.0 - (1.0 - delayed) * (1.0 - reference)), kind(reference))
