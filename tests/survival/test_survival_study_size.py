"""How many pens a study needs: the answer is the fewest that do, and a simulated study comes out as planned."""

import pytest

from weighin.survival.delayed import abbott
from weighin.survival.sizes.study_size import expected, pens_for_width

PLAN = {"delayed": 0.2, "reference": 0.05, "fish_per_pen": 20, "correlation": 0.05}


@pytest.mark.parametrize("width", [0.15, 0.2, 0.3, 0.45])
def test_the_answer_is_the_fewest_pens_that_are_narrow_enough(width):
    pens = pens_for_width(width=width, **PLAN)

    def wide(number):
        found = expected(pens=number, **PLAN)
        return found.high - found.low

    assert wide(pens) <= width
    assert pens == 3 or wide(pens - 1) > width


def test_more_is_asked_of_a_study_of_pens_that_differ():
    alike = pens_for_width(width=0.25, **{**PLAN, "correlation": 0.3})
    assert alike > pens_for_width(width=0.25, **PLAN) > pens_for_width(width=0.25, **{**PLAN, "correlation": 0.0})
    # Where fish of a pen fare wholly alike, more fish in it tell nothing
    one = {**PLAN, "correlation": 1.0}
    assert pens_for_width(width=0.5, **one) == pens_for_width(width=0.5, **{**one, "fish_per_pen": 200})


def test_at_least_three_pens_of_each_kind():
    assert pens_for_width(width=0.99, delayed=0.0, reference=0.0, fish_per_pen=500, correlation=0.0) == 3


def test_the_rate_expected_is_the_rate_asked_for():
    assert expected(pens=4, **PLAN).rate == pytest.approx(0.2)
    # 24 % of the tournament fish die in the pens: 1 - 0.8 x 0.95; Abbott's formula takes 5 % of holding out again
    assert abbott(24, 100, 5, 100).rate == pytest.approx(0.2)


def test_out_of_range_is_refused():
    for wrong in ({"delayed": 20}, {"reference": -0.1}, {"fish_per_pen": 0}, {"correlation": 1.1}):
        with pytest.raises(ValueError):
            pens_for_width(width=0.3, **{**PLAN, **wrong})
    for width in (0.0, 1.0, 30):
        with pytest.raises(ValueError, match="width"):
            pens_for_width(width=width, **PLAN)
    with pytest.raises(ValueError, match="more than 200 pens"):
        pens_for_width(width=0.01, **PLAN)
    with pytest.raises(ValueError, match="at least 3"):
        expected(pens=1, **PLAN)


def test_simulated_studies_come_out_about_as_wide_as_planned():
    """Beta-binomial pens with the correlation planned for: the middle width is near the one asked for, and the range holds
    the true rate about as often as it says."""
    import numpy as np

    luck = np.random.default_rng(20260620)
    pens = pens_for_width(width=0.3, **PLAN)
    strength = 1 / PLAN["correlation"] - 1

    def kind(rate):
        return luck.binomial(20, luck.beta(rate * strength, (1 - rate) * strength, pens)).tolist()

    widths, held = [], 0
    for _ in range(400):
        found = abbott(kind(0.24), [20] * pens, kind(0.05), [20] * pens)
        widths.append(found.high - found.low)
        held += found.low <= 0.2 <= found.high
    assert 0.24 < float(np.median(widths)) < 0.36
    assert 0.90 <= held / 400 <= 1.0
