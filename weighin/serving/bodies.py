"""What is being sent to us and has not come to its end: it lies in memory and on the disk, of which there is so much."""

import threading
from collections import Counter

from weighin.serving.connections import Connection


class Bodies:
    """At most ``most`` bytes of requests that are on their way in; beyond, the oldest of the address with most goes."""

    def __init__(self, most: int):
        self.most = most
        self._in_hand: dict[Connection, tuple[str, int]] = {}
        self._of: Counter[str] = Counter()
        self._one = threading.Lock()

    def grown(self, address: str, one: Connection, size: int) -> None:
        """So many bytes of what it sends are here by now."""
        with self._one:
            self._of[address] += size - self._in_hand.get(one, (address, 0))[1]
            self._in_hand[one] = address, size
            if self._of.total() <= self.most:
                return
            fullest = max(self._of, key=lambda each: self._of[each])
            ours = (each for each, (whose, _) in self._in_hand.items() if whose == fullest and not each.requests)
            victim = next(ours, one)
        victim.handle_close()

    def gone(self, one: Connection) -> None:
        """It was answered, or has ended."""
        with self._one:
            address, size = self._in_hand.pop(one, ("", 0))
            self._of[address] -= size
            if not self._of[address]:
                del self._of[address]
