"""The quantiles against closed forms and a published table."""

from math import pi, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtri

from weighin.survival.quantiles import normal, student

LEVELS = st.floats(0.01, 0.999)


@given(LEVELS)
def test_the_normal_quantile_is_scipys(level):
    assert normal(level) == pytest.approx(ndtri((1 + level) / 2), rel=1e-9)


@given(LEVELS)
def test_students_quantile_of_one_and_of_two_degrees_has_a_closed_form(level):
    """Cauchy's distribution, and P(|T| < t) = t / sqrt(2 + t^2) (Abramowitz & Stegun 1964, 26.7.3 and 26.7.4)."""
    assert student(1, level) == pytest.approx(tan(pi * level / 2), rel=1e-9)
    assert student(2, level) == pytest.approx(level * sqrt(2 / (1 - level**2)), rel=1e-9)


def test_students_quantile_is_the_published_one():
    """NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, columns 0.95, 0.975 and 0.995."""
    table = {
        3: (2.353, 3.182, 5.841),
        7: (1.895, 2.365, 3.499),
        12: (1.782, 2.179, 3.055),
        30: (1.697, 2.042, 2.750),
        100: (1.660, 1.984, 2.626),
    }
    for df, row in table.items():
        assert tuple(round(student(df, level), 3) for level in (0.90, 0.95, 0.99)) == row


@given(st.integers(1, 2000), LEVELS)
def test_students_quantile_falls_towards_the_normals(df, level):
    assert student(df, level) > student(df + 1, level) > normal(level)


@pytest.mark.parametrize("df", [0, -1, 2.5])
def test_degrees_of_freedom_count_clusters(df):
    with pytest.raises(ValueError, match="count the clusters less one"):
        student(df)


@pytest.mark.parametrize("level", [0, 1, 95, -0.5, float("nan")])
def test_a_level_is_a_share(level):
    with pytest.raises(ValueError, match="use 0.95 for 95 %"):
        normal(level)
