"""What a change of water does to everything that builds up in a recirculated well.

The handbook (Keeping Bass Alive, Gilliland, Schramm & Shupp 2002) changes half the water every 2 to 3 hours once
more than 5 lb of bass are aboard; common practice in hot weather fills the well once at launch and never
changes. Both sides have a reason: the change takes out carbon dioxide and ammonia, and brings in lake water
that has to be iced again. The functions here and in `ice_plan` put figures to both.
"""

from dataclasses import dataclass

from weighin.livewell.figures.course import Course
from weighin.livewell.figures.mixed import Rates, diluted, follow
from weighin.livewell.figures.ranges import above, gettext_noop, keep, within

HANDBOOK_SHARE = 0.5
HANDBOOK_EVERY_H = (2.0, 3.0)


@dataclass(frozen=True)
class Change:
    """A share of the water (more than 0, at most 1) changed for lake water at an hour (0 to 72)."""

    hour: float
    share: float = HANDBOOK_SHARE

    def __post_init__(self) -> None:
        keep(self, "hour", within("hour", self.hour, 0, 72, gettext_noop("The hour of the water change"), "h"))
        keep(self, "share", above("share", self.share, 0, 1, gettext_noop("The share of water changed")))


def every(*, every_h: float, hours: float, share: float = HANDBOOK_SHARE) -> tuple[Change, ...]:
    """Changes at equal times through the day, none at its end.

    Parameters
    ----------
    every_h : float
        Hours between changes, 0.1 to 72.
    hours : float
        Length of the day, more than 0, at most 72.
    share : float
        Share changed each time, more than 0, at most 1.

    Returns
    -------
    tuple of Change
        Empty when the day is no longer than `every_h`.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> [change.hour for change in every(every_h=2.5, hours=8)]
    [2.5, 5.0, 7.5]
    """
    step = within("every_h", every_h, 0.1, 72, gettext_noop("The time between water changes"), "h")
    day = above("hours", hours, 0, 72, gettext_noop("The day"), "h")
    count = int(day / step)
    return tuple(Change(i * step, share) for i in range(1, count + 1) if i * step < day)


@dataclass(frozen=True)
class Comparison:
    """A build-up without and with changes of water."""

    never: Course
    changed: Course


def compare(
    *, gain_per_h: float, hours: float, every_h: float, share: float = HANDBOOK_SHARE, fresh: float = 0.0
) -> Comparison:
    """Never changing beside changing a share every so many hours, for something that builds up at a steady
    rate.

    Parameters
    ----------
    gain_per_h : float
        Rise per hour in any unit of concentration, 0 or more.
    hours, every_h, share : float
        As for `every`.
    fresh : float
        What the lake water holds, same unit; the well starts with it.

    Returns
    -------
    Comparison

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> both = compare(gain_per_h=4.0, hours=8, every_h=2.5)
    >>> both.never.last, both.changed.highest, both.changed.last
    (32.0, 17.5, 10.75)
    """
    gain = within("gain_per_h", gain_per_h, 0, 1e6, gettext_noop("The rise per hour"))
    start = within("fresh", fresh, 0, 1e6, gettext_noop("The lake water’s value"))
    changes = every(every_h=every_h, hours=hours, share=share)

    def course(which: tuple[Change, ...]) -> Course:
        return follow(start=start, hours=hours, rates=lambda hour: Rates(0.0, 0.0, gain), jumps=jumps(which, start))

    return Comparison(never=course(()), changed=course(changes))


def ceiling(*, gain_per_h: float, every_h: float, share: float = HANDBOOK_SHARE) -> float:
    """What the peaks of a build-up come to, over the lake water's own value, if changes go on for ever.

    Parameters
    ----------
    gain_per_h : float
        Rise per hour, 0 or more.
    every_h : float
        Hours between changes, 0.1 to 72.
    share : float
        Share changed, more than 0, at most 1.

    Returns
    -------
    float
        gain x every / share, in the unit of the gain.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> ceiling(gain_per_h=4.0, every_h=2.5)
    20.0
    """
    gain = within("gain_per_h", gain_per_h, 0, 1e6, gettext_noop("The rise per hour"))
    step = within("every_h", every_h, 0.1, 72, gettext_noop("The time between water changes"), "h")
    return gain * step / above("share", share, 0, 1, gettext_noop("The share of water changed"))


def jumps(changes: tuple[Change, ...], fresh: float) -> list[tuple[float, "Dilution"]]:
    """The changes as jumps for `mixed.follow`, for a quantity of which the lake water holds `fresh`."""
    return [(change.hour, Dilution(fresh, change.share)) for change in changes]


@dataclass(frozen=True)
class Dilution:
    """Old value in, value after the change out."""

    fresh: float
    share: float

    def __call__(self, value: float) -> float:
        return diluted(value=value, fresh=self.fresh, share=self.share)
