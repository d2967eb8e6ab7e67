"""Comparisons: against statsmodels, and what must hold for any strata."""

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from statsmodels.stats.contingency_tables import StratifiedTable
from statsmodels.stats.proportion import confint_proportions_2indep

from weighin.survival.clusters import clustered
from weighin.survival.comparing.change import change
from weighin.survival.comparing.comparison import Group, Stratum, crude, homogeneity, mantel_haenszel
from weighin.survival.comparing.standardisation import standardise
from weighin.survival.estimates import Estimate

GROUP = st.integers(1, 80).flatmap(lambda n: st.builds(Group, st.integers(0, n), st.just(n)))
FULL = st.integers(2, 80).flatmap(lambda n: st.builds(Group, st.integers(1, n - 1), st.just(n)))
STRATA = st.lists(st.builds(Stratum, st.just("a day"), FULL, FULL), min_size=2, max_size=6)


def stratified(strata):
    return StratifiedTable(
        [
            np.array([[s.practice.dead, s.practice.alive], [s.without.dead, s.without.alive]], dtype=float)
            for s in strata
        ]
    )


@given(STRATA, st.sampled_from([0.9, 0.95]))
def test_mantel_haenszel_is_statsmodels(strata, level):
    ours, theirs = mantel_haenszel(strata, level), stratified(strata)
    assert ours.value == pytest.approx(theirs.oddsratio_pooled, rel=1e-9)
    limits = theirs.oddsratio_pooled_confint(alpha=1 - level)
    assert (ours.low, ours.high) == pytest.approx(limits, rel=1e-6)


@given(STRATA)
@example([Stratum("a day", Group(3, 38), Group(1, 41))] * 3)
def test_homogeneity_is_statsmodels_breslow_day_tarone(strata):
    assume(abs(mantel_haenszel(strata).value - 1) > 1e-6)  # theirs divides nought by nought there
    theirs = stratified(strata).test_equal_odds(adjust=True)
    assert homogeneity(strata) == pytest.approx(theirs.pvalue, abs=1e-6)


@given(st.builds(Stratum, st.just("all"), FULL, FULL))
def test_one_stratum_is_woolf(stratum):
    ours = crude([stratum])
    cells = stratum.practice.dead, stratum.practice.alive, stratum.without.dead, stratum.without.alive
    half = 1.959963984540054 * np.sqrt(sum(1 / cell for cell in cells))
    assert ours.value == pytest.approx(stratum.odds_ratio)
    assert ours.low == pytest.approx(ours.value * np.exp(-half))
    assert ours.high == pytest.approx(ours.value * np.exp(half))


@given(STRATA)
def test_swapping_practice_and_without_turns_the_ratio_over(strata):
    ours = mantel_haenszel(strata)
    turned = mantel_haenszel([Stratum(s.name, s.without, s.practice) for s in strata])
    assert (turned.value, turned.low, turned.high) == pytest.approx(
        (1 / ours.value, 1 / ours.high, 1 / ours.low), rel=1e-9
    )


def test_livewells_widen_the_comparison():
    iced, plain = clustered([0] * 9 + [6], [7] * 10), clustered([0] * 6 + [7, 5, 0, 1], [7] * 10)
    fish = mantel_haenszel([Stratum("hot", Group(iced.dead, iced.n), Group(plain.dead, plain.n))])
    wells = mantel_haenszel([Stratum("hot", Group.effective(iced), Group.effective(plain))])
    assert wells.value == pytest.approx(fish.value)
    assert wells.low < fish.low < fish.high < wells.high


def test_a_zero_leaves_a_stratums_ratio_open_but_not_the_pooled_one():
    days = [Stratum("cool", Group(0, 30), Group(0, 40)), Stratum("hot", Group(3, 30), Group(5, 20))]
    assert days[0].odds_ratio is None
    assert mantel_haenszel(days).value == pytest.approx(days[1].odds_ratio)
    assert Stratum("cool", Group(0, 30), Group(2, 40)).odds_ratio == 0.0


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: mantel_haenszel([]), "no odds ratio"),
        (lambda: mantel_haenszel([Stratum("x", Group(0, 9), Group(0, 9))]), "no odds ratio"),
        (lambda: Group(3, 2), "check both counts"),
        (
            lambda: homogeneity([Stratum("x", Group(1, 9), Group(2, 9)), Stratum("y", Group(0, 9), Group(0, 9))]),
            "fewer than two strata",
        ),
    ],
)
def test_what_cannot_be_compared_is_refused_with_what_to_do(call, says):
    with pytest.raises(ValueError, match=says):
        call()


