"""Where events of each size would lie by chance alone about one rate: the funnel to draw round a club's mean.

A league table of events punishes small ones; a funnel shows that a small event may well lie far out by luck.
"""

from collections.abc import Sequence
from math import isfinite, sqrt

from weighin.survival.intervals import Interval, checked_counts
from weighin.survival.quantiles import normal


def funnel(rate: float, sizes: Sequence[float], level: float = 0.95, design_effect: float = 1.0) -> list[Interval]:
    """Limits for the rate seen at events of given sizes, were their true rate `rate`.

    Parameters
    ----------
    rate : float
        The club's mean or a target, 0 < rate < 1.
    sizes : sequence of float
        Fish of each event, above 0.
    level : float
        Share of events that should lie within by chance, 0 < level < 1; usual are 0.95 and 0.998.
    design_effect : float
        Of the fish within an event (livewells), 1 or more; the typical one of the club's events.

    Returns
    -------
    list of Interval
        One for each size, shares, cut off at 0 and 1.

    Raises
    ------
    ValueError
        When the rate, a size, the level or the design effect is out of range.

    Notes
    -----
    rate +- z sqrt(rate (1 - rate) design_effect / size): an event lies outside exactly when the rate lies
    outside the event's own Wilson interval, so funnel and intervals never contradict each other. Of twenty
    events one is outside the 95 % limits without cause. Where less than about one dead fish is expected, a
    single one lies outside.

    References
    ----------
    Spiegelhalter, D. J. (2005), Stat. Med. 24, 1185-1202 (normal limits; over-dispersion).

    Examples
    --------
    >>> [(round(limits.low, 3), round(limits.high, 3)) for limits in funnel(0.04, [25, 100, 400])]
    [(0.0, 0.117), (0.002, 0.078), (0.021, 0.059)]
    """
    if not 0.0 < rate < 1.0:
        raise ValueError(f"a funnel is drawn round a rate between 0 and 1, not {rate!r}: with no dead fish draw none")
    if not (isfinite(design_effect) and design_effect >= 1.0):
        raise ValueError(f"a design effect is 1 or more, not {design_effect!r}: take it from clustered counts")
    halves = [
        normal(level) * sqrt(rate * (1.0 - rate) * design_effect / checked_counts(0.0, size)[1]) for size in sizes
    ]
    return [Interval(max(0.0, rate - half), min(1.0, rate + half)) for half in halves]
