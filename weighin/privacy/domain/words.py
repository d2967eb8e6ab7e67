"""Whether a text says a name."""

import re
from collections.abc import Callable

from weighin.rules.look_alikes import folded_name


def says(name: str) -> Callable[[str], bool]:
    """Whether a text holds the name as words of its own, without regard to case and spacing.

    >>> says("Mara Lindell")("Call mara  LINDELL at noon"), says("Ann")("Annual")
    (True, False)
    """
    sought = re.compile(rf"(?<!\w){re.escape(folded_name(name))}(?!\w)")
    return lambda text: sought.search(" ".join(text.split()).casefold()) is not None


def anything(text: str) -> bool:
    """Every text."""
    return True
