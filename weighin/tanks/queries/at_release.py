"""What the release record adds to the weigh slips: fish found dead when a batch went back, and when a boat's fish did.

The one place where that is worked out. Fish found dead in a boat's own batch are that boat's, and the same fish as
those its slip has dead at release. Those of a mixed batch that no slip names are spread over the batch's boats in
proportion to the live fish each handed on: no boat's fish, but the event's. A batch written without its boats may hold
the fish of any boat of that day that no other batch names.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from typing import Protocol

from django.db.models import QuerySet

from weighin.events.models import Event
from weighin.tanks.models import HandedBag, Release


class Weighed(Protocol):
    """A slip, or as much of one as is needed: a boat's fish of one day."""

    @property
    def day(self) -> int: ...
    @property
    def entry_id(self) -> int: ...
    @property
    def alive(self) -> int: ...
    @property
    def dead_at_release(self) -> int | None: ...
    @property
    def kept(self) -> int | None: ...
    @property
    def released(self) -> datetime | None: ...


@dataclass(frozen=True, slots=True)
class AtRelease:
    """A boat's fish of one day when they went back.

    ``own`` are dead that the release record has of this boat's own batch beyond its slip's; ``shared`` is its part of
    the dead of mixed batches that no slip names (a fraction of a fish); ``released`` is when its fish went back, by the
    slip, else by the batch that took its bag.
    """

    own: int = 0
    shared: Fraction = Fraction(0)
    released: datetime | None = None

    @property
    def added(self) -> Fraction:
        """Dead beyond those of the slip."""
        return self.own + self.shared


@dataclass(frozen=True, slots=True)
class Batch:
    """A release: its dead, its time, and the live fish each entry handed on to it (empty where no boat is named)."""

    day: int
    time: datetime
    dead: int
    bags: tuple[tuple[int, int], ...]


Batches = dict[int, list[Batch]]


def batches_of(events: QuerySet[Event] | Iterable[Event | int], as_of: datetime | None = None) -> Batches:
    """Every release of the events, by event, in two queries; with ``as_of`` those that had happened by then."""
    bags: dict[object, list[tuple[int, int]]] = defaultdict(list)
    rows = HandedBag.objects.filter(event__in=events, release__isnull=False).order_by("pk")
    for release, entry, fish in rows.values_list("release_id", "entry_id", "fish"):
        bags[release].append((entry, fish))
    releases = Release.objects.filter(event__in=events).order_by("time", "pk")
    if as_of is not None:
        releases = releases.filter(time__lte=as_of)
    found: Batches = defaultdict(list)
    for pk, event, day, time, dead in releases.values_list("pk", "event_id", "day", "time", "dead"):
        found[event].append(Batch(day, time, dead, tuple(bags[pk])))
    return found


def at_release(slips: Iterable[Weighed], batches: Iterable[Batch]) -> dict[tuple[int, int], AtRelease]:
    """What the batches of one event add to its slips that count, by (day, entry): every slip has its entry."""
    weighed = {(slip.day, slip.entry_id): slip for slip in slips}
    room = {key: max(0, slip.alive - (slip.kept or 0) - (slip.dead_at_release or 0)) for key, slip in weighed.items()}
    own: dict[tuple[int, int], int] = defaultdict(int)
    shared: dict[tuple[int, int], Fraction] = defaultdict(Fraction)
    back: dict[tuple[int, int], datetime] = {}
    unnamed: dict[int, int] = defaultdict(int)
    for batch in batches:
        handed = {(batch.day, entry): fish for entry, fish in batch.bags if (batch.day, entry) in weighed}
        if not batch.bags:
            unnamed[batch.day] += batch.dead
        back.update(dict.fromkeys(handed, batch.time))
        more = batch.dead - sum(weighed[key].dead_at_release or 0 for key in handed)
        if len(batch.bags) == 1 and handed:
            (key,) = handed
            own[key] = min(max(0, more), room[key])
        else:
            _spread(more, handed, room, shared)
    for day, dead in unnamed.items():
        free = [key for key in weighed if key[0] == day and key not in back] or [k for k in weighed if k[0] == day]
        more = dead - sum(weighed[key].dead_at_release or 0 for key in free)
        _spread(more, {key: room[key] for key in free}, room, shared)
    return {key: AtRelease(own[key], shared[key], slip.released or back.get(key)) for key, slip in weighed.items()}


def _spread(
    dead: int,
    handed: dict[tuple[int, int], int],
    room: dict[tuple[int, int], int],
    shared: dict[tuple[int, int], Fraction],
) -> None:
    """Part ``dead`` over the boats by what each handed on, never more to one than it had alive."""
    left = {key: room[key] - shared[key] for key in handed}
    dead = int(min(dead, sum(left.values())))
    if dead <= 0:
        return
    weight: dict[tuple[int, int], Fraction] = {key: Fraction(fish) for key, fish in handed.items()}
    total = sum(weight.values())
    if not total or any(dead * weight[key] / total > left[key] for key in handed):
        weight, total = left, sum(left.values())
    for key in handed:
        shared[key] += dead * weight[key] / total
