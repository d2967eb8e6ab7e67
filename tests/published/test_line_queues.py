"""The simulated line against the formulas of queues that it must obey.

Each formula is worked out here anew. Sources: A. K. Erlang 1917 for waiting with c servers (Erlang's C formula);
F. Pollaczek 1930 and A. Y. Khinchine 1932 for one server with any service times; J. D. C. Little 1961 for L = lambda W.
The formulas are as any textbook of queues has them; they were written down from memory and checked by their known
special cases below.
"""

from collections.abc import Sequence
from math import factorial, isclose, sqrt
from random import Random
from statistics import mean, stdev
from typing import Any

import pytest

from weighin.line.domain.simulation import Run, simulate

SERVICE_MIN = 2.5
WARM_UP = 2_000
BATCHES, A_BATCH = 30, 1_400
T_99_9 = 3.66  # Student's t, 29 degrees of freedom, two-sided 99.9 %, from memory of the table


def erlang_c_wait(per_min: float, service: float, servers: int) -> float:
    """Mean minutes before service in M/M/c."""
    load = per_min * service
    top = load**servers / factorial(servers) * servers / (servers - load)
    chance_to_wait = top / (sum(load**k / factorial(k) for k in range(servers)) + top)
    return chance_to_wait * service / (servers - load)


def pollaczek_khinchine_wait(per_min: float, service: float, variance: float) -> float:
    """Mean minutes before service in M/G/1."""
    return per_min * (service**2 + variance) / (2 * (1 - per_min * service))


def poisson(per_min: float, teams: int, seed: int) -> list[float]:
    random, now, found = Random(seed), 0.0, []
    for _ in range(teams):
        now += random.expovariate(per_min)
        found.append(now)
    return found


def limits(figures: Sequence[float]) -> tuple[float, float]:
    """99.9 % confidence limits of the long-run mean, by batch means after a warm-up."""
    batches = [mean(figures[WARM_UP + n * A_BATCH : WARM_UP + (n + 1) * A_BATCH]) for n in range(BATCHES)]
    half = T_99_9 * stdev(batches) / sqrt(BATCHES)
    return mean(batches) - half, mean(batches) + half


def run(per_min: float, seed: int, **how: Any) -> Run:
    arrivals = poisson(per_min, WARM_UP + BATCHES * A_BATCH, seed)
    # The ranges of the clock are for a day: the long run is told in smaller minutes of the same proportions
    scale = 90_000 / arrivals[-1]
    found = simulate(
        arrivals_min=[one * scale for one in arrivals],
        service_min=SERVICE_MIN * scale,
        walk_min=0,
        seed=seed + 1,
        **how,
    )
    assert max(one.for_bag for one in found.waits) == 0
    return found


def standing(found: Run, per_min: float) -> list[float]:
    scale = found.waits[-1].checked_in / poisson(per_min, WARM_UP + BATCHES * A_BATCH, SEED)[-1]
    return [one.standing / scale for one in found.waits]


SEED = 1961


def test_the_formulas_have_their_known_values() -> None:
    # One server: rho/(1-rho) services; two at half load: a third of a service; fixed service waits half as long
    assert isclose(erlang_c_wait(0.2, 2.5, 1), 2.5)
    assert isclose(erlang_c_wait(0.4, 2.5, 2), 2.5 / 3)
    assert isclose(pollaczek_khinchine_wait(0.2, 2.5, 2.5**2), erlang_c_wait(0.2, 2.5, 1))
    assert isclose(pollaczek_khinchine_wait(0.2, 2.5, 0), erlang_c_wait(0.2, 2.5, 1) / 2)


@pytest.mark.parametrize(("scales", "load"), [(1, 0.5), (1, 0.7), (2, 0.7), (3, 0.8)])
def test_exponential_service_waits_as_erlang_has_it(scales: int, load: float) -> None:
    per_min = load * scales / SERVICE_MIN
    low, high = limits(standing(run(per_min, SEED, scales=scales, spread="exponential"), per_min))
    expected = erlang_c_wait(per_min, SERVICE_MIN, scales)
    assert low <= expected <= high and high - low < 0.4 * expected, (low, expected, high)


@pytest.mark.parametrize("load", [0.5, 0.7, 0.8])
def test_fixed_service_waits_as_pollaczek_and_khinchine_have_it(load: float) -> None:
    per_min = load / SERVICE_MIN
    low, high = limits(standing(run(per_min, SEED), per_min))
    expected = pollaczek_khinchine_wait(per_min, SERVICE_MIN, 0)
    assert low <= expected <= high and high - low < 0.25 * expected, (low, expected, high)


def test_measured_service_waits_as_pollaczek_and_khinchine_have_it() -> None:
    per_min = 0.7 / SERVICE_MIN
    arrivals = poisson(per_min, 20_000, SEED)
    scale = 90_000 / arrivals[-1]
    minutes = (1.0, 1.5, 2.0, 2.5, 5.5)
    assert mean(minutes) == SERVICE_MIN
    variance = mean((one - SERVICE_MIN) ** 2 for one in minutes)
    found = simulate(
        arrivals_min=[one * scale for one in arrivals], service_min=[one * scale for one in minutes], walk_min=0, seed=7
    )
    waits = [one.standing / scale for one in found.waits][WARM_UP:]
    batches = [mean(waits[n * 600 : (n + 1) * 600]) for n in range(BATCHES)]
    half = T_99_9 * stdev(batches) / sqrt(BATCHES)
    expected = pollaczek_khinchine_wait(per_min, SERVICE_MIN, variance)
    assert abs(mean(batches) - expected) <= half < 0.4 * expected


@pytest.mark.parametrize("policy", ["as they come", "called"])
def test_littles_law(policy: Any) -> None:
    """Over a run that begins and ends empty, teams in line added up over time are the waits added up, to the digit."""
    random = Random(3)
    arrivals = [random.triangular(0, 60, 50) for _ in range(60)]
    found = simulate(arrivals_min=arrivals, service_min=2.0, spread="exponential", scales=2, policy=policy, seed=4)
    for began, ended, of in (("checked_in", "done", "in_line"), ("bag_issued", "done", "in_bag")):
        moves = sorted(
            [(getattr(one, began), 1) for one in found.waits] + [(getattr(one, ended), -1) for one in found.waits]
        )
        area, teams, before = 0.0, 0, moves[0][0]
        for moment, move in moves:
            area += teams * (moment - before)
            teams, before = teams + move, moment
        assert isclose(area, sum(getattr(one, of) for one in found.waits), rel_tol=1e-9)
