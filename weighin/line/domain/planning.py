"""Before the day: how long a line, how many scales and bags, by running invented tournaments of the size asked for."""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil, exp, log, sqrt
from random import Random
from statistics import NormalDist, median
from typing import Literal

from weighin.line.domain import ranges
from weighin.line.domain.simulation import Policy, Run, simulate

Shape = Literal["bunched", "even"]
SHAPES = ("bunched", "even")
RUNS = 12
MOST_BOATS, MOST_SCALES = 250, 4
SPREAD = 0.5
PEAK = 0.8
FEW_OVER = 0.10


@dataclass(frozen=True)
class Question:
    """What is asked: boats, over how many minutes they come in, and the assumptions. Minutes throughout.

    ``shape`` is bunched (more and more until four fifths of the time, as before a due time) or even. ``bags`` None
    means as many as are called for. Raises ValueError outside: boats 1 to 250, over 1 to 600, a boat 0.2 to 20,
    walk 0 to 30, limit 1 to 120, bags 1 to 500.
    """

    boats: int
    over_min: float
    boat_min: float = 2.5
    walk_min: float = 1.0
    limit_min: float = 10.0
    bags: int | None = None
    shape: Shape = "bunched"

    def __post_init__(self) -> None:
        ranges.whole("boats", self.boats, 1, MOST_BOATS)
        ranges.minutes("over_min", self.over_min, 1, 600)
        ranges.minutes("boat_min", self.boat_min, 0.2, 20)
        ranges.minutes("walk_min", self.walk_min, 0, 30)
        ranges.minutes("limit_min", self.limit_min, 1, 120)
        if self.bags is not None:
            ranges.whole("bags", self.bags, 1, 500)
        if self.shape not in SHAPES:
            raise ValueError(f"shape must be bunched or even, not {self.shape!r}")


@dataclass(frozen=True)
class Option:
    """What so many scales would mean; medians of the runs, ``_bad`` what nine runs in ten stay within. Shares 0 to 1.

    ``last`` minutes after the time over which boats come until the last is weighed, ``wait`` the longest from check-in
    to weighed, ``later`` how much later the last is weighed when bags are called than when they go out at check-in.
    """

    scales: int
    last_min: float
    last_bad: float
    wait_min: float
    wait_bad: float
    bags: int
    over_called: float
    over_as_they_come: float
    later_min: float


@dataclass(frozen=True)
class LinePlan:
    """The options for one scale and up, and the fewest scales that are enough (None: not even the most)."""

    question: Question
    options: tuple[Option, ...]
    enough: Option | None


@lru_cache(maxsize=64)
def plan_line(question: Question) -> LinePlan:
    """Run the tournament twelve times for 1 to 4 scales, bags called and bags at check-in, always from the same seeds.

    Enough are the fewest scales with which at most one boat in ten is over the limit when bags are called and no boat
    waits longer from check-in to weighed than half the time over which boats come, or 45 minutes if that is longer.
    Both bounds are ours, no source.
    """
    options = tuple(_option(question, scales) for scales in range(1, MOST_SCALES + 1))
    patience = max(45.0, question.over_min / 2)
    good = [one for one in options if one.over_called <= FEW_OVER and one.wait_bad <= patience]
    return LinePlan(question, options, good[0] if good else None)


def _option(question: Question, scales: int) -> Option:
    called = [_run(question, scales, "called", seed) for seed in range(RUNS)]
    come = [_run(question, scales, "as they come", seed) for seed in range(RUNS)]
    last = [max(0.0, max(one.done for one in run.waits) - question.over_min) for run in called]
    wait = [run.longest_in_line for run in called]
    return Option(
        scales=scales,
        last_min=median(last),
        last_bad=nine_in_ten(last),
        wait_min=median(wait),
        wait_bad=nine_in_ten(wait),
        bags=ceil(nine_in_ten([run.most_bags_out for run in called])),
        over_called=sum(run.share_over for run in called) / RUNS,
        over_as_they_come=sum(run.share_over for run in come) / RUNS,
        later_min=median(mine.total_min - theirs.total_min for mine, theirs in zip(called, come, strict=True)),
    )


def _run(question: Question, scales: int, policy: Policy, seed: int) -> Run:
    return run_line(question, scales, policy, seed, arrivals(question, Random(seed)))


def arrivals(question: Question, random: Random) -> list[float]:
    """When each boat comes, minutes after the first may."""
    over = question.over_min
    return [
        random.triangular(0, over, PEAK * over) if question.shape == "bunched" else random.uniform(0, over)
        for _ in range(question.boats)
    ]


def run_line(question: Question, scales: int, policy: Policy, seed: int, come: list[float]) -> Run:
    """One invented tournament whose boats ``come`` at those minutes."""
    return simulate(
        arrivals_min=come,
        service_min=service_times(question.boat_min),
        scales=scales,
        walk_min=question.walk_min,
        policy=policy,
        limit_min=question.limit_min,
        bags=question.bags,
        assumed_service_min=question.boat_min,
        seed=seed,
    )


def service_times(mean_min: float) -> tuple[float, ...]:
    """Fifty minutes with the mean asked for that spread as work by hand does: log-normal, deviation half the mean.

    The shape is an assumption without a source: most boats are quick, a few take three times as long.
    """
    sigma = sqrt(log(1 + SPREAD**2))
    normal = NormalDist()
    found = [exp(sigma * normal.inv_cdf((place + 0.5) / 50)) for place in range(50)]
    scale = mean_min / (sum(found) / 50)
    return tuple(one * scale for one in found)


def nine_in_ten(figures: list[float] | list[int]) -> float:
    """What nine of ten figures stay within (nearest rank)."""
    ordered = sorted(figures)
    return float(ordered[ceil(0.9 * len(ordered)) - 1])
