"""When the boats of a rehearsal come in, get their bags and are weighed, by the line's own model. Pure.

Minutes of one clock throughout. The same seed gives the same minutes on every machine.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import ceil
from random import Random

from weighin.line.domain.day import Way
from weighin.line.domain.planning import MOST_BOATS, Question, arrivals, service_times
from weighin.line.domain.simulation import Policy, Run, simulate

LATE_SHARE = 0.05  # one boat in twenty, ours
LATE_MIN = (1.0, 20.0)  # minutes after it is due, ours


@dataclass(frozen=True)
class Hour:
    """What the boats come in by: when each is due, from when on any may come, and what the line is run by.

    ``due`` maps boats to minutes. ``over_min`` is the time before it is due over which a flight comes in.
    """

    due: Mapping[int, float]
    opens_min: float
    over_min: float
    scales: int
    bags: int
    boat_min: float
    walk_min: float
    limit_min: float

    @property
    def with_another_scale(self) -> "Hour":
        """The same hour with one scale more."""
        return replace(self, scales=self.scales + 1)


def come_in(hour: Hour, seed: int) -> dict[int, float]:
    """When each boat checks in. A flight comes in before it is due as boats do, more and more; a few come late."""
    random = Random(f"{seed} arrivals")
    found: dict[int, float] = {}
    for due in sorted(set(hour.due.values())):
        flight = [boat for boat, at in hour.due.items() if at == due]
        over = max(1.0, min(hour.over_min, due - hour.opens_min))
        come = _bunched(len(flight), over, random)
        found |= {boat: due - over + minute for boat, minute in zip(flight, come, strict=True)}
    late = random.sample(sorted(found), ceil(LATE_SHARE * len(found)) if len(found) > 1 else 0)
    return found | {boat: hour.due[boat] + random.uniform(*LATE_MIN) for boat in late}


def _bunched(boats: int, over_min: float, random: Random) -> Iterator[float]:
    for begun in range(0, boats, MOST_BOATS):
        yield from arrivals(Question(boats=min(MOST_BOATS, boats - begun), over_min=min(over_min, 600)), random)


def ran(hour: Hour, seed: int, policy: Policy = "as they come") -> Run:
    """The line of that hour: bags are given at check-in while there is one, or when they are called for."""
    come = come_in(hour, seed)
    return simulate(
        arrivals_min=list(come.values()),
        service_min=service_times(hour.boat_min),
        scales=hour.scales,
        walk_min=hour.walk_min,
        policy=policy,
        limit_min=hour.limit_min,
        bags=hour.bags,
        assumed_service_min=hour.boat_min,
        seed=seed,
    )


def ways(hour: Hour, seed: int, policy: Policy = "as they come") -> list[Way]:
    """Each boat's way, in the order of check-in."""
    boats = list(come_in(hour, seed))
    return [
        Way(
            boats[wait.team],
            _to_the_second(wait.checked_in),
            _to_the_second(wait.bag_issued),
            _to_the_second(wait.done),
            late=wait.checked_in > hour.due[boats[wait.team]],
        )
        for wait in ran(hour, seed, policy).waits
    ]


def _to_the_second(minutes: float) -> float:
    return round(minutes * 60) / 60
