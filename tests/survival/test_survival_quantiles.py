"""The quantiles in plain Python against scipy's."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtri, stdtrit

from weighin.survival.quantiles import normal, student

LEVELS = st.floats(0.01, 0.999)


@given(LEVELS)
def test_the_normal_quantile_is_scipys(level):
    assert normal(level) == pytest.approx(ndtri((1 + level) / 2), rel=1e-9)


@given(st.integers(1, 2000), LEVELS)
def test_students_quantile_is_scipys(df, level):
    assert student(df, level) == pytest.approx(stdtrit(df, (1 + level) / 2), rel=1e-9)


def test_the_series_and_the_expansion_meet():
    assert student(201) == pytest.approx(stdtrit(201, 0.975), rel=1e-11)
    assert student(201) < student(200) < student(199)


@pytest.mark.parametrize("df", [0, -1, 2.5])
def test_degrees_of_freedom_count_clusters(df):
    with pytest.raises(ValueError, match="count the clusters less one"):
        student(df)


@pytest.mark.parametrize("level", [0, 1, 95, -0.5, float("nan")])
def test_a_level_is_a_share(level):
    with pytest.raises(ValueError, match="use 0.95 for 95 %"):
        normal(level)
