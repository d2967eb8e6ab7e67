"""A line at the scales, boat by boat: how long each waits, and how long its fish are in a bag.

First come, first served with c scales, as in any text on queues; the tests hold it against Erlang's C formula
(M/M/c), Pollaczek and Khinchine's (M/D/1) and Little's law. It knows nothing of tired people, fish measured again, a
scale that fails or boats that let another go first.
"""

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil
from random import Random
from typing import Literal

from weighin.line.domain import ranges
from weighin.line.domain.forecast import BagOut, word
from weighin.line.domain.learning import LOOKS_BACK, Service, Weighing, learned, measured_minutes

Policy = Literal["as they come", "called"]
Spread = Literal["fixed", "exponential"]
POLICIES = ("as they come", "called")
SPREADS = ("fixed", "exponential")
SHORTEST_STEP = 1 / 60


@dataclass(frozen=True)
class Wait:
    """One team's way through the line, in minutes of the clock that the check-ins were given in."""

    team: int
    checked_in: float
    bag_issued: float
    at_table: float
    began: float
    done: float

    @property
    def for_bag(self) -> float:
        """Minutes from check-in to the bag, the fish in the livewell."""
        return self.bag_issued - self.checked_in

    @property
    def standing(self) -> float:
        """Minutes at the table with a bag, waiting for a scale."""
        return self.began - self.at_table

    @property
    def in_bag(self) -> float:
        """Minutes from the bag to the end of the weighing."""
        return self.done - self.bag_issued

    @property
    def in_line(self) -> float:
        """Minutes from check-in to the end of the weighing."""
        return self.done - self.checked_in


@dataclass(frozen=True)
class Run:
    """A simulated line: ``waits`` in the order of check-in; all figures in minutes."""

    waits: tuple[Wait, ...]
    limit_min: float
    most_bags_out: int

    @cached_property
    def minutes_in_bag(self) -> tuple[float, ...]:
        """Of each team, in the order of check-in."""
        return tuple(one.in_bag for one in self.waits)

    @property
    def longest(self) -> float:
        """The longest minutes in a bag."""
        return max(self.minutes_in_bag)

    @property
    def longest_in_line(self) -> float:
        """The longest minutes from check-in to weighed."""
        return max(one.in_line for one in self.waits)

    @property
    def share_over(self) -> float:
        """Share of teams, 0 to 1, whose fish were in the bag for more than the limit."""
        return sum(minutes > self.limit_min for minutes in self.minutes_in_bag) / len(self.waits)

    @property
    def total_min(self) -> float:
        """From the first check-in until the last team is weighed."""
        return max(one.done for one in self.waits) - min(one.checked_in for one in self.waits)

    def percentile(self, percent: float, of: str = "in_bag") -> float:
        """The least minutes within which ``percent`` of the teams stay (nearest rank); ``of`` is a property of ``Wait``.

        Raises ValueError for a percentage outside 0 to 100, and for another name.
        """
        if not 0 <= percent <= 100:
            raise ValueError(f"percent must be 0 to 100, not {percent:g}")
        if of not in ("in_bag", "in_line", "for_bag", "standing"):
            raise ValueError(f"of must be in_bag, in_line, for_bag or standing, not {of!r}")
        ordered = sorted(getattr(one, of) for one in self.waits)
        return float(ordered[max(0, ceil(percent / 100 * len(ordered)) - 1)])


def simulate(
    *,
    arrivals_min: Sequence[float],
    service_min: float | Sequence[float],
    scales: int = 1,
    spread: Spread = "fixed",
    walk_min: float = 1.0,
    policy: Policy = "as they come",
    limit_min: float = 10.0,
    bags: int | None = None,
    assumed_service_min: float | None = None,
    seed: int = 0,
) -> Run:
    """Run a line and return the waits of every team.

    With the policy ``as they come`` a bag is given at check-in while there is one. With ``called`` it is given when
    ``forecast.word`` says so, which knows the bags that are out, those being weighed and the service times measured
    so far in this run, and nothing of what is to come. Teams are served in the order of check-in. Under one seed both
    policies have the same service time for the same team.

    Parameters
    ----------
    arrivals_min : sequence of float
        Check-in of each team in minutes of any clock, in any order, -100000 to 100000; 1 to 100000 teams.
    service_min : float or sequence of float
        Minutes at the scales, 0 (more than 0 for ``called``) to 1000. A sequence is what was measured: every team
        draws one of them, with replacement.
    scales : int
        1 to 50.
    spread : {'fixed', 'exponential'}
        For one figure: the same for every team, or exponential with that mean.
    walk_min : float
        Minutes from the bag to the table, 0 to 120.
    policy : {'as they come', 'called'}
        When bags are given out.
    limit_min : float
        Most minutes in a bag, more than 0, at most 1000.
    bags : int, optional
        Bags there are, 1 or more; None = enough.
    assumed_service_min : float, optional
        What ``called`` reckons with before any team is weighed, 0.1 to 1000; 2.5 when left out.
    seed : int
        Of the service times.

    Returns
    -------
    Run

    Raises
    ------
    ValueError
        Outside the ranges above.

    Examples
    --------
    >>> run = simulate(arrivals_min=[0, 0, 0, 0], service_min=3, walk_min=1, limit_min=9)
    >>> run.minutes_in_bag
    (4.0, 7.0, 10.0, 13.0)
    >>> run.share_over, run.total_min
    (0.5, 13.0)
    >>> called = simulate(arrivals_min=[0, 0, 0, 0], service_min=3, walk_min=1, limit_min=9, policy="called")
    >>> called.share_over, called.total_min
    (0.0, 13.0)
    """
    _check(policy, POLICIES, "policy")
    _check(spread, SPREADS, "spread")
    came = ranges.many_minutes("arrivals_min", arrivals_min, -ranges.MOST_MINUTES, ranges.MOST_MINUTES)
    ranges.whole("scales", scales, 1, ranges.MOST_SCALES)
    walk = ranges.minutes("walk_min", walk_min, 0, 120)
    limit = ranges.minutes("limit_min", limit_min, 0.1, 1000)
    if bags is not None:
        ranges.whole("bags", bags, 1, ranges.MOST_BOATS)
    assumed = ranges.minutes(
        "assumed_service_min", 2.5 if assumed_service_min is None else assumed_service_min, 0.1, 1000
    )
    least = 0.01 if policy == "called" else 0.0
    order = sorted(range(len(came)), key=lambda team: (came[team], team))
    took = _services(service_min, spread, len(came), least, Random(seed))
    line = _Line(scales, walk)
    for team, minutes in zip(order, took, strict=True):
        if policy == "as they come":
            line.give(team, came[team], line.when_back(came[team], bags), minutes)
        else:
            at = line.next_call(came[team], limit, bags, assumed)
            line.give(team, came[team], at, minutes)
    return Run(tuple(line.waits), limit, _most_at_once(line.waits))


