"""Ice for a drop in temperature, and the temperature after so much ice.

An energy balance of water and ice alone. The hull, the lid and the fish are left out: a kilogram of fish
wants about as much ice as a kilogram of water, so add the fish's mass to the volume when it matters. Ice in
sealed bottles cools as much and dilutes nothing. A much repeated rule, an 8-lb block for 10 °F in 30 gallons,
does not balance: it gives 6.1 °F.

Caution: insulated gloves; no dry ice in a livewell or cabin; ice made of tap water may carry chlorine.
"""

from dataclasses import dataclass

from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, temperature, within

WATER_KJ_PER_KG_C = 4.186
ICE_KJ_PER_KG_C = 2.09
FUSION_KJ_PER_KG = 333.55
COLDEST_ICE_C = -40.0


@dataclass(frozen=True)
class Melt:
    """What so much ice does.

    Attributes
    ----------
    temperature_c : float
        Of the water when ice and water are as warm as each other; 0 while ice is left.
    melted_kg : float
        Ice that melted; below 0 when very cold ice froze some of the water.
    left_kg : float
        Ice still there.
    """

    temperature_c: float
    melted_kg: float
    left_kg: float


def kg_for_drop(volume_l: float, from_c: float, to_c: float, ice_c: float = 0.0) -> float:
    """Ice that takes water down to a temperature, all of it melted.

    Parameters
    ----------
    volume_l : float
        Water in L (1 kg each), more than 0, at most 100000.
    from_c, to_c : float
        °C, 0 to 40, `to_c` not above `from_c`.
    ice_c : float
        The ice's own temperature in °C, -40 to 0; a freezer's -18 saves a twelfth of the ice.

    Returns
    -------
    float
        kg of ice.

    Raises
    ------
    OutOfRange
        Outside the ranges above, or when the water is to get warmer (a ValueError).

    Notes
    -----
    m = V cw (T0 - Tf) / (ci (0 - Ti) + L + cw Tf), with cw 4.186, ci 2.09 kJ/kg/K and L 333.55 kJ/kg.

    Examples
    --------
    >>> round(kg_for_drop(volume_l=75, from_c=29, to_c=25), 2)
    2.87
    """
    volume, start, ice = _checked(volume_l, from_c, ice_c)
    end = temperature("to_c", to_c, what=gettext_noop("The temperature wanted"))
    if end > start:
        raise OutOfRange(
            "to_c",
            gettext_noop("Ice cannot warm water from %(start)s to %(end)s °C."),
            start=f"{start:g}",
            end=f"{end:g}",
        )
    taken_up = -ICE_KJ_PER_KG_C * ice + FUSION_KJ_PER_KG + WATER_KJ_PER_KG_C * end
    return volume * WATER_KJ_PER_KG_C * (start - end) / taken_up


def melt(volume_l: float, from_c: float, ice_kg: float, ice_c: float = 0.0) -> Melt:
    """What so much ice does to the water, down to the case that not all of it melts.

    Parameters
    ----------
    volume_l, from_c, ice_c : float
        As for `kg_for_drop`.
    ice_kg : float
        0 up to the water's own mass.

    Returns
    -------
    Melt
        At 0 °C with ice left when the water cannot melt all of it.

    Raises
    ------
    OutOfRange
        Outside the ranges above, or when the ice is heavier than the water (a ValueError).

    Examples
    --------
    >>> melt(volume_l=10, from_c=20, ice_kg=5)
    Melt(temperature_c=0.0, melted_kg=2.509..., left_kg=2.490...)
    """
    volume, start, ice = _checked(volume_l, from_c, ice_c)
    mass = within("ice_kg", ice_kg, 0, 100_000, gettext_noop("The ice"), "kg")
    if mass > volume:
        raise OutOfRange(
            "ice_kg",
            gettext_noop("%(mass)s kg of ice are heavier than the %(volume)s L of water: check both numbers."),
            mass=f"{mass:g}",
            volume=f"{volume:g}",
        )
    warmth = volume * WATER_KJ_PER_KG_C * start + mass * ICE_KJ_PER_KG_C * ice  # over water and ice at 0 °C
    spare = warmth - mass * FUSION_KJ_PER_KG
    if spare >= 0:
        return Melt(spare / ((volume + mass) * WATER_KJ_PER_KG_C), mass, 0.0)
    melted = warmth / FUSION_KJ_PER_KG  # never so far below 0 that all the water freezes: see the ranges
    return Melt(0.0, melted, mass - melted)


def temperature_after(volume_l: float, from_c: float, ice_kg: float, ice_c: float = 0.0) -> float:
    """The water's temperature when so much ice has melted, 0 °C while ice is left.

    Parameters, range and errors as for `melt`.

    Returns
    -------
    float
        °C.

    Examples
    --------
    >>> round(temperature_after(volume_l=75, from_c=29, ice_kg=2.87), 1)
    25.0
    """
    return melt(volume_l, from_c, ice_kg, ice_c).temperature_c


def _checked(volume_l: float, from_c: float, ice_c: float) -> tuple[float, float, float]:
    return (
        above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L"),
        temperature("from_c", from_c),
        within("ice_c", ice_c, COLDEST_ICE_C, 0, gettext_noop("The temperature of the ice"), "°C"),
    )
