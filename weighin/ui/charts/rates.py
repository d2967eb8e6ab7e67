"""A share of fish dead with its range, and how it is said."""

from dataclasses import dataclass

from django.utils.translation import gettext

CLOSE = 1e-9
SPACE = "\u00a0"


@dataclass(frozen=True)
class Rate:
    """``dead`` of ``fish``, with the 95 % range ``low`` to ``high`` as shares of 1.

    ``dead`` may hold parts of a fish: a livewell's share of the dead of a mixed batch.

    Raises ValueError unless 0 <= dead <= fish, fish >= 1 and 0 <= low <= dead / fish <= high <= 1.
    """

    dead: float
    fish: int
    low: float
    high: float

    def __post_init__(self) -> None:
        if self.fish < 1 or not 0 <= self.dead <= self.fish:
            raise ValueError(f"{self.dead} dead of {self.fish} fish is not a rate")
        if not -CLOSE <= self.low <= self.share + CLOSE or not self.share - CLOSE <= self.high <= 1 + CLOSE:
            raise ValueError(f"the range {self.low} to {self.high} does not hold {self.dead} of {self.fish}")

    @property
    def share(self) -> float:
        return self.dead / self.fish

    @property
    def counted(self) -> str:
        """8, or 1.2 where parts of a fish are in it."""
        return f"{round(self.dead, 1):g}"

    def seen(self, decimals: int = 1) -> str:
        """5.6 %; none dead is 'none seen', since 0 % would be taken for no mortality."""
        return per_cent(self.share, decimals) if self.dead else gettext("none seen")

    def said(self) -> str:
        """8 of 142 fish dead, 5.6 %, range 2.9 to 10.7 %"""
        if not self.dead:
            none = gettext("0 of %(fish)s fish dead, range up to %(high)s")
            return none % {"fish": f"{self.fish:,}", "high": per_cent(self.high)}
        return gettext("%(dead)s of %(fish)s fish dead, %(share)s, range %(low)s to %(high)s") % {
            "dead": self.counted,
            "fish": f"{self.fish:,}",
            "share": per_cent(self.share),
            "low": f"{100 * self.low:.1f}",
            "high": per_cent(self.high),
        }


def per_cent(share: float, decimals: int = 1) -> str:
    return f"{100 * share:.{decimals}f}{SPACE}%"


def level(share: float) -> str:
    """A level someone has set, without needless decimals: 10 %, 12.5 %."""
    return f"{round(100 * share, 6):g}{SPACE}%"
