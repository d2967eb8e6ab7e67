"""Temperatures with their unit: exact, in range, never guessed."""

from decimal import Decimal

import pytest

from weighin.events.domain.temperatures import air, water


@pytest.mark.parametrize(
    ("text", "fahrenheit", "celsius"),
    # Fixed points: water freezes at 32 °F = 0 °C; -40 is the same on both scales (facts of the scales).
    [("32 F", "32", "0"), ("0C", "32", "0"), ("27.8 °C", "82.04", "27.8"), ("50 f", "50", "10"), ("45 c", "113", "45")],
)
def test_units_convert_exactly(text: str, fahrenheit: str, celsius: str) -> None:
    found = water(text)
    assert (found.fahrenheit, found.celsius) == (Decimal(fahrenheit), Decimal(celsius))


def test_air_may_be_cold() -> None:
    assert air("-40 F").celsius == air("-40 C").celsius == -40


@pytest.mark.parametrize("text", ["78", "78.5", "78°"])
def test_a_figure_without_a_unit_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"has no unit: write it with its unit, such as 82 °F"):
        water(text)


@pytest.mark.parametrize("text", ["78 C", "31 F", "114 F", "-1 C", "warm", "80 K", "8O F", "82,5 F"])
def test_what_is_out_of_range_or_no_temperature_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"outside the range of water|is not a temperature"):
        water(text)
