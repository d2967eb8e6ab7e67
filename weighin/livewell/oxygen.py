"""How much oxygen water holds in balance with air, and how full it is."""

from math import exp

from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, temperature, within

MMHG_PER_ATMOSPHERE = 760.0
MOST_PERCENT = 200.0  # a reading above this is a faulty meter or a slip of the pen, not a livewell


def saturation_mg_l(temperature_c: float, pressure_mmhg: float = 760.0, salinity: float = 0.0) -> float:
    """Dissolved oxygen in balance with moist air, by Benson and Krause.

    Parameters
    ----------
    temperature_c : float
        Water temperature in °C, 0 to 40.
    pressure_mmhg : float
        Station pressure in mmHg, 380 to 836 (0.5 to 1.1 atm): the air's real pressure at the lake, not the
        reading reduced to sea level that weather reports give (see `pressure.station_mmhg`).
    salinity : float
        Salt in parts per thousand, 0 to 40; 0.5 % salt is about 5.

    Returns
    -------
    float
        mg/L.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    References
    ----------
    Benson, B. B. & Krause, D. (1980), Limnol. Oceanogr. 25, 662-671; (1984), Limnol. Oceanogr. 29, 620-632;
    adopted by the US Geological Survey (Office of Water Quality Technical Memorandum 2011.03) and Standard
    Methods 4500-O.

    Examples
    --------
    >>> round(saturation_mg_l(20), 3)
    9.092
    >>> round(saturation_mg_l(20, pressure_mmhg=700), 3)
    8.358
    """
    t = temperature("temperature_c", temperature_c)
    mmhg = within("pressure_mmhg", pressure_mmhg, 380, 836, gettext_noop("The air pressure"), "mmHg")
    salt = within("salinity", salinity, 0, 40, gettext_noop("The salinity"), "parts per thousand")
    kelvin = t + 273.15
    fresh = exp(
        -139.34411 + 1.575701e5 / kelvin - 6.642308e7 / kelvin**2 + 1.2438e10 / kelvin**3 - 8.621949e11 / kelvin**4
    )
    by_salt = exp(-salt * (0.017674 - 10.754 / kelvin + 2140.7 / kelvin**2))
    atm = mmhg / MMHG_PER_ATMOSPHERE
    vapour = exp(11.8571 - 3840.70 / kelvin - 216961 / kelvin**2)
    theta = 0.000975 - 1.426e-5 * t + 6.436e-8 * t**2
    by_pressure = (atm - vapour) * (1 - theta * atm) / ((1 - vapour) * (1 - theta))
    return fresh * by_salt * by_pressure


def percent_saturation(
    oxygen_mg_l: float, temperature_c: float, pressure_mmhg: float = 760.0, salinity: float = 0.0
) -> float:
    """A meter's reading as a percentage of saturation.

    Parameters
    ----------
    oxygen_mg_l : float
        Reading in mg/L, 0 or more; above 200 % of saturation it is refused.
    temperature_c, pressure_mmhg, salinity : float
        As for `saturation_mg_l`.

    Returns
    -------
    float
        Per cent, 0 to 200.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(percent_saturation(5.0, 28), 1)
    63.9
    """
    full = saturation_mg_l(temperature_c, pressure_mmhg, salinity)
    percent = 100 * within("oxygen_mg_l", oxygen_mg_l, 0, 100, gettext_noop("The oxygen"), "mg/L") / full
    if percent > MOST_PERCENT:
        raise OutOfRange(
            "oxygen_mg_l",
            gettext_noop(
                "Oxygen of %(oxygen_mg_l)s mg/L is %(percent)s %% of saturation at %(temperature_c)s °C; above %(MOST_PERCENT)s %% check the meter, the unit and the temperature."
            ),
            oxygen_mg_l=f"{oxygen_mg_l:g}",
            percent=f"{percent:.0f}",
            temperature_c=f"{temperature_c:g}",
            MOST_PERCENT=f"{MOST_PERCENT:.0f}",
        )
    return percent
