"""The curve: against statsmodels, what it refuses, and the cover of its slope's limits by simulation."""

import warnings

import numpy as np
import pytest
import statsmodels.api as sm

from weighin.survival.logistic import NoCurve, fit_logistic
from weighin.survival.quantiles import student


def season(random, events=12, teams=15, slope=0.15, scatter=0.4):
    """Teams within events: temperature (C), dead, fish, event, and whether the boat carried ice."""
    temperature = random.uniform(18, 30, events)
    shock = scatter * random.standard_normal(events)
    event = np.repeat(np.arange(events), teams)
    ice = random.integers(0, 2, len(event))
    fish = random.integers(1, 8, len(event))
    odds = -3.0 + slope * (temperature[event] - 24) - 0.4 * ice + shock[event]
    return temperature[event], random.binomial(fish, 1 / (1 + np.exp(-odds))), fish, event, ice


@pytest.fixture(scope="module")
def data():
    return season(np.random.default_rng(11))


def test_one_column_is_statsmodels_glm(data):
    temperature, dead, fish, *_ = data
    ours = fit_logistic(temperature, dead, fish)
    theirs = sm.GLM(
        np.column_stack([dead, fish - dead]), sm.add_constant(temperature), family=sm.families.Binomial()
    ).fit(tol=1e-13)
    assert ours.coefficients == pytest.approx(theirs.params, rel=1e-7)
    assert ours.standard_errors == pytest.approx(theirs.bse, rel=1e-6)
    assert np.array(ours.covariance) == pytest.approx(theirs.cov_params(), rel=1e-5)
    assert ours.deviance == pytest.approx(theirs.deviance, rel=1e-8)
    at = theirs.get_prediction(np.array([[1.0, 25.0]])).summary_frame(alpha=0.05)
    assert ours.predict(25.0) == pytest.approx(at["mean"][0], rel=1e-7)
    band = ours.band(25.0)
    assert (band.low, band.high) == pytest.approx((at["mean_ci_lower"][0], at["mean_ci_upper"][0]), rel=1e-6)


@pytest.mark.parametrize(("correction", "theirs"), [("none", "robust"), ("mancl-derouen", "bias_reduced")])
def test_groups_are_statsmodels_gee_with_working_independence(data, correction, theirs):
    temperature, dead, fish, event, ice = data
    ours = fit_logistic(np.column_stack([temperature, ice]), dead, fish, event, correction=correction)
    # GEE takes one fish a row.
    rows = np.repeat(np.arange(len(fish)), fish)
    died = np.concatenate([np.r_[np.ones(d), np.zeros(n - d)] for d, n in zip(dead, fish, strict=True)])
    design = sm.add_constant(np.column_stack([temperature, ice])[rows])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        gee = sm.GEE(died, design, groups=event[rows], family=sm.families.Binomial()).fit(cov_type=theirs)
    assert ours.coefficients == pytest.approx(gee.params, rel=1e-6)
    assert ours.standard_errors == pytest.approx(gee.bse, rel=1e-5)
    assert (ours.groups, ours.df) == (12, 9)


def test_groups_say_less_than_their_fish(data):
    temperature, dead, fish, event, _ = data
    grouped, alone = fit_logistic(temperature, dead, fish, event), fit_logistic(temperature, dead, fish)
    assert grouped.coefficients == alone.coefficients
    assert grouped.standard_errors[1] > alone.standard_errors[1]
    assert grouped.quantile() == student(10)
    narrow, wide = alone.band(29.0), grouped.band(29.0)
    assert wide.low < narrow.low < grouped.predict(29.0) < narrow.high < wide.high


def test_adding_teams_of_an_event_into_one_row_changes_nothing(data):
    temperature, dead, fish, event, _ = data
    by_team = fit_logistic(temperature, dead, fish, event)
    sums = [[counts[event == e].sum() for e in range(12)] for counts in (dead, fish)]
    by_event = fit_logistic([temperature[event == e][0] for e in range(12)], *sums, groups=range(12))
    assert by_event.coefficients == pytest.approx(by_team.coefficients, rel=1e-9)
    assert by_event.standard_errors == pytest.approx(by_team.standard_errors, rel=1e-9)


def test_the_unit_of_x_does_not_matter(data):
    temperature, dead, fish, event, _ = data
    celsius, fahrenheit = (fit_logistic(t, dead, fish, event) for t in (temperature, temperature * 1.8 + 32))
    assert fahrenheit.coefficients[1] == pytest.approx(celsius.coefficients[1] / 1.8)
    assert fahrenheit.predict(77.0) == pytest.approx(celsius.predict(25.0))
    assert fahrenheit.band(77.0).high == pytest.approx(celsius.band(25.0).high)


def test_years_are_fitted_as_well_as_small_numbers():
    dead, fish = [9, 14, 6, 11, 5, 7, 4, 3, 6, 2], [200] * 10
    years = fit_logistic(range(2016, 2026), dead, fish, range(10))
    small = fit_logistic(range(10), dead, fish, range(10))
    assert years.coefficients[1] == pytest.approx(small.coefficients[1], rel=1e-10)
    assert years.band(2025).high == pytest.approx(small.band(9).high, rel=1e-10)


def test_a_rate_is_reached_where_the_curve_has_it(data):
    temperature, dead, fish, event, _ = data
    fit = fit_logistic(temperature, dead, fish, event)
    middle = sum(fit.predict([temperature.min(), temperature.max()])) / 2
    assert fit.predict(fit.x_at(middle)) == pytest.approx(middle)
    assert fit.predict([20.0, 25.0]) == [fit.predict(20.0), fit.predict(25.0)]
    assert fit.band([20.0, 25.0]) == [fit.band(20.0), fit.band(25.0)]


