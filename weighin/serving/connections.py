"""Who is connected, and whom to let go when there are too many.

A browser keeps six connections and says nothing on most of them, and three hundred phones may share one address. So
nobody is refused for how many there are: the oldest of those that have nothing in hand makes room, at the address that
has most of them. A browser asks anew without a word to its reader.
"""

import threading
from collections import OrderedDict
from collections.abc import Sequence
from typing import Protocol


class Connection(Protocol):
    """A connection that can be ended: what it asks just now, whole and in part."""

    connected: bool
    requests: Sequence[object]
    request: object | None

    def handle_close(self) -> None: ...


class _Of:
    """The connections of one address that have nothing in hand, the oldest first."""

    def __init__(self) -> None:
        # Those that have not asked anything yet, or not to its end; and those that were answered and may ask again
        self.silent: OrderedDict[Connection, None] = OrderedDict()
        self.idle: OrderedDict[Connection, None] = OrderedDict()

    def __len__(self) -> int:
        return len(self.silent) + len(self.idle)


class Connections:
    """At most ``most`` connections, and at most ``most_silent`` of an address that have not asked anything yet."""

    def __init__(self, most: int, most_silent: int):
        self.most, self.most_silent = most, most_silent
        self.count = 0
        self._of: dict[str, _Of] = {}
        self._one = threading.Lock()

    def make_room(self, address: str) -> bool:
        """End the oldest that stands in the way of one more from this address; False where there is no room for it."""
        with self._one:
            ours = self._of.get(address)
            victim: Connection | None = None
            if ours is not None and len(ours.silent) >= self.most_silent:
                victim = next(iter(ours.silent))
            elif self.count >= self.most:
                most = max(self._of.values(), key=len, default=None)
                if most is None or not len(most):
                    return False
                victim = next(iter(most.silent or most.idle))
        if victim is not None:
            victim.handle_close()
        return True

    def silent(self, address: str, one: Connection) -> None:
        """It is new, or has begun to ask."""
        with self._one:
            ours = self._of.setdefault(address, _Of())
            ours.idle.pop(one, None)
            ours.silent[one] = None

    def idle(self, address: str, one: Connection) -> None:
        """It was answered, unless it has gone or asked again by now: who says this is another thread than who reads."""
        with self._one:
            if one.connected and not one.requests and one.request is None:
                self._of.setdefault(address, _Of()).idle[one] = None

    def busy(self, address: str, one: Connection) -> None:
        """It waits for an answer, is ended, or is one that nobody may take away."""
        with self._one:
            ours = self._of.get(address)
            if ours is None:
                return
            ours.silent.pop(one, None)
            ours.idle.pop(one, None)
            if not len(ours):
                del self._of[address]
