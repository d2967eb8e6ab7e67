"""A figure with its low and high ends, for what nobody knows to one number."""

from dataclasses import dataclass

from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, keep, number


@dataclass(frozen=True)
class Estimate:
    """A stated value between a low and a high one, all in the same unit.

    The ends are the range of what is published or was measured, not a confidence interval, unless the
    function that returns it says so.

    Raises
    ------
    OutOfRange
        When an end is not finite or the three are not in order.

    Examples
    --------
    >>> Estimate(1.0, 2.0, 4.0).times(3)
    Estimate(low=3.0, stated=6.0, high=12.0)
    """

    low: float
    stated: float
    high: float

    def __post_init__(self) -> None:
        for name in ("low", "stated", "high"):
            keep(self, name, number(name, getattr(self, name), f"The {name} end of an estimate"))
        if not self.low <= self.stated <= self.high:
            raise OutOfRange(
                "stated",
                gettext_noop("An estimate runs from low to high, not %(low)s, %(stated)s, %(high)s."),
                low=f"{self.low:g}",
                stated=f"{self.stated:g}",
                high=f"{self.high:g}",
            )

    @property
    def ends(self) -> tuple[float, float, float]:
        return self.low, self.stated, self.high

    def times(self, factor: float) -> "Estimate":
        """All three, multiplied by `factor`, which is 0 or more."""
        if factor < 0:
            raise OutOfRange(
                "factor", gettext_noop("An estimate is multiplied by 0 or more, not %(factor)s."), factor=f"{factor:g}"
            )
        return Estimate(self.low * factor, self.stated * factor, self.high * factor)

    def plus(self, other: "Estimate") -> "Estimate":
        """The sum, low with low and high with high: the widest it can be."""
        return Estimate(self.low + other.low, self.stated + other.stated, self.high + other.high)


def exactly(value: float) -> Estimate:
    """An estimate without doubt about it: three times the same.

    Examples
    --------
    >>> exactly(2.0)
    Estimate(low=2.0, stated=2.0, high=2.0)
    """
    return Estimate(value, value, value)


NOTHING = exactly(0.0)
