"""The stop level watched all day: how often it warns falsely, how soon it warns rightly, and what it refuses."""

from random import Random

import pytest

from weighin.survival.sequential import FALSE_ALARMS, watch

STOP = 0.10
DAYS = 400


def livewell(rng: Random, fish: int, rate: float, correlation: float) -> int:
    """Dead of one livewell, fates alike with the given correlation (beta-binomial)."""
    if correlation:
        strength = 1 / correlation - 1
        rate = rng.betavariate(rate * strength, (1 - rate) * strength)
    return sum(rng.random() < rate for _ in range(fish))


def share_of_days_that_warn(rate: float, correlation: float, boats: int = 60) -> float:
    """How many of simulated days warn at least once while ``boats`` livewells of 3 to 7 fish come in."""
    rng = Random(f"{rate} {correlation} {boats}")
    warned = 0
    for _ in range(DAYS):
        fish = [rng.randint(3, 7) for _ in range(boats)]
        dead = [livewell(rng, n, rate, correlation) for n in fish]
        warned += watch(dead, fish, STOP).warns
    return warned / DAYS


@pytest.mark.parametrize("correlation", [0.0, 0.1, 0.2])
def test_it_does_not_cry_wolf_at_the_stop_level(correlation: float) -> None:
    found = share_of_days_that_warn(STOP, correlation)
    # Three standard errors of 400 simulated days on top of the stated five in a hundred.
    assert found <= FALSE_ALARMS + 3 * (FALSE_ALARMS * (1 - FALSE_ALARMS) / DAYS) ** 0.5
    assert share_of_days_that_warn(0.05, correlation) <= FALSE_ALARMS / 2


def test_it_warns_when_losses_are_far_beyond_the_stop_level() -> None:
    assert share_of_days_that_warn(0.25, 0.1) >= 0.9
    assert share_of_days_that_warn(0.35, 0.2) >= 0.95


def test_a_whole_bad_day_warns_before_it_is_over() -> None:
    bad = watch([3, 5, 2, 6, 4, 5, 3, 4], [7] * 8, STOP)
    assert bad.warns and bad.livewells_to_warning is not None and bad.livewells_to_warning <= 5


def test_the_trade_s_own_caution() -> None:
    """At a true 6.5 %, 5 dead of 40 turn up by chance 12 % of the time (the project's trade notes): no warning."""
    assert not watch([0, 0, 2, 0, 3, 0], [7, 7, 7, 7, 6, 6], STOP).warns


def test_a_warning_stays_although_later_boats_are_well() -> None:
    found = watch([6, 6, 6] + [0] * 60, [7] * 63, STOP)
    assert found.warns and found.livewells_to_warning == 3 and found.evidence < 1 < found.highest


def test_one_boat_alone_does_not_stop_an_event() -> None:
    found = watch([7, 6] + [0] * 4, [7] * 6, STOP)
    assert found.highest > 20 and not found.warns


def test_empty_livewells_do_not_count() -> None:
    assert watch([0, 3, 0], [0, 7, 0], STOP) == watch([3], [7], STOP)
    assert watch([], [], STOP).evidence == 0 and not watch([], [], STOP).warns


@pytest.mark.parametrize(
    ("dead", "fish", "stop", "correlation"),
    [([1], [7], 0, 0.2), ([1], [7], 10, 0.2), ([1], [7], 0.1, 2), ([8], [7], 0.1, 0.2), ([1], [7, 7], 0.1, 0.2)],
)
def test_what_is_out_of_range_is_refused(dead: list[int], fish: list[int], stop: float, correlation: float) -> None:
    with pytest.raises(ValueError):
        watch(dead, fish, stop, correlation)