class _Line:
    """The line as it fills: teams get their bags one after another, so each one's way is known once it has its bag."""

    def __init__(self, scales: int, walk: float):
        self.walk, self.scales = walk, scales
        self.free = [float("-inf")] * scales
        self.waits: list[Wait] = []
        self.last_bag = float("-inf")
        self.weighed: list[Wait] = []
        self.out: list[Wait] = []
        self.ends: list[float] = []
        self.known: tuple[int, Service] | None = None

    def give(self, team: int, came: float, at: float, minutes: float) -> None:
        ready = at + self.walk
        began = max(ready, heapq.heappop(self.free))
        wait = Wait(team, came, at, ready, began, began + minutes)
        heapq.heappush(self.free, wait.done)
        self.waits.append(wait)
        self.out.append(wait)
        heapq.heappush(self.ends, wait.done)
        self.last_bag = at

    def when_back(self, came: float, bags: int | None) -> float:
        """When there is a bag for a boat that came, the boats before it served first."""
        at = max(came, self.last_bag)
        if bags is None:
            return at
        while self.ends and self.ends[0] <= at:
            heapq.heappop(self.ends)
        while len(self.ends) >= bags:
            at = max(at, heapq.heappop(self.ends))
        return at

    def next_call(self, came: float, limit: float, bags: int | None, assumed: float) -> float:
        """The first moment at which the next team is called, by what is known then."""
        at = max(came, self.last_bag)
        while True:
            self._look(at)
            service = self._service(assumed)
            known = [BagOut(one.at_table, one.began if one.began <= at else None) for one in self.out]
            said = word(
                now=at,
                bags_out=known,
                scales=self.scales,
                service=service,
                walk_min=self.walk,
                limit_min=limit,
                bags=bags,
            )
            if said.give:
                return at
            nearest = min((one.done for one in self.out), default=at + said.wait_min)
            at = min(nearest, at + max(said.wait_min, SHORTEST_STEP))

    def _service(self, assumed: float) -> Service:
        """What is learned from the weighed so far; worked out again only when there are more of them."""
        if self.known is None or self.known[0] != len(self.weighed):
            # Enough that the first of them, of which it is not known when a scale was free, are not among the last 20
            recent = self.weighed[-(LOOKS_BACK + 2 * self.scales) :]
            measured = measured_minutes(map(_as_seen, recent), self.scales)
            self.known = (len(self.weighed), learned(measured, assumed))
        return self.known[1]

    def _look(self, at: float) -> None:
        """Move what is weighed by now from the bags that are out to the weighed."""
        done = [one for one in self.out if one.done <= at]
        if done:
            self.weighed.extend(sorted(done, key=lambda one: one.done))
            self.out = [one for one in self.out if one.done > at]


def _as_seen(wait: Wait) -> Weighing:
    """What the table's record tells of a weighing; that it began is told by nobody."""
    return Weighing(done=wait.done, ready=wait.at_table)


def _services(
    service_min: float | Sequence[float], spread: str, teams: int, least: float, random: Random
) -> list[float]:
    if isinstance(service_min, int | float):
        mean = ranges.minutes("service_min", service_min, least, 1000)
        if spread == "exponential":
            return [random.expovariate(1 / mean) if mean else 0.0 for _ in range(teams)]
        return [mean] * teams
    measured = ranges.many_minutes("service_min", service_min, least, 1000)
    return [random.choice(measured) for _ in range(teams)]


def _most_at_once(waits: Sequence[Wait]) -> int:
    moves = sorted([(one.bag_issued, 1) for one in waits] + [(one.done, -1) for one in waits])
    out = most = 0
    for _, move in moves:
        out += move
        most = max(most, out)
    return most


def _check(value: str, known: Sequence[str], name: str) -> None:
    if value not in known:
        raise ValueError(f"{name} must be one of {', '.join(map(repr, known))}, not {value!r}")
