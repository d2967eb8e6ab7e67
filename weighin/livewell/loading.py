"""How full a tank is, by the handbook's rule of one pound of fish a gallon.

Weight alone: warm water, small fish and a weak pump fill a tank sooner (`budget.most_kg`).
"""

from weighin.livewell.figures.ranges import above, gettext_noop, within
from weighin.livewell.figures.units import KG_PER_POUND, LITRES_PER_GALLON

HANDBOOK_KG_PER_L = KG_PER_POUND / LITRES_PER_GALLON  # 1 lb a gallon: stop, or open another tank (Keeping Bass Alive)


def share_of_capacity(*, fish_kg: float, volume_l: float, most_kg_per_l: float = HANDBOOK_KG_PER_L) -> float:
    """The load of a tank as a share of what it may hold.

    Parameters
    ----------
    fish_kg : float
        Fish in the tank, 0 to 100000 kg.
    volume_l : float
        Water in L, more than 0, at most 1000000.
    most_kg_per_l : float
        The most allowed, more than 0, at most 1 kg/L.

    Returns
    -------
    float
        1 is full; more is overloaded.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(share_of_capacity(fish_kg=34, volume_l=378.5), 2)
    0.75
    """
    fish = within("fish_kg", fish_kg, 0, 100_000, gettext_noop("The fish in the tank"), "kg")
    volume = above("volume_l", volume_l, 0, 1_000_000, gettext_noop("The water"), "L")
    return fish / (volume * above("most_kg_per_l", most_kg_per_l, 0, 1, gettext_noop("The most fish a liter"), "kg/L"))
