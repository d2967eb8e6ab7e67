"""How many fish, or teams, it takes to know a rate as narrowly as wanted."""

from collections.abc import Callable
from math import ceil, log

from weighin.survival.intervals import Interval, score_limits
from weighin.survival.quantiles import checked_level, normal

_MOST = 10_000_000


def fish_for_width(rate: float, width: float, level: float = 0.95, design_effect: float = 1.0) -> int:
    """The fewest fish whose Wilson interval is no wider than `width`, should the rate come out as expected.

    Parameters
    ----------
    rate : float
        The rate expected, 0 <= rate <= 1.
    width : float
        Upper less lower limit, a share, 0 < width < 1 (0.04 for plus or minus about two percentage points).
    level : float
        Confidence level, 0 < level < 1.
    design_effect : float
        Of earlier events' livewells, 1 or more.

    Raises
    ------
    ValueError
        When a number is out of range, or it would take more than ten million fish.

    References
    ----------
    Wilson (1927) solved for n; design effect as in Rao & Scott (1992).

    Examples
    --------
    >>> fish_for_width(0.05, 0.04), fish_for_width(0.05, 0.04, design_effect=2.0)
    (469, 937)
    """
    if not design_effect >= 1.0:
        raise ValueError(f"a design effect is 1 or more, not {design_effect!r}: take it from clustered counts")
    z = normal(level)
    _check(rate, width)
    return _fewest(lambda n: score_limits(rate, n / design_effect, z), 1, width, "fish")


def fish_for_upper_limit(upper: float, level: float = 0.95) -> int:
    """The fewest fish, none of them dead, whose exact one-sided limit is no more than `upper`.

    The answer to 'how many must live before we may say fewer than so many die?'; about 3 / upper at 95 %.

    Parameters
    ----------
    upper : float
        The rate to stay under, a share, 0 < upper < 1.
    level : float
        Confidence level of the one-sided limit, 0 < level < 1.

    Raises
    ------
    ValueError
        When a number is out of range.

    References
    ----------
    Hanley, J. A. & Lippman-Hand, A. (1983), J. Am. Med. Assoc. 249, 1743-1745 (the rule of three).

    Examples
    --------
    >>> fish_for_upper_limit(0.03)
    99
    """
    if not 0.0 < upper < 1.0:
        raise ValueError(f"the limit to stay under is a share between 0 and 1, not {upper!r}: give 0.03 for 3 %")
    return ceil(log(1.0 - checked_level(level)) / log(1.0 - upper))


def _check(rate: float, width: float) -> None:
    if not 0.0 <= rate <= 1.0 or not 0.0 < width < 1.0:
        raise ValueError("give the rate expected and the width wanted as shares: 0.05 for 5 %, 0.04 for four points")


def _fewest(limits: Callable[[int], Interval], least: int, width: float, what: str) -> int:
    """The smallest number from `least` whose limits are narrow enough; they narrow as it grows."""

    def narrow(number: int) -> bool:
        found = limits(number)
        return found.high - found.low <= width

    high = least
    while not narrow(high):
        high *= 2
        if high > _MOST:
            raise ValueError(f"it would take more than {_MOST:,} {what}: allow a wider interval")
    low = max(least - 1, high // 2)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if narrow(middle) else (middle, high)
    return high
