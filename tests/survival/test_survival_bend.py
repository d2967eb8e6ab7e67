"""The bent curve: its test against statsmodels, when it is taken, when it is not even tried, and what it may not tell."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats

from weighin.survival.bend import bend_test, fit_curve, hinged
from weighin.survival.logistic import NoCurve, fit_logistic

WARM = [54.0, 61.0, 62.5, 71.0, 77.0, 80.0, 83.0, 86.0]
FISH = [170, 186, 282, 165, 174, 168, 166, 152]
BENDS = [2, 3, 7, 4, 7, 8, 14, 29]
STRAIGHT = [1, 3, 5, 6, 10, 13, 17, 20]


def theirs(columns, dead, n):
    return sm.GLM(
        np.column_stack([dead, np.subtract(n, dead)]), sm.add_constant(columns), family=sm.families.Binomial()
    ).fit(tol=1e-13)


@pytest.mark.parametrize("dead", [BENDS, STRAIGHT, [4, 1, 9, 2, 30, 2, 41, 12]])
def test_the_f_test_is_that_of_statsmodels_deviances(dead):
    """The last one scatters beyond its fish, so that the dispersion is Pearson's and not 1."""
    columns = np.array([hinged(t, 75.0) for t in WARM])
    straight, bent = theirs(WARM, dead, FISH), theirs(columns, dead, FISH)
    dispersion = max(1.0, bent.pearson_chi2 / bent.df_resid)
    f = (straight.deviance - bent.deviance) / dispersion
    ours = bend_test(fit_logistic(WARM, dead, FISH), fit_logistic(columns, dead, FISH), 8)
    assert (ours.f, ours.dispersion) == pytest.approx((f, dispersion), rel=1e-6)
    assert (ours.p, ours.df) == (pytest.approx(stats.f.sf(f, 1, bent.df_resid), rel=1e-6), bent.df_resid)


def test_a_curve_that_bends_is_taken_where_the_rates_ask_for_it():
    curve = fit_curve(WARM, BENDS, FISH, range(8), 75.0)
    bent = theirs(np.array([hinged(t, 75.0) for t in WARM]), BENDS, FISH)
    assert curve.bend_at == 75.0 and curve.test.p < 0.05
    assert [curve.predict(t) for t in WARM] == pytest.approx(bent.fittedvalues.tolist(), rel=1e-6)
    assert curve.odds_ratio()[0] == pytest.approx(np.exp(bent.params[2]))
    assert curve.odds_ratio_before()[0] == pytest.approx(np.exp(bent.params[1]))
    assert curve.predict(curve.x_at(0.1)) == pytest.approx(0.1)
    band = curve.band(86.0)
    assert band.low < curve.predict(86.0) < band.high


def test_a_straight_one_stays_straight():
    curve = fit_curve(WARM, STRAIGHT, FISH, range(8), 75.0)
    straight = fit_logistic(WARM, STRAIGHT, FISH, range(8))
    assert (curve.bend_at, curve.odds_ratio_before()) == (None, None) and curve.test.p > 0.05
    assert [curve.predict(t) for t in WARM] == straight.predict(WARM)
    assert curve.x_at(0.1) == pytest.approx(straight.x_at(0.1))


def test_no_bend_is_tried_with_two_events_on_one_side():
    curve = fit_curve(WARM, BENDS, FISH, range(8), 81.0)
    assert (curve.bend_at, curve.test) == (None, None)
    assert curve.why_untried == "fewer than 3 groups lie on one side of it"


@pytest.mark.parametrize("x", [53.9, 86.1])
def test_nothing_is_read_outside_what_was_seen(x):
    with pytest.raises(NoCurve, match="outside"):
        fit_curve(WARM, BENDS, FISH, range(8), 75.0).predict(x)


def test_a_rate_that_is_not_reached_is_refused():
    with pytest.raises(NoCurve, match="does not rise through 0.9"):
        fit_curve(WARM, BENDS, FISH, range(8), 75.0).x_at(0.9)


def test_false_bends_are_as_rare_as_promised():
    """Straight truth, livewells of six alike (correlation 0.2), days scattering too: at most 5.7 % by the docstring."""
    random, found, seasons = np.random.default_rng(20), 0, 400
    for _ in range(seasons):
        odds = -10.05 + 0.0948 * np.array(WARM) + random.normal(0, 0.3, 8)
        rates = 1 / (1 + np.exp(-odds))
        wells = random.beta(4 * rates[:, None], 4 * (1 - rates[:, None]), (8, 27))
        dead = random.binomial(6, wells).sum(axis=1)
        found += fit_curve(WARM, dead.tolist(), [162] * 8, range(8), 75.0).bend_at is not None
    assert found / seasons < 0.085  # 5.7 % and two and a half standard errors
