"""What else may have to be told: apps above look for it before each round of sending, and queue it."""

from collections.abc import Callable

_known: list[Callable[[], None]] = []


def register(look: Callable[[], None]) -> None:
    """Call this before each round."""
    if look not in _known:
        _known.append(look)


def look_for_news() -> None:
    """Let everybody queue what has to be told by now."""
    for look in _known:
        look()
