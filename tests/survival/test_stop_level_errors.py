"""How often the rule of the stop level is wrong, by 20,000 simulated events a cell.

No published table exists for this rule: Ville's inequality (1939) bounds both errors at one in twenty for independent
fish, and the cells below show what is left of that where the fish of a livewell share their fate more than is assumed.
"""

import numpy as np
import pytest

from weighin.mortality.queries.stop_level import MISSES
from weighin.survival.sequential import LEAST_LIVEWELLS, watch

STOP, EVENTS = 0.1, 20_000
SIZES, CORRELATIONS = (15, 30, 60), (0.0, 0.1, 0.2)


def simulated(livewells, true, correlation, assumed=0.2, seed=20260718):
    """(share that ever warned, share that was ever called clearly below), of ``EVENTS`` events of 3-7 fish a livewell."""
    random = np.random.default_rng([seed, livewells, round(100 * true), round(100 * correlation)])
    fish = random.integers(3, 8, (EVENTS, livewells))
    strength = 1 / correlation - 1 if correlation else 1e9
    dead = random.binomial(fish, random.beta(true * strength, (1 - true) * strength, fish.shape))
    share = 1 / (1 + (fish - 1) * assumed)
    lost, seen = np.cumsum(dead * share, axis=1), np.cumsum(fish * share, axis=1)
    warned, below = np.zeros(EVENTS, bool), np.zeros(EVENTS, bool)
    losers = np.cumsum(dead > 0, axis=1)
    for after in range(livewells):
        up, down = (_ratio(lost[:, after], seen[:, after], way) for way in (1, -1))
        warned |= (up >= 20) & (losers[:, after] >= LEAST_LIVEWELLS)
        below |= down >= 20
    for row in range(0, EVENTS, EVENTS // 40):
        each = [watch(dead[row, :k].tolist(), fish[row, :k].tolist(), STOP, assumed) for k in range(1, livewells + 1)]
        assert (each[-1].warns, any(one.is_below for one in each)) == (warned[row], below[row])
    return warned.mean(), below.mean()


def _ratio(dead, n, way):
    odds = STOP / (1 - STOP) * 20.0 ** (way * (np.arange(80) + 0.5) / 80)
    gain, cost = np.log(odds) - np.log(STOP / (1 - STOP)), np.log((1 + odds) * (1 - STOP))
    return np.exp(np.outer(dead, gain) - np.outer(n, cost)).mean(axis=1)


@pytest.mark.parametrize("livewells", SIZES)
@pytest.mark.parametrize("correlation", CORRELATIONS)
def test_neither_a_false_alarm_nor_a_false_all_clear_in_more_than_one_of_twenty(livewells, correlation):
    """The true loss is the stop level itself, and somebody looks after every livewell."""
    alarms, all_clears = simulated(livewells, STOP, correlation)
    assert alarms <= 0.05
    assert all_clears <= 0.05


@pytest.mark.parametrize(("livewells", "misses"), MISSES)
def test_stated_misses_at_double_the_level(livewells, misses):
    """The page says these: at a true loss of 20 %, correlation 0.2."""
    warned, all_clears = simulated(livewells, 2 * STOP, 0.2)
    assert 1 - warned == pytest.approx(misses, abs=0.005)
    assert all_clears < 0.002


def test_a_club_whose_fish_are_more_alike_keeps_the_bound_by_its_own_correlation():
    """Twice the assumed correlation leads to more than one false alarm in twenty unless the club's own is used."""
    assert max(simulated(30, STOP, 0.4, assumed=0.4)) <= 0.05
    assert max(simulated(30, STOP, 0.4)) > 0.05


def test_five_of_forty_by_luck():
    """At a true 6.5 %: 12 % with independent fish, about one in six with the assumed correlation (eight livewells of five)."""
    random = np.random.default_rng(3)
    rates = random.beta(0.065 * 4, 0.935 * 4, (EVENTS, 8))
    share = (random.binomial(5, rates).sum(axis=1) >= 5).mean()
    print(share)
    assert 1 / 7 < share < 1 / 5
