"""The air's pressure at the lake.

Station pressure is what counts for oxygen: what a barometer shows that was never set to sea level. Weather
reports, telephones and most household barometers give the reading reduced to sea level, about the same number
everywhere; used as it is, it overstates the oxygen at a lake 500 m up by some 6 %.
"""

from weighin.livewell.figures.ranges import gettext_noop, within
from weighin.livewell.figures.units import MMHG_PER_INCH, PASCALS_PER_MMHG

SEA_LEVEL_PA = 101325.0
LOWEST_M, HIGHEST_M = -500.0, 11_000.0  # the Dead Sea's shore; the top of the standard troposphere


def at_elevation_mmhg(elevation_m: float) -> float:
    """Mean air pressure at an elevation, US Standard Atmosphere 1976.

    Weather moves the real pressure by some 2 % either way; with a barometer's reading use `station_mmhg`.

    Parameters
    ----------
    elevation_m : float
        Above sea level in m, -500 to 11000. (`oxygen` takes the pressures down to 0.5 atm, about 5500 m.)

    Returns
    -------
    float
        mmHg.

    Raises
    ------
    OutOfRange
        Outside the range above (a ValueError).

    References
    ----------
    US Standard Atmosphere 1976 (NOAA, NASA, USAF), troposphere: 101325 (1 - 2.255770e-5 h)^5.255876 Pa.

    Examples
    --------
    >>> round(at_elevation_mmhg(1524), 2)
    632.36
    """
    return SEA_LEVEL_PA * _share(elevation_m) / PASCALS_PER_MMHG


def station_mmhg(sea_level_mmhg: float, elevation_m: float) -> float:
    """Station pressure from a barometer reading that was reduced to sea level.

    The reading is taken back up by the standard atmosphere's share. Reductions differ a little (some use the
    day's temperature): allow 1 %.

    Parameters
    ----------
    sea_level_mmhg : float
        The reading reduced to sea level, mmHg, 640 to 820 (world records lie just inside).
    elevation_m : float
        Of the lake, m, -500 to 11000.

    Returns
    -------
    float
        mmHg at the lake.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError); a reading below 640 mmHg is most likely a station pressure
        already.

    Examples
    --------
    >>> round(station_mmhg(760, 500), 1)
    716.0
    """
    reading = within(
        "sea_level_mmhg", sea_level_mmhg, 640, 820, gettext_noop("A pressure reduced to sea level"), "mmHg"
    )
    return reading * _share(elevation_m)


def mmhg_from_inches(inches: float) -> float:
    """Inches of mercury as mmHg, 9 to 33 inches.

    Examples
    --------
    >>> mmhg_from_inches(30)
    762.0
    """
    return within("inches", inches, 9, 33, gettext_noop("The pressure"), "inHg") * MMHG_PER_INCH


def _share(elevation_m: float) -> float:
    elevation = within("elevation_m", elevation_m, LOWEST_M, HIGHEST_M, gettext_noop("The elevation"), "m")
    return float((1 - 2.255770e-5 * elevation) ** 5.255876)
