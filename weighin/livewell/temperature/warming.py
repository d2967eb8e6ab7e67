"""How fast the well warms between icings: hull, air and sun in one coefficient, measured with a thermometer.

dT/dt = k (outside - T). To measure k: ice the empty well to well below the air, stir, take out what ice is
left, read the thermometer, wait ten minutes with the pump as on the day, stir and read again. The further
below the air, the better the answer. Take as `outside` the air at the well; in full sun the hull is warmer
than the air, and k measured there contains it.
"""

from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.mixed import Rates, after, coefficient_per_h
from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, temperature, within

# Until it is measured. Our estimate, no source: walls passing 2 (insulated) to 15 W/m2/K (bare, pump running,
# sun) with 1.2 m2 round 75 L give 0.03 to 0.21 per hour.
UNMEASURED_PER_H = Estimate(0.03, 0.1, 0.2)
FASTEST_PER_H = 5.0
HOTTEST_OUTSIDE_C = 70.0  # a dark deck in the sun


def coefficient_from_readings(
    *, start_c: float, end_c: float, outside_c: float, minutes: float = 10.0, reading_error_c: float = 0.1
) -> Estimate:
    """The well's coefficient from two thermometer readings.

    Parameters
    ----------
    start_c, end_c : float
        Water at the beginning and the end, °C, 0 to 40, `end_c` between `start_c` and `outside_c`.
    outside_c : float
        Air at the well, °C, -20 to 70.
    minutes : float
        Between the readings, 1 to 720.
    reading_error_c : float
        By how much a reading may be wrong, °C, 0 to 2: half a division for a glass thermometer.

    Returns
    -------
    Estimate
        Per hour. The ends are what the thermometer allows, both readings off the worse way; a low end of 0
        says that the rise was too small to tell: wait longer or start colder.

    Raises
    ------
    OutOfRange
        Outside the ranges above, or when the readings do not approach the outside (a ValueError).

    Examples
    --------
    >>> k = coefficient_from_readings(start_c=18.0, end_c=18.4, outside_c=34.0)
    >>> round(k.low, 2), round(k.stated, 2), round(k.high, 2)
    (0.08, 0.15, 0.23)
    """
    start = temperature("start_c", start_c, what=gettext_noop("The first reading"))
    end = temperature("end_c", end_c, what=gettext_noop("The second reading"))
    outside = _outside(outside_c)
    time = within("minutes", minutes, 1, 720, gettext_noop("The time between the readings"), "minutes")
    error = within("reading_error_c", reading_error_c, 0, 2, gettext_noop("The thermometer’s error"), "°C")
    try:
        return coefficient_per_h(start=start, end=end, towards=outside, hours=time / 60, reading_error=error)
    except OutOfRange as problem:
        name = {"end": "end_c", "towards": "outside_c"}.get(problem.name, problem.name)
        raise problem.at(name) from None


def temperature_after(*, from_c: float, outside_c: float, hours: float, per_h: float) -> float:
    """The water's temperature after so many hours without ice.

    Parameters
    ----------
    from_c : float
        °C, 0 to 40.
    outside_c : float
        °C, -20 to 70.
    hours : float
        0 to 72.
    per_h : float
        The coefficient, 0 to 5 per hour.

    Returns
    -------
    float
        °C; not below 0, where it would freeze.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(temperature_after(from_c=24, outside_c=34, hours=1, per_h=0.15), 1)
    25.4
    """
    start = temperature("from_c", from_c)
    time = within("hours", hours, 0, 72, gettext_noop("The time"), "h")
    return max(0.0, after(start, time, Rates(_coefficient(per_h), _outside(outside_c), 0.0)))


def _coefficient(per_h: float) -> float:
    return within("per_h", per_h, 0, FASTEST_PER_H, gettext_noop("The warming coefficient"), "per hour")


def _outside(outside_c: float) -> float:
    return temperature("outside_c", outside_c, -20, HOTTEST_OUTSIDE_C, gettext_noop("The temperature outside"))
