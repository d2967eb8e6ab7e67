"""Ammonia building up in a recirculated well, and the un-ionised share of it, which is the poisonous one."""

from weighin.livewell.day import LivewellDay
from weighin.livewell.figures.course import Band
from weighin.livewell.figures.estimate import NOTHING, Estimate
from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, temperature, within

# As NH3; harm begins about here for lasting exposure (UF/IFAS FA16, from memory). FA16 multiplies the kit's figure, which is
# nitrogen, by the share alone; ours is turned into NH3 and comes out 1.216 times as high: the careful side.
CAUTION_UNIONISED_MG_L = 0.05
NITROGEN_GRAMS_PER_MOLE = 14.007
OXYGEN_GRAMS_PER_MOLE = 31.998
AMMONIA_PER_NITROGEN = 17.031 / 14.007

# Moles of ammonia given off per mole of oxygen used. Low: starved sockeye, 8.2 mg N against 170 mg O2 per kg
# and hour (Brett & Zala 1975, J. Fish. Res. Board Can. 32, 2479-2486). High: all fuel protein, 0.27 (textbook
# limit, from memory). Wild fish come aboard neither starved nor stuffed: stated between them.
QUOTIENT = Estimate(0.11, 0.18, 0.27)


def unionised_fraction(temperature_c: float, ph: float) -> float:
    """Share of total ammonia that is un-ionised (NH3), in fresh water.

    Parameters
    ----------
    temperature_c : float
        °C, 0 to 40.
    ph : float
        4 to 11.

    Returns
    -------
    float
        Share, 0 to 1.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    References
    ----------
    Emerson, K. et al. (1975), J. Fish. Res. Board Can. 32, 2379-2383: pKa = 0.09018 + 2729.92 / T.

    Examples
    --------
    >>> round(unionised_fraction(20, 8.0), 5)
    0.03807
    """
    kelvin = temperature("temperature_c", temperature_c) + 273.15
    reading = within("ph", ph, 4, 11, gettext_noop("The pH"))
    return float(1 / (1 + 10 ** (0.09018 + 2729.92 / kelvin - reading)))


def unionised_mg_l(*, total_n_mg_l: float, temperature_c: float, ph: float) -> float:
    """Un-ionised ammonia from a test kit's total ammonia nitrogen.

    Parameters
    ----------
    total_n_mg_l : float
        Total ammonia as nitrogen (TAN), 0 to 1000 mg/L. A kit that shows NH3 shows 1.216 times as much,
        one that shows NH4 1.288 times.
    temperature_c : float
        °C, 0 to 40.
    ph : float
        4 to 11.

    Returns
    -------
    float
        mg/L as NH3.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(unionised_mg_l(total_n_mg_l=2.0, temperature_c=25, ph=8.0), 3)
    0.13
    """
    total = within("total_n_mg_l", total_n_mg_l, 0, 1000, gettext_noop("The total ammonia nitrogen"), "mg/L")
    return total * unionised_fraction(temperature_c, ph) * AMMONIA_PER_NITROGEN


def given_off_mg_n(oxygen_mg: float, quotient: Estimate = QUOTIENT) -> Estimate:
    """Ammonia nitrogen given off with so much oxygen used.

    Parameters
    ----------
    oxygen_mg : float
        mg (or mg/L) of oxygen used, 0 or more.
    quotient : Estimate
        Ammonia quotient in moles, 0 to 0.5.

    Returns
    -------
    Estimate
        mg (or mg/L) as nitrogen.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> [round(end, 2) for end in given_off_mg_n(10.0).ends]
    [0.48, 0.79, 1.18]
    """
    used = within("oxygen_mg", oxygen_mg, 0, 1e12, gettext_noop("The oxygen used"), "mg")
    if quotient.low < 0 or quotient.high > 0.5:
        raise OutOfRange("quotient", gettext_noop("The ammonia quotient is from 0 to 0.5."))
    return quotient.times(used * NITROGEN_GRAMS_PER_MOLE / OXYGEN_GRAMS_PER_MOLE)


def build_up_mg_l(day: LivewellDay, *, quotient: Estimate = QUOTIENT, lake_mg_l: float = 0.0) -> Band:
    """The well's total ammonia nitrogen through the day.

    Parameters
    ----------
    day : LivewellDay
    quotient : Estimate
        Ammonia quotient in moles, 0 to 0.5.
    lake_mg_l : float
        In the lake water of the filling and the changes, 0 to 100 mg/L.

    Returns
    -------
    Band
        mg/L as nitrogen. None leaves to the air: at a livewell's pH there is next to nothing to vent.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> from weighin.livewell.day import Boarding
    >>> day = LivewellDay(volume_l=75, hours=8, boardings=(Boarding(0, 18, 300),), temperature_c=24.0)
    >>> [round(course.last, 1) for course in (build_up_mg_l(day).low, build_up_mg_l(day).high)]
    [1.4, 7.5]
    """
    lake = within("lake_mg_l", lake_mg_l, 0, 100, gettext_noop("The lake water’s ammonia"), "mg/L")
    gain = given_off_mg_n(1.0, quotient)
    return day.build_up(gain=gain, start=lake, fresh=lake, loss_per_h=lambda hour: NOTHING)