# Change from season to season


@given(GROUP, GROUP)
def test_change_of_independent_fish_is_newcombes_interval(before, after):
    ours = change(*(clustered([group.dead], [group.n], correlation=0.0) for group in (before, after)))
    theirs = confint_proportions_2indep(after.dead, after.n, before.dead, before.n, method="newcomb", compare="diff")
    assert (ours.low, ours.high) == pytest.approx(theirs, abs=1e-9)
    assert ours.low <= ours.difference + 1e-12
    assert ours.difference <= ours.high + 1e-12


def test_a_change_is_shown_only_where_the_limits_leave_out_none():
    few, many = clustered([2, 3], [40, 40], correlation=0.05), clustered([9, 12, 11, 10], [50] * 4, correlation=0.05)
    less = clustered([1, 2, 0, 1], [50] * 4, correlation=0.05)
    assert change(many, less).is_shown
    assert change(many, less).high < 0
    assert not change(few, many).is_shown
    assert change(less, many).difference == -change(many, less).difference


def test_a_change_needs_one_level():
    with pytest.raises(ValueError, match="at one level"):
        change(clustered([1], [9], 0.9), clustered([1], [9]))


# Standardisation

RATES = st.lists(st.lists(GROUP, min_size=2, max_size=5), min_size=1, max_size=4)


@given(RATES)
def test_the_own_mix_gives_the_own_rate(strata):
    rates = {k: clustered([g.dead for g in gs], [g.n for g in gs]) for k, gs in enumerate(strata)}
    ours = standardise(rates, {k: rate.n for k, rate in rates.items()})
    assert ours.rate == pytest.approx(sum(r.dead for r in rates.values()) / sum(r.n for r in rates.values()))
    assert 0.0 <= ours.low <= ours.rate + 1e-12
    assert ours.rate <= ours.high + 1e-12


@given(RATES)
def test_a_mix_of_one_stratum_is_that_stratum(strata):
    rates = {k: clustered([g.dead for g in gs], [g.n for g in gs]) for k, gs in enumerate(strata)}
    ours, first = standardise(rates, {0: 3.0}), rates[0]
    assert (ours.rate, ours.standard_error) == pytest.approx((first.rate, first.standard_error))
    assert (ours.low, ours.high) == pytest.approx((first.low, first.high))


def test_a_cool_season_is_not_good_care():
    """Both seasons have the same rate in cool and in hot water; only the weather differed."""
    mix = {"cool": 500, "hot": 500}
    cool_season = {"cool": clustered([9, 9], [450, 450]), "hot": clustered([4, 6], [50, 50])}
    hot_season = {"cool": clustered([1, 1], [50, 50]), "hot": clustered([45, 45], [450, 450])}
    assert standardise(cool_season, mix).rate == pytest.approx(standardise(hot_season, mix).rate)


def test_a_stratum_without_dead_fish_still_adds_its_doubt():
    known = standardise({"cool": clustered([3], [200]), "hot": Estimate(0.0, 0.0, 0.0, 0.0)}, {"cool": 1, "hot": 1})
    unknown = standardise({"cool": clustered([3], [200]), "hot": clustered([0], [12])}, {"cool": 1, "hot": 1})
    assert unknown.rate == known.rate
    assert unknown.high > known.high + 0.05


@pytest.mark.parametrize(
    ("mix", "says"),
    [
        ({}, "check the reference"),
        ({"cool": 0}, "check the reference"),
        ({"cool": 2, "hot": -1}, "check the reference"),
        ({"cool": 1, "hot": 1}, "no fish were looked at in hot"),
    ],
)
def test_a_mix_that_cannot_be_met_is_refused(mix, says):
    with pytest.raises(ValueError, match=says):
        standardise({"cool": clustered([1], [30])}, mix)
