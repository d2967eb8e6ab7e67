"""Oxygen, pressure, ammonia and carbon dioxide against published tables, the source beside each."""

import pytest

from weighin.livewell.ammonia import given_off_mg_n, unionised_fraction
from weighin.livewell.carbon_dioxide import from_ph_mg_l, ph
from weighin.livewell.figures.units import PASCALS_PER_MMHG, metres
from weighin.livewell.oxygen import percent_saturation, saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg, mmhg_from_inches, station_mmhg

PASCALS_PER_PSI = 6894.757


# EN 25814 / ISO 5814, table of oxygen saturation in fresh water at 1013 hPa, to its printed digits (read).
@pytest.mark.parametrize(
    ("temperature_c", "printed"),
    [
        *((0, "14.6"), (5, "12.8"), (10, "11.3"), (15, "10.1"), (16, "9.87"), (18, "9.47"), (20, "9.09")),
        *((22, "8.74"), (24, "8.42"), (25, "8.26"), (26, "8.11"), (28, "7.83"), (30, "7.56")),
    ],
)
def test_oxygen_in_fresh_water_by_en_25814(temperature_c, printed):
    digits = len(printed.split(".")[1])
    assert f"{saturation_mg_l(temperature_c):.{digits}f}" == printed


# Benson & Krause 1980, 1984 as used by the USGS and Standard Methods 4500-O (computed from the equations).
@pytest.mark.parametrize(
    ("temperature_c", "expected"),
    [(0, 14.621), (5, 12.771), (10, 11.288), (15, 10.084), (20, 9.092), (25, 8.263), (30, 7.559)],
)
def test_oxygen_by_benson_and_krause(temperature_c, expected):
    assert saturation_mg_l(temperature_c) == pytest.approx(expected, abs=5.1e-4)


def test_oxygen_in_salt_water_and_under_less_air():
    """Salinity 35 at 20 °C 7.396 (read in the USGS tables); 700 mmHg at 20 °C 8.358 (computed)."""
    assert saturation_mg_l(20, salinity=35) == pytest.approx(7.396, abs=5.1e-4)
    assert saturation_mg_l(20, pressure_mmhg=700) == pytest.approx(8.358, abs=5.1e-4)
    assert percent_saturation(saturation_mg_l(20, 700), 20, 700) == pytest.approx(100)


def test_standard_atmosphere_at_1000_m():
    """US Standard Atmosphere 1976: 89874.6 Pa at 1000 m (read)."""
    assert at_elevation_mmhg(1000) * PASCALS_PER_MMHG == pytest.approx(89874.6, abs=0.05)
    assert at_elevation_mmhg(0) == pytest.approx(760.0, abs=1e-4)


def test_standard_atmosphere_at_5000_feet():
    """12.228 psi (read), which is 632.36 mmHg (computed)."""
    assert at_elevation_mmhg(metres(5000)) * PASCALS_PER_MMHG / PASCALS_PER_PSI == pytest.approx(12.228, abs=5.1e-4)
    assert at_elevation_mmhg(metres(5000)) == pytest.approx(632.36, abs=5.1e-3)


# Engineers' tables of the same atmosphere (read); they differ between themselves by 0.002 psi, as geometric
# or geopotential feet are meant.
@pytest.mark.parametrize(
    ("feet", "psi"),
    [
        (0, 14.696),
        (1000, 14.175),
        (2000, 13.664),
        (3000, 13.173),
        (5000, 12.230),
        (7000, 11.341),
        (10_000, 10.108),
    ],
)
def test_standard_atmosphere_in_engineers_tables(feet, psi):
    assert at_elevation_mmhg(metres(feet)) * PASCALS_PER_MMHG / PASCALS_PER_PSI == pytest.approx(psi, abs=2.5e-3)


def test_station_pressure_by_the_weather_services_formula():
    """US National Weather Service: reading x ((288 - 0.0065 h) / 288)^5.2561 (read); ours within 0.1 %."""
    for metres_up in (0, 200, 500, 1000, 2000):
        theirs = 760 * ((288 - 0.0065 * metres_up) / 288) ** 5.2561
        assert station_mmhg(760, metres_up) == pytest.approx(theirs, rel=1e-3)


def test_station_pressure_by_the_smithsonian_altimeter_equation():
    """Smithsonian Meteorological Tables 1951, p. 269 (as read in MetPy's manual): within 0.2 % at lakes'
    heights."""
    n, reading_hpa = 0.190284, 1020.0
    for metres_up in (100, 300, 1000):
        field = (reading_hpa**n - 1013.25**n * 0.0065 * metres_up / 288) ** (1 / n) + 0.3
        ours = station_mmhg(reading_hpa * 100 / PASCALS_PER_MMHG, metres_up) * PASCALS_PER_MMHG / 100
        assert ours == pytest.approx(field, rel=2e-3)


