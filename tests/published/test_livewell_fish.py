"""Respiration against published curves and the handbook's ratios, the source beside each."""

import pytest

from weighin.livewell.figures.units import celsius, kilograms
from weighin.livewell.respiration import routine_mg_per_kg_h, sunfish_mg_per_kg_h


# Fish Bioenergetics 4.0's table of parameters (read), values computed from its equations 1 and 2 in g
# O2/g/day.
@pytest.mark.parametrize(
    ("species", "mass_g", "temperature_c", "expected"),
    [
        ("white_crappie", 300, 25, 51.04),  # Bajer et al. 2004; Zweifel 2000
        ("largemouth_bass", 1000, 25, 66.82),  # Rice et al. 1983
        ("bluegill", 100, 25, 148.24),  # Kitchell et al. 1974
    ],
)
def test_wisconsin_bioenergetics(species, mass_g, temperature_c, expected):
    assert routine_mg_per_kg_h(species, mass_g, temperature_c) == pytest.approx(expected, abs=5.1e-3)


def test_walleye_at_its_optimum():
    """Kitchell et al. 1977: f is 1 at the optimum, 27 °C: 0.0108 W^-0.2 g O2/g/day (RA and RB read)."""
    assert routine_mg_per_kg_h("walleye", 1000, 27) == pytest.approx(0.0108 * 1000**-0.2 * 1e6 / 24)


def test_white_crappies_curve_is_flat():
    """RQ .0237 (read): 1.27-fold per 10 °C, why no crappie figure is given alone."""
    ratio = routine_mg_per_kg_h("white_crappie", 300, 30) / routine_mg_per_kg_h("white_crappie", 300, 20)
    assert ratio == pytest.approx(1.27, abs=0.005)


def test_a_sunfish_lies_between_the_familys_curves():
    use = sunfish_mg_per_kg_h(300, 25)
    assert use.low == routine_mg_per_kg_h("white_crappie", 300, 25)
    assert use.stated == routine_mg_per_kg_h("largemouth_bass", 300, 25)
    assert use.high == routine_mg_per_kg_h("bluegill", 300, 25)


def test_handbook_thirty_per_cent_more_at_90_f():
    """Keeping Bass Alive (Gilliland, Schramm & Shupp 2002): bass use 30 % more at 90 °F than at 75 °F (read).

    Model 1.298.
    """
    hot, mild = (routine_mg_per_kg_h("largemouth_bass", 1000, celsius(f)) for f in (90, 75))
    assert hot / mild == pytest.approx(1.30, abs=0.005)
    assert hot / mild == pytest.approx(1.298, abs=5.1e-4)


def of_one_bass(pounds):
    mass_g = kilograms(pounds) * 1000
    return routine_mg_per_kg_h("largemouth_bass", mass_g, 25) * mass_g / 1000


def test_handbook_a_four_pound_bass_against_a_two_pound_one():
    """The same: a 4-lb bass uses 50 % more than a 2-lb one (read).

    Model 1.564: the handbook's round figure holds to some 6 points.
    """
    assert of_one_bass(4) / of_one_bass(2) == pytest.approx(1.564, abs=5.1e-4)
    assert of_one_bass(4) / of_one_bass(2) == pytest.approx(1.5, abs=0.07)


def test_handbook_five_small_bass_against_one_large():
    """The same: five 2-lb bass use nearly twice as much as one 10-lb bass (read). Model 1.77."""
    assert 5 * of_one_bass(2) / of_one_bass(10) == pytest.approx(1.77, abs=0.005)


def test_measured_young_largemouth_lie_near_the_curve():
    """Ranney et al. 2024, age-1 largemouth of 104-108 g: 94 and 152 mg/kg/h by feeding history (read; their
    water's temperature not stated in the abstract): the curve's 20 to 25 °C span lies inside."""
    at_20, at_25 = (routine_mg_per_kg_h("largemouth_bass", 106, t) for t in (20, 25))
    assert 94 < at_20 < at_25 < 152
