"""Waiting for something to come about, with so much patience that only a fault uses it up, never a busy machine."""

import time
from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")
SECONDS = 180


def until(what: Callable[[], T]) -> T:
    """What ``what`` gives back as soon as it is true. Raises AssertionError when it never is."""
    end = time.monotonic() + SECONDS
    while time.monotonic() < end:
        found = what()
        if found:
            return found
        time.sleep(0.05)
    raise AssertionError("it did not come to that")
