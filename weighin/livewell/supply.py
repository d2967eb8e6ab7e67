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
