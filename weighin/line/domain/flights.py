"""Boats in flights, before the day: how long the line gets, and how far apart flights must be due to keep it short."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil
from random import Random

from weighin.line.domain import ranges
from weighin.line.domain.planning import RUNS, Question, arrivals, nine_in_ten, run_line
from weighin.line.domain.simulation import Policy, Run

MOST_FLIGHTS = 12
STEP_MIN = 5  # due times are told in fives


@dataclass(frozen=True)
class Flights:
    """So many flights, due so many minutes apart; ``biggest`` the boats of the largest.

    What nine invented tournaments in ten stay within: ``longest_min`` from check-in to weighed, ``boats_in_line``
    checked in and not weighed, ``bags`` out at once when bags are called.
    """

    flights: int
    apart_min: int
    biggest: int
    longest_min: float
    boats_in_line: int
    bags: int


@lru_cache(maxsize=64)
def line_of(question: Question, scales: int, flights: int, apart_min: int) -> Flights:
    """The line of so many flights, each of which comes in over the question's minutes before it is due.

    Boats are dealt evenly. Every run has the arrivals of the plan of the line (`planning.plan_line`), flight by
    flight, from the same seeds. Raises ValueError for scales outside 1 to 50, flights outside 1 to 12 or more than
    boats, and due times outside 0 to 1300 minutes apart.
    """
    _check(question, scales, flights, apart_min)
    come = _runs(question, scales, flights, apart_min, "as they come")
    called = _runs(question, scales, flights, apart_min, "called")
    return Flights(
        flights=flights,
        apart_min=apart_min,
        biggest=ceil(question.boats / flights),
        longest_min=nine_in_ten([run.longest_in_line for run in come]),
        boats_in_line=int(nine_in_ten([run.most_bags_out for run in come])),
        bags=int(nine_in_ten([run.most_bags_out for run in called])),
    )


@lru_cache(maxsize=64)
def short_line(question: Question, scales: int, flights: int) -> Flights | None:
    """The fewest flights, at least so many, and the nearest due times that keep the longest wait within the limit.

    The wait is from check-in to weighed, so that fish that get their bag at check-in are not in it for longer either;
    it stays within ``limit_min`` in nine invented tournaments of ten. None where not even twelve flights do. Raises
    ValueError as `line_of`.
    """
    _check(question, scales, flights, 0)
    for many in range(flights, min(MOST_FLIGHTS, question.boats) + 1):
        alone = replace(question, boats=ceil(question.boats / many))
        if not _within(alone, scales, 1, 0):
            continue
        if many == 1:
            return line_of(question, scales, 1, 0)
        # Beyond twice the time in which a flight comes nothing changes: each stands in line alone
        for apart in range(STEP_MIN, int(2 * question.over_min) + STEP_MIN + 1, STEP_MIN):
            if _within(question, scales, many, apart):
                return line_of(question, scales, many, apart)
    return None


def sizes(boats: int, flights: int) -> list[int]:
    """Boats dealt evenly to flights, the larger ones first.

    >>> sizes(60, 7)
    [9, 9, 9, 9, 8, 8, 8]
    """
    return [boats // flights + (flight < boats % flights) for flight in range(flights)]


def _within(question: Question, scales: int, flights: int, apart_min: int) -> bool:
    """Whether nine runs in ten keep the limit, looking at no more of them than it takes to tell."""
    may_pass = RUNS - ceil(0.9 * RUNS)
    over = 0
    for seed in range(RUNS):
        over += _one(question, scales, flights, apart_min, "as they come", seed).longest_in_line > question.limit_min
        if over > may_pass:
            return False
    return True


def _runs(question: Question, scales: int, flights: int, apart_min: int, policy: Policy) -> list[Run]:
    return [_one(question, scales, flights, apart_min, policy, seed) for seed in range(RUNS)]


def _one(question: Question, scales: int, flights: int, apart_min: int, policy: Policy, seed: int) -> Run:
    random = Random(seed)
    come = [
        place * apart_min + minute
        for place, boats in enumerate(sizes(question.boats, flights))
        for minute in arrivals(replace(question, boats=boats), random)
    ]
    return run_line(question, scales, policy, seed, come)


def _check(question: Question, scales: int, flights: int, apart_min: int) -> None:
    ranges.whole("scales", scales, 1, ranges.MOST_SCALES)
    ranges.whole("flights", flights, 1, min(MOST_FLIGHTS, question.boats))
    ranges.whole("apart_min", apart_min, 0, 1300)
