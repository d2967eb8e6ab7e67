"""Conversion factors against their published values, the source beside each; the handbook is cited from memory."""

from decimal import Decimal as D

import pytest

from weighin.rules.weights import KG_PER_LB, OUNCE, as_kilograms, as_pounds, read, show, whole_pounds


def test_the_pound_of_1959():
    """International yard and pound agreement, 1959: 1 pound = 0.453 592 37 kilogram exactly.

    Repeated in NIST Handbook 44, appendix C, General Tables of Units of Measurement.
    """
    assert D("0.45359237") == KG_PER_LB
    assert as_kilograms(D(1), "lb") == D("0.45359237")
    assert as_pounds(D("0.45359237"), "kg") == 1


def test_sixteen_ounces_to_the_pound():
    """NIST Handbook 44, appendix C: 16 avoirdupois ounces = 1 pound."""
    assert OUNCE * 16 == 1
    assert read("0-01", "lb-oz") == read("1 oz", "lb-oz") == D("0.0625")
    assert show(D(1) - OUNCE, "lb-oz") == "0-15"


# Tables of weights as printed in almanacs: 1 ounce = 28.350 g, 1 kilogram = 2.205 pounds, 1 gram = 0.035 ounce.
# NIST Handbook 44, appendix C (from memory): 28.349 523 125 g to the ounce, 453.592 37 g to the pound.
@pytest.mark.parametrize(
    ("converted", "printed"),
    [
        (as_kilograms(OUNCE, "lb") * 1000, "28.350"),
        (as_kilograms(OUNCE, "lb-oz") * 1000, "28.349523125"),
        (as_kilograms(D(1), "lb") * 1000, "453.59237"),
        (as_pounds(D(1), "kg"), "2.205"),
        (as_pounds(D("0.001"), "kg") * 16, "0.035"),
    ],
)
def test_printed_tables_of_weights(converted, printed):
    assert converted.quantize(D(printed)) == D(printed)


def test_whole_pounds_in_kilograms_turn_over_at_the_exact_factor():
    """10 lb = 4.535 923 7 kg by the same agreement: a gram-tenth less is nine whole pounds."""
    assert whole_pounds(D("4.5359237"), "kg") == 10
    assert whole_pounds(D("4.5359236"), "kg") == 9
