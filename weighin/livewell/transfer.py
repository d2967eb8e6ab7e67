"""Oxygen entering a well through its surface and its pump: coefficients, stated with their uncertainty.

d(oxygen)/dt = k (saturation - oxygen). Each k here is per hour at 20 °C; `at` takes it to another
temperature. No measurements of livewells' coefficients were found: the stated values come from lakes and
weirs and may be off by the width of their ends. Better: measure (`coefficient_from_readings`).
"""

from weighin.livewell.figures.estimate import NOTHING, Estimate
from weighin.livewell.figures.mixed import coefficient_per_h
from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, temperature, within

THETA = 1.024  # per °C: the usual correction of oxygen transfer, ASCE 2-06

# m/h. Low: still water, 2.07 cm/h (Cole & Caraco 1998, Limnol. Oceanogr. 43, 647-656, at no wind). High: ten
# times that for a well that sloshes on plane, our estimate, no source; stated between them.
SURFACE_M_PER_H = Estimate(0.02, 0.06, 0.2)

# Share of the missing oxygen taken up each time the water goes through the pump and falls back: Gameson's
# weir equation, r = 1 + 0.38 a b h (1 - 0.11 h)(1 + 0.046 T), share = 1 - 1/r, for falls h of 0.05 to 0.3 m
# at 20 °C with a b from 0.6 to 1.8 (clean water, broad to sharp edge). Our reading of it for spray bars; no
# measurement of livewells found.
PUMP_SHARE_A_PASS = Estimate(0.02, 0.10, 0.28)


def surface_per_h(*, area_m2: float, volume_l: float) -> Estimate:
    """The surface's coefficient.

    Parameters
    ----------
    area_m2 : float
        Water surface in m2, more than 0, at most 100. A lid does not matter while air gets under it.
    volume_l : float
        Water in L, more than 0, at most 100000.

    Returns
    -------
    Estimate
        Per hour at 20 °C: `SURFACE_M_PER_H` x area / volume.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> surface_per_h(area_m2=0.25, volume_l=75).ends
    (0.0666..., 0.2, 0.6666...)
    """
    area = above("area_m2", area_m2, 0, 100, gettext_noop("The water surface"), "m2")
    volume = above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L")
    return SURFACE_M_PER_H.times(area * 1000 / volume)


def pump_per_h(
    *, flow_l_per_h: float, volume_l: float, share_on: float = 1.0, a_pass: Estimate = PUMP_SHARE_A_PASS
) -> Estimate:
    """The coefficient of a pump that recirculates the well's water and sprays or drops it back in.

    Parameters
    ----------
    flow_l_per_h : float
        What the pump really moves, L/h, 0 to 100000; with hose and height often half of what is printed on
        it.
    volume_l : float
        Water in L, more than 0, at most 100000.
    share_on : float
        Share of the time it runs, 0 to 1: 1 without a break, 0.25 for one minute in four on a timer.
    a_pass : Estimate
        Share of the missing oxygen taken up in one pass, 0 to 1.

    Returns
    -------
    Estimate
        Per hour at 20 °C: flow x share_on x a_pass / volume.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> pump_per_h(flow_l_per_h=1500, volume_l=75).ends
    (0.4, 2.0, 5.6...)
    """
    flow = within("flow_l_per_h", flow_l_per_h, 0, 100_000, gettext_noop("The pump’s flow"), "L/h")
    volume = above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L")
    on = within("share_on", share_on, 0, 1, gettext_noop("The share of the time the pump runs"))
    if a_pass.low < 0 or a_pass.high > 1:
        raise OutOfRange("a_pass", gettext_noop("The share of the missing oxygen taken up in one pass is from 0 to 1."))
    return a_pass.times(flow * on / volume)


def together(*coefficients: Estimate) -> Estimate:
    """Surface and pump (and a second pump) acting at once.

    Examples
    --------
    >>> together(Estimate(0.1, 0.2, 0.4), Estimate(1, 2, 4)).ends
    (1.1, 2.2, 4.4)
    """
    total = NOTHING
    for each in coefficients:
        total = total.plus(each)
    return total


def at(coefficient: Estimate, temperature_c: float) -> Estimate:
    """A coefficient of 20 °C at another temperature.

    Parameters
    ----------
    coefficient : Estimate
        Per hour at 20 °C.
    temperature_c : float
        °C, 0 to 40.

    Returns
    -------
    Estimate
        Per hour: x 1.024^(T - 20).

    Raises
    ------
    OutOfRange
        Outside the range above (a ValueError).

    Examples
    --------
    >>> round(at(Estimate(1, 1, 1), 30).stated, 3)
    1.268
    """
    return coefficient.times(THETA ** (temperature("temperature_c", temperature_c) - 20))


def coefficient_from_readings(
    *,
    start_mg_l: float,
    end_mg_l: float,
    saturation_mg_l: float,
    minutes: float,
    temperature_c: float,
    reading_error_mg_l: float = 0.1,
) -> Estimate:
    """A well's own coefficient, from two readings of an oxygen meter in the running well without fish.

    Parameters
    ----------
    start_mg_l, end_mg_l : float
        Readings, 0 to 40 mg/L; start from water well below (or, after pure oxygen, above) saturation.
    saturation_mg_l : float
        By `oxygen.saturation_mg_l` for the water's temperature and the station pressure.
    minutes : float
        Between the readings, 1 to 720.
    temperature_c : float
        °C, 0 to 40.
    reading_error_mg_l : float
        By how much a reading may be wrong, 0 to 2 mg/L.

    Returns
    -------
    Estimate
        Per hour at 20 °C, its ends what the meter allows.

    Raises
    ------
    OutOfRange
        Outside the ranges above, or when the readings do not approach saturation (a ValueError).

    Examples
    --------
    >>> readings = {"start_mg_l": 4.0, "end_mg_l": 6.0, "minutes": 20}
    >>> k = coefficient_from_readings(**readings, saturation_mg_l=8.26, temperature_c=25)
    >>> [round(end, 1) for end in k.ends]
    [1.5, 1.7, 1.9]
    """
    start = within("start_mg_l", start_mg_l, 0, 40, gettext_noop("The first reading"), "mg/L")
    end = within("end_mg_l", end_mg_l, 0, 40, gettext_noop("The second reading"), "mg/L")
    full = within("saturation_mg_l", saturation_mg_l, 2, 20, gettext_noop("Saturation"), "mg/L")
    time = within("minutes", minutes, 1, 720, gettext_noop("The time between the readings"), "minutes")
    error = within("reading_error_mg_l", reading_error_mg_l, 0, 2, gettext_noop("The meter’s error"), "mg/L")
    try:
        here = coefficient_per_h(start=start, end=end, towards=full, hours=time / 60, reading_error=error)
    except OutOfRange as problem:
        name = {"end": "end_mg_l", "towards": "saturation_mg_l"}.get(problem.name, problem.name)
        raise problem.at(name) from None
    return here.times(1 / THETA ** (temperature("temperature_c", temperature_c) - 20))
