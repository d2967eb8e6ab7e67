"""How long fish would be in a bag that is given out now, and how long to wait with it.

What stands before the new bag is put to the scales one by one, each as it gets free, with the same minutes for every
boat; whatever is at the scales has its minutes less those gone by. This is how the first-come line with several
scales runs (any text on queues); that every boat takes the mean is our simplification, so a margin is added.
"""

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass

from weighin.line.domain.learning import Service

MARGIN = 1.64  # a normal sum stays below this nineteen times in twenty
STILL_MIN = 0.25


@dataclass(frozen=True)
class BagOut:
    """A bag on its way or at the scales, in minutes of one clock: when it reaches the table, when it went on the scale."""

    ready: float
    began: float | None = None


@dataclass(frozen=True)
class Forecast:
    """What would become of a bag given out now.

    ``in_bag`` minutes from the bag to the weight, as expected; ``careful`` the same nineteen times in twenty, by the spread
    of today's minutes; ``stands`` the part of ``in_bag`` in which the boat stands at the table and waits for a scale.
    """

    in_bag: float
    careful: float
    stands: float


@dataclass(frozen=True)
class Word:
    """Whether to give the next bag, and when not, about how many minutes to wait and why."""

    give: bool
    wait_min: float
    why: str
    forecast: Forecast


def forecast(
    *, now: float, bags_out: Sequence[BagOut], scales: int, service: Service, walk_min: float, ahead: int = 0
) -> Forecast:
    """What would become of a bag given out ``now``, with ``ahead`` more given out just before it.

    Parameters
    ----------
    now : float
        Minutes of the clock that ``bags_out`` tell.
    bags_out : sequence of BagOut
        Bags that are out and not weighed.
    scales : int
        Scales in use, 1 or more.
    service : Service
        Minutes a boat.
    walk_min : float
        Minutes from the bag to the table, filling it included.
    ahead : int
        Boats that get theirs first, at the same moment.
    """
    free = [now] * scales
    heapq.heapify(free)
    order = sorted(bags_out, key=lambda bag: (bag.began is None, bag.ready))
    before = [*order, *[BagOut(now + walk_min)] * ahead]
    for bag in before:
        at = heapq.heappop(free)
        if bag.began is not None:
            left = max(STILL_MIN, bag.began + service.minutes - now)
            heapq.heappush(free, now + left)
        else:
            heapq.heappush(free, max(at, bag.ready) + service.minutes)
    ready = now + walk_min
    start = max(ready, free[0])
    in_bag = start + service.minutes - now
    one_after_another = math.ceil((len(before) + 1) / scales) if start > ready else 1
    careful = in_bag + MARGIN * service.spread * math.sqrt(one_after_another)
    return Forecast(in_bag, careful, start - ready)


def word(
    *,
    now: float,
    bags_out: Sequence[BagOut],
    scales: int,
    service: Service,
    walk_min: float,
    limit_min: float,
    bags: int | None = None,
) -> Word:
    """Whether to give the next bag now.

    It is given when its fish would be weighed within the limit nineteen times in twenty, and also when they would not have
    to stand for a scale: waiting longer would not shorten their minutes then, it would only leave a scale idle.

    Parameters
    ----------
    limit_min : float
        Most minutes in a bag under the rule sheet.
    bags : int, optional
        Bags that may be out at once; None = as many as the limit allows.
    """
    found = forecast(now=now, bags_out=bags_out, scales=scales, service=service, walk_min=walk_min)
    if bags is not None and len(bags_out) >= bags:
        return Word(False, _until_one_is_back(now, bags_out, scales, service), "bags", found)
    if found.stands <= 0 or found.careful <= limit_min:
        return Word(True, 0.0, "", found)
    return Word(False, min(found.stands, found.careful - limit_min), "limit", found)


def _until_one_is_back(now: float, bags_out: Sequence[BagOut], scales: int, service: Service) -> float:
    left = [
        max(STILL_MIN, (max(now, bag.ready) if bag.began is None else bag.began) + service.minutes - now)
        for bag in bags_out
    ]
    return min(left)
