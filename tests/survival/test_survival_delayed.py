"""Delayed mortality: what must hold for any study, and the cover of its limits by simulation."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from weighin.survival.clusters import clustered
from weighin.survival.delayed import abbott, compound, total, uncorrected
from weighin.survival.intervals import wilson

GROUP = st.integers(1, 80).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
SHARE = st.floats(0, 1)


@given(GROUP, GROUP)
def test_the_correction_undoes_what_independent_risks_do(treated, reference):
    """Abbott's premise: alive after both = alive after holding x alive after the tournament."""
    assume(reference[0] < reference[1])
    delayed = abbott(*treated, *reference)
    holding = reference[0] / reference[1]
    assert total(holding, delayed.rate) == pytest.approx(treated[0] / treated[1], abs=1e-12)
    assert delayed.low <= delayed.rate + 1e-12
    assert delayed.rate <= delayed.high + 1e-12
    assert delayed.high <= 1.0


@given(GROUP, st.integers(1, 80))
def test_reference_fish_that_all_live_change_only_the_uncertainty(treated, n):
    delayed, held = abbott(*treated, 0, n), uncorrected(*treated)
    assert delayed.rate == pytest.approx(held.rate)
    assert delayed.low <= held.low + 1e-12


def test_a_negative_correction_is_kept():
    assert abbott(2, 50, 6, 50).rate < 0 < abbott(2, 50, 6, 50).high


def test_none_dead_leaves_the_limits_open():
    delayed = abbott(0, 30, 0, 30)
    assert (delayed.rate, delayed.standard_error) == (0.0, 0.0)
    assert delayed.low < -0.05
    assert delayed.high > 0.1


def test_all_tournament_fish_dead_is_everything_and_its_lower_limit_is_not():
    delayed = abbott(30, 30, 3, 30)
    assert (delayed.rate, delayed.high) == (1.0, 1.0)
    assert 0.5 < delayed.low < 1.0


def test_one_number_is_independent_fish_and_a_sequence_is_pens():
    by_fish, by_pen = abbott(14, 60, 2, 60), abbott([2, 3, 9], [20] * 3, [1, 0, 1], [20] * 3)
    assert by_fish.rate == by_pen.rate
    assert by_pen.high > by_fish.high
    assert abbott(np.array([2, 3, 9]), np.array([20] * 3), [1, 0, 1], [20] * 3) == by_pen


def test_the_limits_without_reference_are_those_of_the_held_fish():
    assert (uncorrected(4, 43).low, uncorrected(4, 43).high) == (wilson(4, 43).low, wilson(4, 43).high)


@given(SHARE, SHARE)
def test_both_losses_are_never_more_than_all_nor_less_than_either(initial, delayed):
    both = total(initial, delayed)
    assert max(initial, delayed) - 1e-12 <= both <= 1.0
    assert both == pytest.approx(total(delayed, initial))


@given(GROUP, GROUP, GROUP)
def test_the_uncertainty_of_both_parts_is_carried_through(brought, treated, reference):
    assume(reference[0] < reference[1])
    initial, delayed = uncorrected(*brought), abbott(*treated, *reference)
    both = compound(initial, delayed)
    later = max(0.0, delayed.rate)
    assert both.rate == total(initial.rate, later)
    assert both.rate >= initial.rate and both.low >= initial.low
    assert both.low <= both.rate + 1e-12
    assert both.rate <= both.high + 1e-12
    # Taking delayed mortality as certain must narrow the limits.
    assert both.low <= max(initial.low, total(initial.low, later)) + 1e-9
    assert both.high >= min(1.0, total(initial.high, later)) - 1e-9


def test_clustered_boats_and_pens_compound():
    boats = clustered([0, 0, 1, 0, 4, 0, 0, 0, 1, 0], [7] * 10)
    both = compound(boats, abbott([2, 3, 9], [20] * 3, [1, 0, 1], [20] * 3))
    assert both.low < boats.rate < both.rate < both.high


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: abbott(3, 20, 9, 9), "every reference fish died"),
        (lambda: abbott(0, 0, 1, 9), "at least one"),
        (lambda: abbott([1, 2], 20, 1, 9), "both by pen"),
        (lambda: abbott(21, 20, 1, 9), "check both counts"),
        (lambda: total(6.5, 0.2), "divide per cent by 100"),
        (lambda: total(0.065, 23.3), "divide per cent by 100"),
        (lambda: total(float("nan"), 0.2), "divide per cent by 100"),
        (lambda: compound(uncorrected(1, 9, 0.9), uncorrected(1, 9)), "at one level"),
    ],
)
def test_what_cannot_be_is_refused_with_what_to_do(call, says):
    with pytest.raises(ValueError, match=says):
        call()


def test_stated_cover_of_the_total(capsys):
    """Independent fish: 240 at the scales, 50 held, 53 reference fish; the limits against the plain SE's."""
    random, runs, lines = np.random.default_rng(7), 2000, []
    for initial, delayed, holding in [(0.02, 0.05, 0.02), (0.05, 0.2, 0.1), (0.1, 0.5, 0.1)]:
        truth = total(initial, delayed)
        ours = plain = 0
        for _ in range(runs):
            both = compound(
                uncorrected(int(random.binomial(240, initial)), 240),
                abbott(
                    int(random.binomial(50, total(holding, delayed))),
                    50,
                    int(random.binomial(53, holding)),
                    53,
                ),
            )
            ours += both.low <= truth <= both.high
            plain += abs(both.rate - truth) <= 1.96 * both.standard_error
        lines.append((truth, ours / runs, plain / runs))
    with capsys.disabled():
        print("\ntotal   recovered limits   rate +- 1.96 SE")
        for truth, ours, plain in lines:
            print(f"{truth:5.1%} {ours:18.3f} {plain:17.3f}")
    assert all(0.935 <= cover <= 0.985 for _, cover, _ in lines)
