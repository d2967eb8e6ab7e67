"""A day of the line as it went: each boat's way through it, and how long it was. Pure, in minutes of the day's clock."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Way:
    """One boat's way through the line, in minutes of the day's clock, to the second."""

    boat: int
    checked_in: float
    bag_issued: float
    weighed: float
    emptied: float | None = None
    late: bool = False

    @property
    def in_bag(self) -> float:
        """Minutes from the bag until its fish left it: when it was emptied, else weighed."""
        return (self.weighed if self.emptied is None else self.emptied) - self.bag_issued


def in_line(ways: Sequence[Way]) -> list[tuple[float, int]]:
    """How many boats are checked in and not weighed, from each minute on at which that changes."""
    moves = sorted([(way.checked_in, 1) for way in ways] + [(way.weighed, -1) for way in ways])
    found: dict[float, int] = {}
    long = 0
    for minute, move in moves:
        long += move
        found[minute] = long
    return list(found.items())
