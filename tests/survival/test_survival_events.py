"""Small events, funnels, unrecorded fish and sample sizes: what must hold, and simulated cover."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.stats import beta, binom

from weighin.survival.funnel import funnel
from weighin.survival.intervals import exact, wilson
from weighin.survival.missing import bounds
from weighin.survival.shrinkage import Scatter, scatter, shrink
from weighin.survival.sizes.sample_size import fish_for_upper_limit, fish_for_width

EVENTS = st.lists(
    st.integers(1, 120).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), min_size=2, max_size=12
)

# Shrinkage


@given(st.floats(0.005, 0.9), st.floats(0.01, 0.9))
def test_moments_come_back(mean, share):
    sd = share * np.sqrt(mean * (1 - mean))
    ours = Scatter.from_moments(mean, sd)
    assert (ours.mean, ours.sd) == pytest.approx((mean, sd))
    theirs = beta(ours.alpha, ours.beta)
    assert (theirs.mean(), theirs.std()) == pytest.approx((mean, sd))


@given(EVENTS)
def test_no_event_ends_beyond_the_rates_seen(events):
    dead, n = [d for d, _ in events], [n for _, n in events]
    rates = [d / k for d, k in events]
    for drawn in shrink(dead, n):
        if 0 < sum(dead) < sum(n):
            assert min(rates) - 1e-9 <= drawn.rate <= max(rates) + 1e-9
        assert 0.0 <= drawn.low < drawn.high <= 1.0
        assert drawn.sd > 0.0


def test_a_small_event_is_drawn_further_than_a_large_one():
    small, large = shrink([1, 100, 2, 9, 1], [4, 400, 100, 100, 100])[:2]
    assert small.rate < 0.21 < large.rate
    assert small.high - small.low > 3 * (large.high - large.low)


def test_events_no_more_unlike_than_chance_show_no_scatter_and_end_alike():
    assert scatter([2, 3, 2, 3, 2], [50] * 5) is None
    drawn = [event.rate for event in shrink([2, 3, 2, 3, 2], [50] * 5)]
    assert max(drawn) - min(drawn) < 0.3 * (3 - 2) / 50
    assert scatter([0, 0], [9, 9]) is None


def test_no_dead_fish_anywhere_is_not_no_mortality():
    assert all(event.rate > 0.0 and event.high > 0.005 for event in shrink([0, 0, 0], [100, 80, 120]))


def test_an_event_without_fish_gets_what_is_expected_of_one_more():
    unseen, seen = shrink([0, 1, 9, 4], [0, 40, 40, 40])[:2]
    assert seen.rate < unseen.rate
    assert unseen.high > 0.2


@settings(max_examples=20)
@given(st.integers(0, 2**31))
def test_a_known_scatter_is_found(seed):
    random = np.random.default_rng(seed)
    n = random.integers(40, 300, 400)
    season = scatter(random.binomial(n, random.beta(2, 30, 400)).tolist(), n.tolist())
    assert season is not None
    assert season.mean == pytest.approx(2 / 32, abs=0.015)
    assert 18 < season.strength < 60


def test_drawn_rates_are_nearer_the_truth_and_their_limits_hold_it(capsys):
    random, lines = np.random.default_rng(8), []
    for events, strength in [(6, 32), (12, 32), (12, 128), (24, 32)]:
        raw, drawn, held = [], [], []
        for _ in range(250):
            n = random.integers(10, 200, events)
            truth = random.beta(strength / 16, strength * 15 / 16, events)
            dead = random.binomial(n, truth)
            found = shrink(dead.tolist(), n.tolist())
            raw.append(np.mean((dead / n - truth) ** 2))
            drawn.append(np.mean([(e.rate - t) ** 2 for e, t in zip(found, truth, strict=True)]))
            held.append(np.mean([e.low <= t <= e.high for e, t in zip(found, truth, strict=True)]))
        lines.append((events, strength, np.mean(drawn) / np.mean(raw), np.mean(held)))
    with capsys.disabled():
        print("\nevents  strength  squared error against the raw rates'  cover of the limits")
        for line in lines:
            print("{:6d} {:9d} {:36.2f} {:20.3f}".format(*line))
    assert all(error < 0.8 for _, _, error, _ in lines)
    assert all(0.89 <= cover <= 0.97 for *_, cover in lines)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: scatter([1], [9]), "one event shows no scatter"),
        (lambda: scatter([1, 0], [9, 0]), "one event shows no scatter"),
        (lambda: scatter([1, 2], [9]), "one of each"),
        (lambda: shrink([1], [9]), "one event shows no scatter"),
        (lambda: shrink([1, 2], [9, 9], 95), "0.95 for 95 %"),
        (lambda: Scatter.from_moments(0.1, 0.4), "give both as shares"),
        (lambda: Scatter.from_moments(0.1, 0.0), "give both as shares"),
        (lambda: Scatter(1, 9).update(3, 2), "check both counts"),
    ],
)
def test_what_shows_no_scatter_is_refused(call, says):
    with pytest.raises(ValueError, match=says):
        call()


# Funnel


@given(
    st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
    st.floats(0.005, 0.6),
    st.sampled_from([0.8, 0.95, 0.998]),
)
def test_an_event_lies_outside_exactly_when_its_interval_leaves_out_the_mean(event, rate, level):
    dead, n = event
    (limits,), own = funnel(rate, [n], level), wilson(dead, n, level)
    assume(min(abs(rate - own.low), abs(rate - own.high)) > 1e-9)
    assert (limits.low <= dead / n <= limits.high) == (own.low <= rate <= own.high)


@given(st.floats(0.01, 0.5), st.integers(5, 600), st.floats(1.0, 5.0))
def test_the_funnel_narrows_with_size_and_widens_with_the_level_and_the_livewells(rate, n, effect):
    usual, sure, wells, large = (
        funnel(rate, [size], level, design_effect=deff)[0]
        for size, level, deff in [(n, 0.95, 1.0), (n, 0.998, 1.0), (n, 0.95, effect), (4 * n, 0.95, 1.0)]
    )
    assert sure.low <= usual.low <= large.low <= rate <= large.high <= usual.high <= sure.high
    assert wells.low <= usual.low
    assert wells.high >= usual.high


@pytest.mark.parametrize("n", [60, 120, 300, 900])
def test_about_five_per_cent_of_events_lie_outside_by_chance(n):
    """Whole fish make it 3 to 7 % for the sizes that events have."""
    (limits,) = funnel(0.05, [n])
    dead = np.arange(n + 1)
    outside = (dead / n < limits.low) | (dead / n > limits.high)
    assert 0.025 <= binom.pmf(dead, n, 0.05)[outside].sum() <= 0.07


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: funnel(0.0, [40]), "draw none"),
        (lambda: funnel(4.0, [40]), "between 0 and 1"),
        (lambda: funnel(0.04, [0]), "at least one fish"),
        (lambda: funnel(0.04, [40], design_effect=0.5), "1 or more"),
        (lambda: funnel(0.04, [40], level=95), "0.95 for 95 %"),
    ],
)
def test_a_funnel_that_cannot_be_drawn_is_refused(call, says):
    with pytest.raises(ValueError, match=says):
        call()


# Unrecorded fish


@given(st.integers(0, 90), st.integers(1, 90), st.integers(0, 90))
def test_whatever_became_of_the_unrecorded_the_rate_is_within(dead, alive, unrecorded):
    limits = bounds(dead, dead + alive, unrecorded)
    for gone in range(0, unrecorded + 1, 7):
        assert limits.low <= (dead + gone) / (dead + alive + unrecorded) <= limits.high
    assert (limits.low == limits.high) == (unrecorded == 0)


def test_fewer_than_no_fish_is_refused():
    with pytest.raises(ValueError, match="0 or more"):
        bounds(1, 9, -1)


# Sample size


@given(st.sampled_from([0.0, 0.01, 0.05, 0.3]), st.sampled_from([0.03, 0.05, 0.1, 0.3]))
def test_that_many_fish_are_enough_and_one_fewer_is_not(rate, width):
    n = fish_for_width(rate, width)

    def found(fish):
        limits = wilson(rate * fish, fish)
        return limits.high - limits.low

    assert found(n) <= width
    assert n == 1 or found(n - 1) > width


@given(st.floats(0.002, 0.5))
def test_none_dead_of_that_many_stays_under_the_limit(upper):
    n = fish_for_upper_limit(upper)
    assert exact(0, n, 0.90).high <= upper + 1e-12
    assert n == 1 or exact(0, n - 1, 0.90).high > upper - 1e-12


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: fish_for_width(5, 0.04), "as shares"),
        (lambda: fish_for_width(0.05, 0.0), "as shares"),
        (lambda: fish_for_width(0.05, 0.04, design_effect=0.3), "1 or more"),
        (lambda: fish_for_width(0.5, 1e-5), "allow a wider interval"),
        (lambda: fish_for_upper_limit(3), "give 0.03 for 3 %"),
    ],
)
def test_a_wish_that_cannot_be_met_is_refused(call, says):
    with pytest.raises(ValueError, match=says):
        call()
