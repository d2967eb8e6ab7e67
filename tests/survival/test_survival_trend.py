"""The test for trend: against statsmodels, and what must hold for any classes."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from statsmodels.stats.contingency_tables import Table

from weighin.survival.trend import cochran_armitage, fit_logistic

CLASSES = st.lists(
    st.integers(1, 60).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), min_size=2, max_size=6
).filter(lambda rows: 0 < sum(d for d, _ in rows) < sum(n for _, n in rows))


def of(rows, scores=None):
    return cochran_armitage(scores or range(len(rows)), [d for d, _ in rows], [n for _, n in rows])


@given(CLASSES)
def test_it_is_statsmodels_linear_by_linear_test(rows):
    ours = of(rows)
    table = np.array([[n - d, d] for d, n in rows])
    total = table.sum()
    theirs = Table(table, shift_zeros=False).test_ordinal_association(np.arange(len(rows)), np.array([0, 1]))
    # Their variance divides by N - 1 in place of N.
    assert ours.z == pytest.approx(theirs.zscore * np.sqrt(total / (total - 1)), abs=1e-9)


@given(CLASSES)
def test_turning_the_order_turns_the_sign_and_a_class_without_fish_adds_nothing(rows):
    ours, turned, padded = of(rows), of(rows[::-1]), of([*rows, (0, 0)])
    assert turned.z == pytest.approx(-ours.z, abs=1e-9)
    assert turned.p == pytest.approx(ours.p, abs=1e-9)
    assert padded == ours
    assert of(rows, [10 + 5 * k for k in range(len(rows))]).z == pytest.approx(ours.z, abs=1e-9)


@given(CLASSES)
def test_two_classes_are_the_test_of_two_proportions(rows):
    (d1, n1), (d2, n2) = rows[:2]
    assume(0 < d1 + d2 < n1 + n2)
    p = (d1 + d2) / (n1 + n2)
    z = (d2 / n2 - d1 / n1) / np.sqrt(p * (1 - p) * (1 / n1 + 1 / n2))
    assert of(rows[:2]).z == pytest.approx(z, abs=1e-9)


def test_a_design_effect_shrinks_the_trend():
    plain = of([(3, 90), (6, 90), (12, 90)])
    clustered = of([(1.5, 45), (3, 45), (6, 45)])
    assert clustered.z == pytest.approx(plain.z / np.sqrt(2))


def test_the_curve_is_found_here_too():
    assert fit_logistic([1, 2, 3], [1, 2, 4], [20, 20, 20]).predict(2) == pytest.approx(0.11, abs=0.01)


@pytest.mark.parametrize(
    ("scores", "dead", "n", "says"),
    [
        ([0, 1], [1, 2, 3], [9, 9, 9], "give each class its score"),
        ([0, 1, float("nan")], [1, 2, 3], [9, 9, 9], "0, 1, 2"),
        ([0, 1, 2], [0, 0, 0], [9, 9, 9], "both dead and living"),
        ([1, 1, 1], [1, 2, 3], [9, 9, 9], "two scores"),
    ],
)
def test_what_cannot_be_is_refused_with_what_to_do(scores, dead, n, says):
    with pytest.raises(ValueError, match=says):
        cochran_armitage(scores, dead, n)
