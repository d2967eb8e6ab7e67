"""Oxygen from a cylinder.

Caution: oxygen feeds fire. Secure the cylinder; no flame, smoke, oil or grease; open slowly; vent the lid,
for pure oxygen drives no carbon dioxide out.
"""

from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, within

MG_PER_LITRE = 1309.0  # oxygen at 25 °C and 1 atm: 31.998 g/mol over 24.45 L/mol

# Share of the bubbles' oxygen that dissolves before they reach the surface of a shallow well. Our estimate,
# no source: coarse stone to fine diffuser.
ABSORBED_SHARE = Estimate(0.05, 0.15, 0.4)


def mg_per_h(*, flow_l_per_min: float, absorbed: Estimate = ABSORBED_SHARE) -> Estimate:
    """What a flow of pure oxygen puts into the water.

    Parameters
    ----------
    flow_l_per_min : float
        Gas at the regulator, L/min at 1 atm, 0 to 20; livewell kits give about 0.1.
    absorbed : Estimate
        Share that dissolves, 0 to 1.

    Returns
    -------
    Estimate
        mg/h.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> [round(end) for end in mg_per_h(flow_l_per_min=0.1).ends]
    [393, 1178, 3142]
    """
    flow = within("flow_l_per_min", flow_l_per_min, 0, 20, gettext_noop("The flow of oxygen"), "L/min")
    if absorbed.low < 0 or absorbed.high > 1:
        raise OutOfRange("absorbed", gettext_noop("The share of the oxygen that dissolves is from 0 to 1."))
    return absorbed.times(flow * 60 * MG_PER_LITRE)


def l_per_min_for(*, mg_per_h: Estimate, absorbed: Estimate = ABSORBED_SHARE) -> Estimate:
    """The flow of pure oxygen that gives the water so much.

    Parameters
    ----------
    mg_per_h : Estimate
        What the fish use, 0 or more.
    absorbed : Estimate
        Share that dissolves, more than 0, at most 1.

    Returns
    -------
    Estimate
        L/min of gas at 1 atm; ``low`` for the least use and the best diffuser.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> from weighin.livewell.figures.estimate import exactly
    >>> [round(end, 2) for end in l_per_min_for(mg_per_h=exactly(1178)).ends]
    [0.04, 0.1, 0.3]
    """
    if mg_per_h.low < 0:
        raise OutOfRange("mg_per_h", gettext_noop("The oxygen that fish use is 0 or more."))
    if absorbed.low <= 0 or absorbed.high > 1:
        raise OutOfRange("absorbed", gettext_noop("The share of the oxygen that dissolves is from 0 to 1."))
    a_minute = 60 * MG_PER_LITRE
    return Estimate(
        mg_per_h.low / absorbed.high / a_minute,
        mg_per_h.stated / absorbed.stated / a_minute,
        mg_per_h.high / absorbed.low / a_minute,
    )
