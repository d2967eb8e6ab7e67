"""What a club wants of a director, beside its events. Whoever stands above the clubs and knows of such a thing registers it."""

from collections.abc import Callable
from typing import Any

# Given a club: sentences, each with the address where it is settled
Wanted = Callable[[Any], list[tuple[str, str]]]

_asked: list[Wanted] = []


def register(wanted: Wanted) -> None:
    """Ask this too."""
    if wanted not in _asked:
        _asked.append(wanted)


def wanted_of(club: Any) -> list[tuple[str, str]]:
    """Everything that the club wants of a director: a sentence, and the address where it is settled."""
    return [found for wanted in _asked for found in wanted(club)]
