"""Salt for a percentage.

Caution: weigh the salt, non-iodized and without additives, know the volume, dissolve it first, follow the
agency's and the permit's word, and keep brine out of the lake.
"""

from weighin.livewell.figures.ranges import above, gettext_noop, within


def kg_for_percent(volume_l: float, percent: float) -> float:
    """Salt for a share by weight of water at 1 kg/L.

    Parameters
    ----------
    volume_l : float
        Water in L, more than 0, at most 100000.
    percent : float
        0 to 5. Kansas asks for 0.5 % in release tanks, or a 3 % dip for 10 to 15 s (K.A.R. 115-7-8).

    Returns
    -------
    float
        kg of salt (sodium chloride).

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(kg_for_percent(volume_l=378.5, percent=0.5), 2)
    1.89
    """
    volume = above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L")
    return volume * within("percent", percent, 0, 5, gettext_noop("The salt"), "%") / 100


def percent_of(volume_l: float, salt_kg: float) -> float:
    """The percentage that so much salt gives.

    Parameters
    ----------
    volume_l : float
        Water in L, more than 0, at most 100000.
    salt_kg : float
        0 to 5 % of the water's weight.

    Returns
    -------
    float
        Per cent; ten times it is about the salinity in parts per thousand that `oxygen` takes.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> percent_of(volume_l=200, salt_kg=1)
    0.5
    """
    volume = above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L")
    return 100 * within("salt_kg", salt_kg, 0, 0.05 * volume, gettext_noop("The salt"), "kg") / volume
