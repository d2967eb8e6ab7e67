"""Scale tolerances against NIST Handbook 44, section 2.20, table 6, class III.

The steps are from memory (maintenance: 500, 2000 and 4000 divisions; 1, 2, 3 and 5 divisions; acceptance half); read
beside it, as a second source for the acceptance side: Mettler-Toledo, LJ16 specifications (12/99), figures 3-7 and 3-9,
whose text has 5000 divisions +/- 2.5 by Handbook 44 acceptance.
"""

from decimal import Decimal

import pytest

from weighin.rules import weights
from weighin.scales.domain.tolerance import judged, maintenance_divisions


@pytest.mark.parametrize(
    ("divisions", "allowed"),
    [(0, 1), (500, 1), (501, 2), (2000, 2), (2001, 3), (4000, 3), (4001, 5), (10000, 5)],
)
def test_table_6(divisions: int, allowed: int) -> None:
    assert maintenance_divisions(Decimal(divisions)) == allowed


def test_seven_pounds_on_a_hundredth_of_a_pound_is_700_divisions_and_two_of_them() -> None:
    verdict = judged(Decimal("7.00"), Decimal("7.02"), Decimal("0.01"))
    assert (verdict.divisions, verdict.tolerance, verdict.passed) == (700, Decimal("0.02"), True)
    assert not judged(Decimal("7.00"), Decimal("7.03"), Decimal("0.01")).passed
    assert not judged(Decimal("7.00"), Decimal("6.97"), Decimal("0.01")).passed


def test_acceptance_of_5000_divisions_is_two_and_a_half() -> None:
    assert judged(Decimal(50), Decimal(50), Decimal("0.01"), new=True).tolerance == Decimal("0.025")


def test_ounces_and_kilograms() -> None:
    half_ounce, five_pounds = weights.read("0-00.5", "lb-oz"), weights.read("5-00", "lb-oz")
    # 5 lb are 160 half ounces: one division, 0.5 oz = 0.03125 lb exactly (1 oz = 1/16 lb)
    verdict = judged(five_pounds, weights.read("5-00.5", "lb-oz"), half_ounce)
    assert (verdict.divisions, verdict.tolerance, verdict.passed) == (160, Decimal("0.03125"), True)
    # 2 kg on 2 g are 1000 divisions: two of them
    assert judged(Decimal("2.000"), Decimal("1.996"), Decimal("0.002")).passed
    assert not judged(Decimal("2.000"), Decimal("1.994"), Decimal("0.002")).passed


def test_a_test_weight_just_above_a_step_is_beyond_it() -> None:
    assert judged(Decimal("5.005"), Decimal(5), Decimal("0.01")).tolerance == Decimal("0.02")
    assert judged(Decimal(1), Decimal(1), Decimal("0.003")).tolerance == Decimal("0.003")


@pytest.mark.parametrize(("weight", "division"), [("0", "0.01"), ("-1", "0.01"), ("1", "0"), ("1", "-0.01")])
def test_what_cannot_be_judged(weight: str, division: str) -> None:
    with pytest.raises(ValueError, match="more than nothing"):
        judged(Decimal(weight), Decimal(1), Decimal(division))