def test_an_odds_ratio_is_per_unit(data):
    temperature, dead, fish, event, ice = data
    fit = fit_logistic(np.column_stack([temperature, ice]), dead, fish, event)
    ratio, limits = fit.odds_ratio(2)
    assert limits.low < ratio < limits.high
    odds = [p / (1 - p) for p in fit.predict([[25.0, 0.0], [25.0, 1.0]])]
    assert odds[1] / odds[0] == pytest.approx(ratio)


def test_nothing_is_said_beyond_what_was_seen(data):
    temperature, dead, fish, event, _ = data
    fit = fit_logistic(temperature, dead, fish, event)
    assert (fit.seen[0].low, fit.seen[0].high) == (temperature.min(), temperature.max())
    assert fit.predict(temperature.max()) > fit.predict(temperature.min())
    for beyond in (temperature.min() - 0.1, temperature.max() + 0.1, float("nan")):
        with pytest.raises(NoCurve, match="that was seen"):
            fit.predict(beyond)
        with pytest.raises(NoCurve, match="that was seen"):
            fit.band([25.0, beyond])
    with pytest.raises(NoCurve, match="does not reach 0.9"):
        fit.x_at(0.9)


def test_what_was_seen_is_where_fish_were_looked_at():
    fit = fit_logistic([10, 20, 21, 22, 23, 40], [0, 1, 2, 3, 4, 0], [0, 30, 30, 30, 30, 0])
    assert (fit.seen[0].low, fit.seen[0].high) == (20, 23)


def test_seven_events_give_coefficients_but_no_curve():
    random = np.random.default_rng(5)
    seven, eight = (season(random, events=events) for events in (7, 8))
    fit = fit_logistic(*seven[:4])
    assert not fit.is_curve
    assert len(fit.coefficients) == 2
    for ask in (lambda: fit.predict(24.0), lambda: fit.band(24.0), lambda: fit.x_at(0.05)):
        with pytest.raises(NoCurve, match="7 groups are too few for a curve"):
            ask()
    assert fit_logistic(*eight[:4]).is_curve


@pytest.mark.parametrize(
    ("x", "dead", "n", "groups", "says"),
    [
        ([1, 2, 3], [0, 0, 0], [9, 9, 9], None, "no or all fish died"),
        ([1, 2, 3], [9, 9, 9], [9, 9, 9], None, "no or all fish died"),
        ([2, 2, 2], [1, 2, 3], [9, 9, 9], None, "x is the same in every row"),
        ([1, 2, 3, 4], [0, 0, 9, 9], [9, 9, 9, 9], None, "parts the dead from the living"),
        ([[1, 2], [2, 4], [3, 6], [5, 10]], [1, 2, 3, 3], [9] * 4, None, "say the same thing twice"),
        ([1, 2, 3], [1, 2, 3], [9, 9, 9], ["a", "b", "b"], "cannot carry 2 coefficients"),
        ([1, 2], [1, 2, 3], [9, 9, 9], None, "check their lengths"),
        ([1, 2, 3], [1, 2, 3], [9, 9, 9], ["a"], "check their lengths"),
        ([1, 2, float("nan")], [1, 2, 3], [9, 9, 9], None, "leave out the rows"),
        ([1, 2, 3], [1, 2, 10], [9, 9, 9], None, "check both counts"),
    ],
)
def test_what_cannot_be_fitted_is_refused_with_what_to_do(x, dead, n, groups, says):
    with pytest.raises(ValueError, match=says):
        fit_logistic(x, dead, n, groups)


def test_odd_questions_are_refused(data):
    temperature, dead, fish, event, ice = data
    both = fit_logistic(np.column_stack([temperature, ice]), dead, fish, event)
    one = fit_logistic(temperature, dead, fish, event)
    for ask, says in [
        (lambda: both.x_at(0.05), "fit the one of interest alone"),
        (lambda: both.predict(25.0), "has 2 numbers, not 1"),
        (lambda: one.x_at(5), "give 0.05 for 5 %"),
        (lambda: fit_logistic(temperature, dead, fish, event, correction="magic"), "mancl-derouen"),
    ]:
        with pytest.raises(ValueError, match=says):
            ask()


def test_stated_cover_of_the_slope_when_temperature_is_the_events_own(capsys):
    """Events' own odds scatter about the curve; the corrected limits hold the slope, the others do not."""
    random, runs, lines = np.random.default_rng(2), 300, []
    for events in (8, 20):
        for scatter in (0.0, 0.4, 0.8):
            hits = np.zeros(3)
            done = 0
            while done < runs:
                x = random.uniform(-1, 1, events)
                fish = random.integers(60, 400, events)
                odds = -3.2 + x + scatter * random.standard_normal(events)
                dead = random.binomial(fish, 1 / (1 + np.exp(-odds)))
                corrected = fit_logistic(x, dead, fish, range(events))
                plain = fit_logistic(x, dead, fish, range(events), correction="none")
                by_fish = fit_logistic(x, dead, fish)
                for k, fit in enumerate((corrected, plain, by_fish)):
                    hits[k] += abs(fit.coefficients[1] - 1.0) <= fit.quantile() * fit.standard_errors[1]
                done += 1
            lines.append((events, scatter, *(hits / runs)))
    with capsys.disabled():
        print("\nevents  scatter  corrected  plain sandwich  fish independent")
        for line in lines:
            print("{:6d} {:8.1f} {:10.3f} {:15.3f} {:17.3f}".format(*line))
    assert all(0.915 <= corrected <= 0.985 for _, _, corrected, _, _ in lines)
    assert min(by_fish for *_, by_fish in lines) < 0.6
