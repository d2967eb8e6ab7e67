"""Lanes: threads of their own with a queue of their own, so that who waits in one holds nobody up in another."""

import logging
import threading
from collections import OrderedDict, deque
from time import monotonic
from typing import Protocol

LOG = logging.getLogger(__name__)


class Work(Protocol):
    """What a lane does: one request of a connection."""

    def service(self) -> None: ...

    def turn_away(self) -> None: ...

    def cancel(self) -> None: ...


class Lane:
    """Some threads, and those who wait for them: an address each in turn, so that a busy one holds up itself alone.

    At most ``most`` wait, of one address at most as many as there are places left, so that none fills it alone; none
    longer than ``longest_wait`` seconds: what cannot be answered in time is turned away, at once where the oldest of its
    address has waited so long already.
    """

    # Answers of one lane made side by side only take the interpreter from one another. So they come one after the other,
    # in the order of waiting, and the next does not wait for one that waits itself, for a disk or a lock
    PATIENCE_SECONDS = 0.012

    def __init__(self, name: str, threads: int, most: int, longest_wait: float):
        self.name, self.most, self.longest_wait = name, most, longest_wait
        self._count = 0
        self._waiting: OrderedDict[str, deque[tuple[float, Work]]] = OrderedDict()
        self._changed = threading.Condition()
        self._ended = False
        self._turn: tuple[int, float] | None = None  # the thread that answers, and since when
        self._is_watched = False  # another looks whether its patience with that thread is at an end
        self._threads = [
            threading.Thread(target=self._serve, name=f"{name}-{number}", daemon=True) for number in range(threads)
        ]
        for thread in self._threads:
            thread.start()

    def add(self, address: str, work: Work) -> bool:
        """Put it into the queue; False where that is full, or those before it have waited too long already."""
        now = monotonic()
        with self._changed:
            queue = self._waiting.get(address)
            if self._count + len(queue or ()) >= self.most or (queue and now - queue[0][0] > self.longest_wait):
                return False
            if queue is None:
                queue = self._waiting[address] = deque()
            queue.append((now, work))
            self._count += 1
            # Who answers takes the next one up, and one watches whether it gets that far: nobody has to wake for this
            if self._turn is None or not self._is_watched:
                self._changed.notify()
        return True

    def end(self, seconds: float = 5.0) -> None:
        """Let what is being answered be answered, for so long at most, and drop what waits."""
        with self._changed:
            self._ended = True
            dropped = [work for queue in self._waiting.values() for _, work in queue]
            self._waiting.clear()
            self._changed.notify_all()
        for work in dropped:
            work.cancel()
        until = monotonic() + seconds
        for thread in self._threads:
            thread.join(max(0.0, until - monotonic()))

    def _serve(self) -> None:
        while (found := self._next()) is not None:
            since, work = found
            try:
                if monotonic() - since > self.longest_wait:
                    work.turn_away()
                work.service()
            except Exception:
                LOG.exception("An answer could not be given")

    def _next(self) -> tuple[float, Work] | None:
        with self._changed:
            if self._turn and self._turn[0] == threading.get_ident():
                self._turn = None
            while not self._waiting or self._turn:
                if self._ended:
                    return None
                if not self._waiting or self._is_watched:
                    self._changed.wait()
                    continue
                assert self._turn
                left = self._turn[1] + self.PATIENCE_SECONDS - monotonic()
                if left <= 0:
                    break
                self._is_watched = True
                self._changed.wait(left)
                self._is_watched = False
            self._turn = (threading.get_ident(), monotonic())
            address, queue = next(iter(self._waiting.items()))
            found = queue.popleft()
            self._count -= 1
            if queue:
                self._waiting.move_to_end(address)
            else:
                del self._waiting[address]
            if self._waiting and not self._is_watched:
                self._changed.notify()
            return found
