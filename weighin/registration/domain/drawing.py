"""The arithmetic of a draw, which anyone can do again: a hash of the seed, the purpose and each entry's number.

Nothing here is random. The order is that of the hashes, which nobody can foresee before the seed is known and anyone can
work out after it.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass
from hashlib import sha256
from itertools import count, cycle

BOATS, LAUNCH, FLIGHTS, LOTS = "boats", "launch", "flights", "lots"
PURPOSES = (BOATS, LAUNCH, FLIGHTS, LOTS)
# While one of these stands nobody is entered or taken out: the places are dealt
CLOSING = (BOATS, LAUNCH, FLIGHTS)

Result = int | str


@dataclass(frozen=True)
class Drawn:
    """What a team drew: its entry's number, its name then, the hash that gave its place, and what the place gives.

    ``hash`` is empty where the order is that of payment.
    """

    entry: int
    team: str
    hash: str
    result: Result

    def plain(self) -> dict[str, Result]:
        """The row in plain JSON."""
        return asdict(self)


def seed_of(text: str) -> str:
    """The seed that a text says: without outer white space, inner runs made one space, nothing else changed."""
    return " ".join(text.split())


def hash_of(seed: str, purpose: str, entry: int) -> str:
    """The lower-case hex SHA-256 of the UTF-8 text ``SEED|PURPOSE|ENTRY``."""
    return sha256(f"{seed}|{purpose}|{entry}".encode()).hexdigest()


def by_hash(seed: str, purpose: str, teams: Iterable[tuple[int, str]]) -> list[tuple[int, str, str]]:
    """(entry, team, hash) of teams given as (entry, team), in ascending order of the hash."""
    return sorted(((entry, team, hash_of(seed, purpose, entry)) for entry, team in teams), key=lambda row: row[2])


def dealt(
    purpose: str, order: Iterable[tuple[int, str, str]], *, taken: Collection[int] = (), flights: Sequence[str] = ()
) -> list[Drawn]:
    """What each place of an ``order`` gives.

    ``boats``: the numbers from 1 on that are not ``taken``; ``flights``: the ``flights`` in turn; else 1, 2, 3.
    """
    results = _results(purpose, taken, flights)
    return [Drawn(entry, team, hashed, next(results)) for entry, team, hashed in order]


def _results(purpose: str, taken: Collection[int], flights: Sequence[str]) -> Iterator[Result]:
    if purpose == FLIGHTS:
        return cycle(flights)
    if purpose == BOATS:
        return (number for number in count(1) if number not in taken)
    return count(1)
