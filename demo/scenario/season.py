"""The Dunnock Valley season of 2026: eight events, from ice to the first frost."""

from random import Random

from . import fall, spring, summer, warm
from .book import Book


def season() -> list[Book]:
    """The books of the season, June and August last; the same every time."""
    events = (
        (spring.icebreaker, "d"), (spring.dogwood, "f"), (spring.spawn, "f"),
        (summer.high_summer, "aw"), (summer.holding_study, "a"), (fall.leaf_fall, "d"),
        (warm.long_light, "h"), (warm.early_bell, "i"),
    )  # fmt: skip
    # The letters pick the draw: each day has a story to tell, and not every draw tells it.
    return [event(Random(f"dunnock {number}{letter}")) for number, (event, letter) in enumerate(events, start=1)]
