"""Whether a boat's bag went back to the water. The record of releases stands above the slips and registers itself."""

from collections.abc import Callable

LetGo = Callable[[int, int], bool]

_known: list[LetGo] = []


def register(let_go: LetGo) -> None:
    """Ask this too: of an entry, by primary key, and a day."""
    if let_go not in _known:
        _known.append(let_go)


def went_back(entry: int, day: int) -> bool:
    """Whether the bag of an entry, by primary key, has gone back to the water on a day."""
    return any(let_go(entry, day) for let_go in _known)
