"""Ice and salt against energy and mass balances and the handbook, the source beside each."""

import pytest

from weighin.livewell.figures.units import celsius, fahrenheit, kilograms, litres, pounds
from weighin.livewell.ice import kg_for_drop, temperature_after
from weighin.livewell.salt import kg_for_percent, percent_of
from weighin.livewell.temperature.cooling import OKLAHOMA_STEP_C, STRICTEST_STEP_C, coolest_c, schedule, target_c


# Energy balance with water 4.186 kJ/kg/K and fusion 333.55 kJ/kg, ice at 32 °F (computed).
@pytest.mark.parametrize(("from_f", "to_f", "lb_per_gal"), [(85, 75, 0.4476), (80, 70, 0.4600)])
def test_pounds_of_ice_a_gallon(from_f, to_f, lb_per_gal):
    ice = pounds(kg_for_drop(litres(1), celsius(from_f), celsius(to_f)))
    assert ice == pytest.approx(lb_per_gal, abs=5.1e-5)


def test_the_eight_pound_block_does_not_balance():
    """Much repeated: 8 lb of ice for 10 °F in 30 gallons. It gives 6.1 °F from 85 °F; 10 °F takes 13.4 lb."""
    after = fahrenheit(temperature_after(litres(30), celsius(85), kilograms(8)))
    assert 85 - after == pytest.approx(6.1, abs=0.05)
    assert pounds(kg_for_drop(litres(30), celsius(85), celsius(75))) == pytest.approx(13.4, abs=0.05)
    for lake_f in (75, 80, 90, 95):
        assert lake_f - fahrenheit(temperature_after(litres(30), celsius(lake_f), kilograms(8))) < 6.5


def test_half_a_per_cent_of_salt():
    """4.173 lb per 100 gallons (computed)."""
    assert pounds(kg_for_percent(litres(100), 0.5)) == pytest.approx(4.173, abs=5.1e-4)


def test_handbook_a_third_of_a_cup_for_five_gallons():
    """Keeping Bass Alive: 1/3 cup of non-iodized salt per 5 gallons (read); a cup of salt weighs some 290 g
    (kitchen tables, from memory): about half a per cent."""
    assert percent_of(litres(5), 0.290 / 3) == pytest.approx(0.5, abs=0.02)


# Schramm's stepwise targets (read): lake 75-80 °F -> 75, 81-85 -> 78, above 85 -> 80.
@pytest.mark.parametrize(
    ("lake_f", "target_f"), [(70, 70), (75, 75), (78, 75), (80, 75), (81, 78), (85, 78), (86, 80), (95, 80)]
)
def test_schramms_targets(lake_f, target_f):
    assert fahrenheit(target_c(celsius(lake_f))) == pytest.approx(target_f)


def test_sources_of_the_largest_step_disagree():
    """7 °F (Mississippi State summary), 10 °F (Oklahoma): 90 to 80 °F is two of the one, one of the other."""
    lake, target = celsius(90), target_c(celsius(90))
    assert fahrenheit(coolest_c(lake)) == pytest.approx(83)
    assert fahrenheit(coolest_c(lake, OKLAHOMA_STEP_C)) == pytest.approx(80)
    strict = schedule(from_c=lake, to_c=target, step_c=STRICTEST_STEP_C)
    assert (len(strict.steps), strict.beyond_step) == (2, True)
    loose = schedule(from_c=lake, to_c=target, step_c=OKLAHOMA_STEP_C)
    assert (len(loose.steps), loose.beyond_step) == (1, False)
