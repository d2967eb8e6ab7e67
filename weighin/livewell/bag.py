"""Minutes in a weigh-in bag until its oxygen reaches a floor."""

from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, within
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.respiration import SUNFISH, checked_times_rest, estimate_mg_per_kg_h

FLOOR_MG_L = 5.0  # common practice, no source; a Mississippi State summary says 5.5


def minutes_until_floor(
    *,
    water_l: float,
    fish_kg: float,
    mass_g: float,
    temperature_c: float,
    species: str = SUNFISH,
    times_rest: float = 1.0,
    start_mg_l: float | None = None,
    floor_mg_l: float = FLOOR_MG_L,
    pressure_mmhg: float = 760.0,
) -> Estimate:
    """How long the oxygen of a closed bag lasts.

    Nothing enters through the bag: what opening it or a perforated bag in an aerated tank adds is left out,
    so the true time there is longer. Times are for resting fish unless `times_rest` says otherwise; freshly
    caught fish use several times more. Measure.

    Parameters
    ----------
    water_l : float
        Water in the bag in L, more than 0, at most 1000; the fish not counted.
    fish_kg : float
        Fish in the bag in kg, more than 0, at most as many kg as there are L of water.
    mass_g : float
        Mass of one fish in g, 20 to 10000: small fish use more per kg.
    temperature_c : float
        °C, 0 to 36.
    species : str
        A species of `respiration`, or 'sunfish' for the range over the family.
    times_rest : float
        Times the resting rate, 0.5 to 10.
    start_mg_l : float, optional
        Oxygen at the start, 0 to 40 mg/L; saturation when left out, which a bag filled from a crowded
        livewell has not.
    floor_mg_l : float
        0 to 20 mg/L.
    pressure_mmhg : float
        Station pressure.

    Returns
    -------
    Estimate
        Minutes; `low` for the fastest use. 0 when the bag starts at the floor or below.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> bag = {"water_l": 7.57, "fish_kg": 6.8, "mass_g": 300, "temperature_c": 28}
    >>> minutes = minutes_until_floor(**bag, species="white_crappie")
    >>> round(minutes.stated, 1)
    3.4
    """
    water = above("water_l", water_l, 0, 1000, gettext_noop("The water in the bag"), "L")
    fish = above("fish_kg", fish_kg, 0, 1000, gettext_noop("The fish in the bag"), "kg")
    if fish > water:
        raise OutOfRange(
            "fish_kg",
            gettext_noop("%(fish)s kg of fish need more water than %(water)s L: put fewer in the bag."),
            fish=f"{fish:g}",
            water=f"{water:g}",
        )
    use = estimate_mg_per_kg_h(species, mass_g, temperature_c).times(checked_times_rest(times_rest) * fish / water)
    full = saturation_mg_l(temperature_c, pressure_mmhg)
    start = (
        full
        if start_mg_l is None
        else within("start_mg_l", start_mg_l, 0, 40, gettext_noop("The oxygen at the start"), "mg/L")
    )
    spare = max(0.0, start - within("floor_mg_l", floor_mg_l, 0, 20, gettext_noop("The floor of oxygen"), "mg/L"))
    return Estimate(60 * spare / use.high, 60 * spare / use.stated, 60 * spare / use.low)
