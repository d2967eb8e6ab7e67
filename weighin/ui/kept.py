"""Pages, and parts of pages, that are made once and shown to many: the one place that keeps them.

Each is kept beside what it was made of, a ``State``, and is shown while that is so. Of those that ask for it at the same
time one makes it anew; the others get the last one where both have the same ``guard``, and else wait for the new one.
"""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from time import monotonic
from typing import Any, NamedTuple

MOST_BYTES = 16 * 1024 * 1024
ABOUT_HEADERS = 1000  # bytes of a page
LAST_SECONDS = 90.0  # nobody is shown a last one that is older
# While another page is made, one that is no older is shown on: makers beside each other would hold up all who only read
OTHERS_SECONDS = 2.0
WAIT_SECONDS = 5.0


class State(NamedTuple):
    """All that something shown depends on. What was made at an earlier ``rest`` may be shown for another moment."""

    guard: Hashable
    rest: Hashable = None


class Kept(NamedTuple):
    """Something made, what it was made of, about how many bytes it takes, and when it was made."""

    state: State
    made: Any
    size: int
    at: float


class Keeper:
    """Keeps what was made, up to so many bytes: what nobody asked for longest goes first."""

    def __init__(self, most: int = MOST_BYTES):
        self._most, self._size = most, 0
        self._kept: OrderedDict[Hashable, Kept] = OrderedDict()
        self._making: dict[Hashable, threading.Event] = {}
        self._one = threading.Lock()

    def look(self, key: Hashable) -> Kept | None:
        """What is kept under the key, right or not."""
        with self._one:
            found = self._kept.get(key)
            if found is not None:
                self._kept.move_to_end(key)
            return found

    def shown(
        self, key: Hashable, state_of: Callable[[], State | None], make: Callable[[], Any], size: int | None = None
    ) -> Any:
        """What is kept under the key while ``state_of()`` is what it was made of, else what ``make`` gives.

        Without a state nothing is kept. ``size`` is its size in bytes where it has no length. What ``make`` raises goes
        to its caller.
        """
        while True:
            state = state_of()
            if state is None:
                return make()
            with self._one:
                found = self._kept.get(key)
                if found is not None and found.state == state:
                    self._kept.move_to_end(key)
                    return found.made
                maker = self._making.get(key)
                age = monotonic() - found.at if found is not None and found.state.guard == state.guard else LAST_SECONDS
                if maker is None and (age >= OTHERS_SECONDS or not self._making):
                    self._making[key] = mine = threading.Event()
                    break
            if found is not None and age < LAST_SECONDS:
                return found.made
            if maker is not None:
                maker.wait(WAIT_SECONDS)
        try:
            made = make()
            self._keep(key, Kept(state, made, len(made) if size is None else size, monotonic()))
            return made
        finally:
            with self._one:
                del self._making[key]
            mine.set()

    def exact(self, key: Hashable, state: State, make: Callable[[], Any], size: int) -> Any:
        """What is kept under the key if it was made of this very ``state``, else what ``make`` gives; nobody waits, and
        nobody gets a last one."""
        found = self.look(key)
        if found is not None and found.state == state:
            return found.made
        made = make()
        self._keep(key, Kept(state, made, size, monotonic()))
        return made

    def clear(self) -> None:
        """Forget everything; for tests, whose databases go back in time."""
        with self._one:
            self._kept.clear()
            self._size = 0

    def _keep(self, key: Hashable, new: Kept) -> None:
        with self._one:
            old = self._kept.pop(key, None)
            self._size += new.size - (old.size if old else 0)
            self._kept[key] = new
            while self._size > self._most:
                self._size -= self._kept.popitem(last=False)[1].size


@dataclass
class Page:
    """A page as it is kept. ``tag`` is made of what it shows, but for when it was made, so that a write which the crowd
    may not see changes nothing; ``answers`` are status and headers as they went out, by who asked in which form."""

    body: bytes
    headers: dict[str, str]
    state_of: Callable[[], State | None]
    answers: dict[tuple[Any, ...], tuple[str, list[tuple[str, str]]]] = field(default_factory=dict)

    @property
    def tag(self) -> str:
        return self.headers["ETag"]

    def __len__(self) -> int:
        return len(self.body) + ABOUT_HEADERS


KEEPER = Keeper()
