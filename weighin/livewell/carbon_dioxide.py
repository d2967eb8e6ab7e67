"""Carbon dioxide building up in a recirculated well, and the pH that follows from it.

It builds up even where oxygen is full: pure oxygen bubbles drive none out, a shut lid keeps it in.
"""

from math import log10

from weighin.livewell import transfer
from weighin.livewell.day import LivewellDay
from weighin.livewell.figures.course import Band
from weighin.livewell.figures.estimate import NOTHING, Estimate, exactly
from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, temperature, within

HAULING_LIMIT_MG_L = 20.0  # advice for hauling fish: keep under (Piper et al. 1982, Fish Hatchery Management)
IN_AIR_BALANCE_MG_L = 0.6  # what aerated fresh water holds at 20 to 30 °C and 420 ppm in the air
GRAMS_PER_MOLE = 44.010
OXYGEN_GRAMS_PER_MOLE = 31.998
GRAMS_CACO3_PER_EQUIVALENT = 50.04
QUOTIENT = 0.85  # moles of carbon dioxide given off per mole of oxygen used: fat 0.7, protein 0.9, sugar 1.0

# The surface lets carbon dioxide through more slowly than oxygen: square root of the Schmidt numbers 530 and
# 600 (fresh water, 20 °C; Wanninkhof 1992, J. Geophys. Res. 97, 7373-7382).
OF_OXYGEN_TRANSFER = 0.94


def given_off_mg(oxygen_mg: float, quotient: float = QUOTIENT) -> float:
    """Carbon dioxide given off with so much oxygen used.

    Parameters
    ----------
    oxygen_mg : float
        mg (or mg/L) of oxygen used, 0 or more.
    quotient : float
        Respiratory quotient in moles, 0.6 to 1.5.

    Returns
    -------
    float
        mg (or mg/L).

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(given_off_mg(10.0), 2)
    11.69
    """
    used = within("oxygen_mg", oxygen_mg, 0, 1e12, gettext_noop("The oxygen used"), "mg")
    ratio = within("quotient", quotient, 0.6, 1.5, gettext_noop("The respiratory quotient"))
    return used * ratio * GRAMS_PER_MOLE / OXYGEN_GRAMS_PER_MOLE


def build_up_mg_l(
    day: LivewellDay,
    *,
    vent_per_h: Estimate = NOTHING,
    quotient: float = QUOTIENT,
    lake_mg_l: float = IN_AIR_BALANCE_MG_L,
) -> Band:
    """The well's free carbon dioxide through the day.

    Parameters
    ----------
    day : LivewellDay
    vent_per_h : Estimate
        The coefficient of oxygen transfer, per hour at 20 °C, of whatever reaches open air (`transfer`).
        Nothing, the lid shut, is the default and the cautious side.
    quotient : float
        Respiratory quotient, 0.6 to 1.5.
    lake_mg_l : float
        In the lake water of the filling and the changes, 0 to 100 mg/L; also what venting comes down to.

    Returns
    -------
    Band
        mg/L of free carbon dioxide.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Notes
    -----
    Below about pH 8.3 what the fish give off stays free carbon dioxide; in harder, more alkaline water some
    of the first mg/L is bound, so the answer is a little high there.

    Examples
    --------
    12 lb of 300 g fish in 20 gallons for 8 hours, the lid shut, never changed, and half changed every 2.5
    hours:

    >>> from weighin.livewell.day import Boarding
    >>> from weighin.livewell.water_change import every
    >>> well = {"volume_l": 75.7, "hours": 8, "temperature_c": 24.0, "species": "white_crappie"}
    >>> fish = (Boarding(0, 18, 302),)
    >>> never = build_up_mg_l(LivewellDay(**well, boardings=fish), lake_mg_l=0)
    >>> changes = every(every_h=2.5, hours=8)
    >>> half = build_up_mg_l(LivewellDay(**well, boardings=fish, changes=changes), lake_mg_l=0)
    >>> round(never.stated.last), round(half.stated.highest)
    (33, 18)
    """
    ratio = given_off_mg(1.0, quotient)
    lake = within("lake_mg_l", lake_mg_l, 0, 100, gettext_noop("The lake water’s carbon dioxide"), "mg/L")
    if vent_per_h.low < 0 or vent_per_h.high > 100:
        raise OutOfRange("vent_per_h", gettext_noop("The coefficient of venting is from 0 to 100 per hour."))

    def loss(hour: float) -> Estimate:
        return transfer.at(vent_per_h, day.course_c.at(hour)).times(OF_OXYGEN_TRANSFER)

    return day.build_up(gain=exactly(ratio), start=lake, fresh=lake, loss_per_h=loss)


def ph(*, carbon_dioxide_mg_l: float, alkalinity_mg_l: float, temperature_c: float) -> float:
    """pH of fresh water from its free carbon dioxide and alkalinity.

    Parameters
    ----------
    carbon_dioxide_mg_l : float
        Free carbon dioxide, more than 0, at most 1000 mg/L.
    alkalinity_mg_l : float
        Total alkalinity as CaCO3, more than 0, at most 1000 mg/L (a test strip's figure).
    temperature_c : float
        °C, 0 to 40.

    Returns
    -------
    float
        pH; holds between about 5 and 8.3, where bicarbonate is nearly all the alkalinity.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Notes
    -----
    pH = pK1 + log10(bicarbonate / carbon dioxide) in moles, pK1 by Plummer & Busenberg (1982), Geochim.
    Cosmochim. Acta 46, 1011-1040; activities taken as 1.

    Examples
    --------
    >>> round(ph(carbon_dioxide_mg_l=33, alkalinity_mg_l=80, temperature_c=24), 2)
    6.69
    """
    dissolved = above("carbon_dioxide_mg_l", carbon_dioxide_mg_l, 0, 1000, gettext_noop("The carbon dioxide"), "mg/L")
    return _pk1(temperature_c) + log10(_bicarbonate(alkalinity_mg_l) / (dissolved / GRAMS_PER_MOLE))


def from_ph_mg_l(*, ph: float, alkalinity_mg_l: float, temperature_c: float) -> float:
    """Free carbon dioxide from a pH reading and the alkalinity: the other way round.

    Parameters
    ----------
    ph : float
        5 to 8.4; above, carbon dioxide is negligible and the relation fails.
    alkalinity_mg_l : float
        Total alkalinity as CaCO3, more than 0, at most 1000 mg/L.
    temperature_c : float
        °C, 0 to 40.

    Returns
    -------
    float
        mg/L.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(from_ph_mg_l(ph=7.0, alkalinity_mg_l=100, temperature_c=25), 1)
    19.8
    """
    reading = within("ph", ph, 5, 8.4, gettext_noop("The pH"))
    return float(_bicarbonate(alkalinity_mg_l) * GRAMS_PER_MOLE * 10 ** (_pk1(temperature_c) - reading))


def _bicarbonate(alkalinity_mg_l: float) -> float:
    alkalinity = above("alkalinity_mg_l", alkalinity_mg_l, 0, 1000, gettext_noop("The alkalinity"), "mg/L")
    return alkalinity / GRAMS_CACO3_PER_EQUIVALENT


def _pk1(temperature_c: float) -> float:
    kelvin = temperature("temperature_c", temperature_c) + 273.15
    return 356.3094 + 0.06091964 * kelvin - 21834.37 / kelvin - 126.8339 * log10(kelvin) + 1684915 / kelvin**2
