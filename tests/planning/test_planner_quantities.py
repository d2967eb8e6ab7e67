"""Figures as people write them: units, spellings, round trips, and what is refused in words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighin.planning.domain.quantities import (
    ELEVATION,
    FISH,
    FLOW,
    GAS,
    HOURS,
    ICE,
    METRIC,
    MINUTES,
    OXYGEN,
    TEMPERATURE,
    US,
    VOLUME,
    Quantity,
    figure,
    read,
    rewritten,
    shortest,
    shown,
)

BOTH = (VOLUME, TEMPERATURE, FISH, ICE, ELEVATION, FLOW)


@pytest.mark.parametrize(
    ("text", "quantity", "system", "si"),
    [
        ("24", VOLUME, US, 90.849882816),  # 231 cubic inches a gallon
        ("91", VOLUME, METRIC, 91),
        ("91 L", VOLUME, US, 91),
        ("24 Gallons", VOLUME, METRIC, 90.849882816),
        ("77", TEMPERATURE, US, 25),
        ("25 °C", TEMPERATURE, US, 25),
        ("77 ° f", TEMPERATURE, METRIC, 25),
        ("-4 F", TEMPERATURE, METRIC, -20),
        ("\u22124 F", TEMPERATURE, METRIC, -20),
        ("1", FISH, US, 453.59237),
        ("16 oz", FISH, METRIC, 453.59237),
        ("590 g", FISH, US, 590),
        ("1 lb.", ICE, METRIC, 0.45359237),
        ("1000 ft", ELEVATION, METRIC, 304.8),
        ("400 gph", FLOW, METRIC, 1514.1647136),
        (" 8.5h ", HOURS, US, 8.5),
        ("10 minutes", MINUTES, METRIC, 10),
        (".5", GAS, US, 0.5),
        ("6.", OXYGEN, US, 6),
    ],
)
def test_reads_what_people_write(text: str, quantity: Quantity, system: str, si: float) -> None:
    assert read(text, quantity, system).si == pytest.approx(si, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "quantity", "says"),
    [
        ("warm", TEMPERATURE, "“warm” is not a figure: write it with digits and a point, such as 7.5."),
        ("7,5", FISH, "“,5” is not a unit known here: write lb, kg, oz or g."),
        ("1e400", ELEVATION, "“e400” is not a unit known here: write ft or m."),
        ("80 K", TEMPERATURE, "“K” is not a unit known here: write °F or °C."),
        ("nan", VOLUME, "“nan” is not a figure: write it with digits and a point, such as 7.5."),
        ("9" * 39, VOLUME, f"“{'9' * 24}…” is not a figure: write it with digits and a point, such as 7.5."),
        ("٧", VOLUME, "“٧” is not a figure: write it with digits and a point, such as 7.5."),
        ("5 h", MINUTES, "“h” is not a unit known here: write min."),
    ],
)
def test_refuses_in_a_sentence(text: str, quantity: Quantity, says: str) -> None:
    with pytest.raises(ValueError) as refused:
        read(text, quantity, US)
    assert str(refused.value) == says


def test_a_temperature_says_its_unit_when_nobody_chose_one() -> None:
    with pytest.raises(ValueError, match="“82” has no unit: write 82 °F or 82 °C."):
        read("82", TEMPERATURE, US, chosen=False)
    assert read("82 F", TEMPERATURE, US, chosen=False).si == pytest.approx(27.7778, abs=1e-4)
    assert read("24", VOLUME, US, chosen=False).si == pytest.approx(90.85, abs=0.01)


@pytest.mark.parametrize("quantity", BOTH)
@given(whole=st.integers(1, 9999), decimals=st.integers(0, 2))
def test_writes_it_in_the_other_units_and_back(quantity: Quantity, whole: int, decimals: int) -> None:
    """What somebody wrote comes back as it was, whichever way round, and the other figure is near it."""
    text = shortest(whole / 10**decimals)
    for system, other in ((US, METRIC), (METRIC, US)):
        first = read(text, quantity, system)
        second = read(rewritten(first, quantity, other), quantity, other)
        places = len(text.partition(".")[2])
        assert round(quantity.unit(system).from_si(second.si), places) == first.figure
        there = quantity.unit(other).from_si(first.si)
        assert second.figure == pytest.approx(there, rel=0.0051, abs=quantity.near + 1e-6)
        again = rewritten(second, quantity, system)
        assert float(again) == pytest.approx(first.figure, rel=0.011, abs=0.3 if quantity is TEMPERATURE else 1e-6)


@pytest.mark.parametrize(
    ("text", "quantity", "metric"),
    [
        ("24", VOLUME, "91"),
        ("80", TEMPERATURE, "26.7"),
        ("32", TEMPERATURE, "0"),
        ("1.3", FISH, "0.59"),
        ("740", ELEVATION, "225.6"),
    ],
)
def test_writes_no_more_decimals_than_needed(text: str, quantity: Quantity, metric: str) -> None:
    first = read(text, quantity, US)
    assert rewritten(first, quantity, METRIC) == metric
    assert rewritten(read(metric, quantity, METRIC), quantity, US) == text


def test_shows_figures_with_units() -> None:
    assert shown(26.6667, TEMPERATURE, US) == "80\u00a0°F"
    assert shown(26.6667, TEMPERATURE, METRIC, 1) == "26.7\u00a0°C"
    assert figure(-20, TEMPERATURE, METRIC) == "\u221220"
    assert figure(-0.0001, TEMPERATURE, METRIC) == "0"
    assert shortest(-0.0) == "0" and shortest(1e8) == "100000000"