def test_station_pressure_by_wisconsins_laboratory_rule():
    """Wisconsin DNR, BOD calibration: 29.65 inHg at 600 ft x 0.9795 (26 mm per 1000 ft; read). Ours within 1
    mmHg."""
    reading = mmhg_from_inches(29.65)
    assert station_mmhg(reading, metres(600)) == pytest.approx(reading * 0.9795, abs=1.0)


def test_unionised_ammonia_by_emerson():
    """Emerson et al. 1975: 20 °C pH 8 3.807 %, 25 °C pH 8 5.366 % (computed)."""
    assert unionised_fraction(20, 8) == pytest.approx(0.03807, abs=5.1e-6)
    assert unionised_fraction(25, 8) == pytest.approx(0.05366, abs=5.1e-6)


# UF/IFAS FA16 "Ammonia in Aquatic Systems", fraction of un-ionised ammonia, 6 to 30 °C by 2 (read). Its 32 °C
# column is wrong and left out, and so is one slip, pH 7.4 at 20 °C (.0096 printed between .0085 and .0114;
# .0098 computed).
FA16 = {
    7.0: ".0013 .0016 .0018 .0022 .0025 .0029 .0034 .0039 .0046 .0052 .0060 .0069 .0080",
    7.2: ".0021 .0025 .0029 .0034 .0040 .0046 .0054 .0062 .0072 .0083 .0096 .0110 .0126",
    7.4: ".0034 .0040 .0046 .0054 .0063 .0073 .0085 slip .0114 .0131 .0150 .0173 .0198",
    7.6: ".0053 .0063 .0073 .0086 .0100 .0116 .0134 .0155 .0179 .0206 .0236 .0271 .0310",
    7.8: ".0084 .0099 .0116 .0135 .0157 .0182 .0211 .0244 .0281 .0322 .0370 .0423 .0482",
    8.0: ".0133 .0156 .0182 .0212 .0247 .0286 .0330 .0381 .0438 .0502 .0574 .0654 .0743",
    8.2: ".0210 .0245 .0286 .0332 .0385 .0445 .0514 .0590 .0676 .0772 .0880 .0998 .1129",
    8.4: ".0328 .0383 .0445 .0517 .0597 .0688 .0790 .0904 .1031 .1171 .1326 .1495 .1678",
}


@pytest.mark.parametrize("at_ph", FA16)
def test_unionised_ammonia_by_the_fa16_table(at_ph):
    for temperature_c, printed in zip(range(6, 31, 2), FA16[at_ph].split(), strict=True):
        if printed != "slip":
            assert unionised_fraction(temperature_c, at_ph) == pytest.approx(float(printed), abs=6e-5)


def test_ammonia_of_starved_sockeye():
    """Brett & Zala 1975: 8.2 mg N with 170 mg O2 per kg and hour (read in the abstract): quotient 0.11."""
    assert given_off_mg_n(170).low == pytest.approx(8.2, abs=0.1)


# Tucker 1984, factors for free carbon dioxide from alkalinity, as printed in extension sheets such as SRAC
# 464 (read). Ours within 1 % or the last printed digit from 5 to 30 °C.
TUCKER = {
    6.0: "2.915 2.539 2.315 2.112 1.970 1.882",
    6.4: "1.160 1.010 0.921 0.841 0.784 0.749",
    6.8: "0.462 0.402 0.367 0.335 0.313 0.298",
    7.0: "0.291 0.254 0.232 0.211 0.197 0.188",
    7.4: "0.116 0.101 0.092 0.084 0.078 0.075",
    8.0: "0.029 0.025 0.023 0.021 0.020 0.019",
}


@pytest.mark.parametrize("at_ph", TUCKER)
def test_carbon_dioxide_from_ph_by_tuckers_factors(at_ph):
    for temperature_c, printed in zip(range(5, 31, 5), TUCKER[at_ph].split(), strict=True):
        ours = from_ph_mg_l(ph=at_ph, alkalinity_mg_l=1, temperature_c=temperature_c)
        assert ours == pytest.approx(float(printed), rel=0.01, abs=6e-4)


def test_tuckers_own_example():
    """25 °C, pH 6.8, alkalinity 50: 15.65 mg/L (read)."""
    assert from_ph_mg_l(ph=6.8, alkalinity_mg_l=50, temperature_c=25) == pytest.approx(15.65, rel=0.01)
    assert ph(carbon_dioxide_mg_l=15.65, alkalinity_mg_l=50, temperature_c=25) == pytest.approx(6.8, abs=0.005)
