"""The Dunnock Valley season of 2026: six events, from ice to the first frost."""

from random import Random

from . import fall, spring, summer
from .book import Book


def season() -> list[Book]:
    """The books of the season in the order they were fished; the same every time."""
    events = (
        spring.icebreaker, spring.dogwood, spring.spawn,
        summer.high_summer, summer.holding_study, fall.leaf_fall,
    )  # fmt: skip
    return [event(Random(f"dunnock {number}")) for number, event in enumerate(events, start=1)]
