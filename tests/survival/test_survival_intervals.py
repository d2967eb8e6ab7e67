"""Intervals for one rate: against scipy and statsmodels, and what must hold for any counts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest
from statsmodels.stats.proportion import proportion_confint

from weighin.survival.intervals import Interval, exact, jeffreys, wilson

INTERVALS = [wilson, exact, jeffreys]
COUNTS = st.integers(1, 500).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
LEVELS = st.sampled_from([0.8, 0.9, 0.95, 0.99])


@given(COUNTS, LEVELS)
def test_wilson_is_scipys_and_statsmodels(counts, level):
    dead, n = counts
    ours = wilson(dead, n, level)
    scipys = binomtest(dead, n).proportion_ci(level, method="wilson")
    assert (ours.low, ours.high) == pytest.approx((scipys.low, scipys.high), abs=1e-12)
    assert (ours.low, ours.high) == pytest.approx(proportion_confint(dead, n, 1 - level, method="wilson"), abs=1e-12)


@given(COUNTS, LEVELS)
def test_exact_is_scipys_and_statsmodels(counts, level):
    dead, n = counts
    ours = exact(dead, n, level)
    scipys = binomtest(dead, n).proportion_ci(level, method="exact")
    assert (ours.low, ours.high) == pytest.approx((scipys.low, scipys.high), abs=1e-9)
    assert (ours.low, ours.high) == pytest.approx(proportion_confint(dead, n, 1 - level, method="beta"), abs=1e-9)


@given(COUNTS, LEVELS)
def test_jeffreys_is_statsmodels_between_the_ends(counts, level):
    dead, n = counts
    ours, (low, high) = jeffreys(dead, n, level), proportion_confint(dead, n, 1 - level, method="jeffreys")
    assert ours.low == (0.0 if dead == 0 else pytest.approx(low, abs=1e-9))
    assert ours.high == (1.0 if dead == n else pytest.approx(high, abs=1e-9))


@pytest.mark.parametrize("interval", INTERVALS)
@given(counts=COUNTS, level=LEVELS)
def test_the_rate_lies_within_and_the_mirror_image_mirrors(interval, counts, level):
    dead, n = counts
    dead_limits, alive_limits = interval(dead, n, level), interval(n - dead, n, level)
    assert 0.0 <= dead_limits.low <= dead / n <= dead_limits.high <= 1.0
    assert dead_limits.low == pytest.approx(1.0 - alive_limits.high, abs=1e-9)
    assert dead_limits.high == pytest.approx(1.0 - alive_limits.low, abs=1e-9)


@pytest.mark.parametrize("interval", INTERVALS)
@given(counts=COUNTS)
def test_a_higher_level_is_a_wider_interval_and_more_fish_a_narrower(interval, counts):
    dead, n = counts
    usual, sure, tenfold = interval(dead, n), interval(dead, n, 0.99), interval(10 * dead, 10 * n)
    assert sure.low <= usual.low <= tenfold.low + 1e-12
    assert sure.high >= usual.high >= tenfold.high - 1e-12


@pytest.mark.parametrize("interval", INTERVALS)
def test_no_dead_fish_is_not_no_mortality(interval):
    limits = interval(0, 12)
    assert limits.low == 0.0
    assert limits.high > 0.1


def test_a_count_divided_by_a_design_effect_is_a_count():
    whole, halved = wilson(6, 60), wilson(3.0, 30.0)
    assert halved.high - halved.low > whole.high - whole.low


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize(
    ("dead", "n", "level", "says"),
    [
        (0, 0, 0.95, "at least one fish"),
        (1, -3, 0.95, "at least one fish"),
        (4, 3, 0.95, "check both counts"),
        (-1, 3, 0.95, "check both counts"),
        (float("nan"), 3, 0.95, "finite"),
        (1, float("inf"), 0.95, "finite"),
        (1, 3, 95, "0.95 for 95 %"),
        (1, 3, 0.0, "0.95 for 95 %"),
    ],
)
def test_what_cannot_be_is_refused_with_what_to_do(interval, dead, n, level, says):
    with pytest.raises(ValueError, match=says):
        interval(dead, n, level)


def test_an_interval_cannot_be_changed():
    with pytest.raises(AttributeError):
        Interval(0.1, 0.2).low = 0.0
