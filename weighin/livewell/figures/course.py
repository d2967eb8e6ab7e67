"""One quantity along the day: the readings, straight lines between them, and when a limit is passed."""

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from itertools import pairwise

from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, keep, number


@dataclass(frozen=True)
class Course:
    """Values at hours from the start, joined by straight lines.

    Parameters
    ----------
    hours : tuple of float
        Hours from the start, never falling. Two values at one hour are a jump (a change of water, ice going
        in): the first holds until then, the last from then on.
    values : tuple of float
        As many as `hours`, all finite.

    Raises
    ------
    OutOfRange
        When there are none, not equally many, hours fall, or a number is not finite.

    Examples
    --------
    >>> lake = Course(hours=(0, 4, 8), values=(24, 26, 30))
    >>> lake.at(6), lake.first_above(29)
    (28.0, 7.0)
    """

    hours: tuple[float, ...]
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        if not self.hours or len(self.hours) != len(self.values):
            raise OutOfRange("hours", gettext_noop("A course needs one value for each hour, and at least one."))
        keep(self, "hours", tuple(number("hours", hour, gettext_noop("An hour of a course")) for hour in self.hours))
        keep(
            self, "values", tuple(number("values", value, gettext_noop("A value of a course")) for value in self.values)
        )
        if any(later < earlier for earlier, later in pairwise(self.hours)):
            raise OutOfRange("hours", gettext_noop("The hours of a course must not run backwards."))

    def at(self, hour: float) -> float:
        """The value at `hour`; before the first and after the last hour the value stays what it is there."""
        after = bisect_right(self.hours, hour)
        if after == 0:
            return self.values[0]
        if after == len(self.hours):
            return self.values[-1]
        start, end = self.hours[after - 1], self.hours[after]
        share = (hour - start) / (end - start)
        return self.values[after - 1] * (1 - share) + self.values[after] * share

    def just_before(self, hour: float) -> float:
        """The value up to `hour`: it differs from `at` only where the course jumps."""
        first = bisect_left(self.hours, hour)
        if first < len(self.hours) and self.hours[first] == hour:
            return self.values[first]
        return self.at(hour)

    @property
    def lowest(self) -> float:
        return min(self.values)

    @property
    def highest(self) -> float:
        return max(self.values)

    @property
    def last(self) -> float:
        return self.values[-1]

    def first_below(self, limit: float) -> float | None:
        """The first hour at which the value is below `limit`; None when it never is."""
        return self._first(limit, -1.0)

    def first_above(self, limit: float) -> float | None:
        """The first hour at which the value is above `limit`; None when it never is."""
        return self._first(limit, 1.0)

    def _first(self, limit: float, sign: float) -> float | None:
        beyond = [sign * (value - limit) for value in self.values]
        for i, excess in enumerate(beyond):
            if excess > 0:
                if i == 0:
                    return self.hours[0]
                start, end = self.hours[i - 1], self.hours[i]
                return start + (end - start) * -beyond[i - 1] / (excess - beyond[i - 1])
        return None


@dataclass(frozen=True)
class Band:
    """The same quantity along the day three times: as low, as stated and as high as the estimates let it
    be."""

    low: Course
    stated: Course
    high: Course


def steady(value: float) -> Course:
    """A course that stays at one value all day.

    Examples
    --------
    >>> steady(25.0).at(6)
    25.0
    """
    return Course(hours=(0.0,), values=(value,))
