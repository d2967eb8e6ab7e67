"""What fish that nobody recorded could do to a rate."""

from weighin.survival.intervals import Interval, checked_counts


def bounds(dead: float, n: float, unrecorded: float) -> Interval:
    """The rate if every unrecorded fish were alive, and if every one were dead.

    Not a confidence interval: no assumption is made about the fish that were not seen, and chance is not in
    it.

    Parameters
    ----------
    dead, n : float
        Dead fish and fish looked at, 0 <= dead <= n, n above 0.
    unrecorded : float
        Fish that belong to the count but whose fate was not recorded, 0 or more.

    Raises
    ------
    ValueError
        When a count is out of range.

    References
    ----------
    Manski, C. F. (1989), J. Hum. Resour. 24, 343-360 (worst-case bounds).

    Examples
    --------
    >>> limits = bounds(11, 412, unrecorded=20)
    >>> round(limits.low, 4), round(limits.high, 4)
    (0.0255, 0.0718)
    """
    dead, n = checked_counts(dead, n)
    if not unrecorded >= 0.0:
        raise ValueError(f"unrecorded fish are 0 or more, not {unrecorded!r}: check the counts of fish caught and seen")
    everything = n + float(unrecorded)
    return Interval(dead / everything, (dead + float(unrecorded)) / everything)
