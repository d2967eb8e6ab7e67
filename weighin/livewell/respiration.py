"""Oxygen used by resting, unfed fish: published curves, and their range over the sunfish family.

No curve for black crappie exists. The white crappie curve rises only 1.27-fold per 10 °C and understates
heat, so a crappie's figure is best given as the range over the sunfish family (`sunfish_mg_per_kg_h`).
Freshly caught fish use several times the resting rate (from memory of the exercise literature; largemouth
were largely recovered after 4 h, Suski et al. 2006, J. Fish Biol. 68, 120-136): the callers' `times_rest`.
"""

from dataclasses import dataclass
from math import exp, log, sqrt

from weighin.livewell.figures.estimate import Estimate, exactly
from weighin.livewell.figures.ranges import OutOfRange, gettext_noop, temperature, within

SUNFISH = "sunfish"
LIGHTEST_G, HEAVIEST_G = 20.0, 10_000.0


@dataclass(frozen=True)
class Curve:
    """Respiration of one species, g O2 per g fish and day = a W^b f(T), W in g and T in °C.

    Without an optimum f = exp(q T + activity); with one f is the dome of Kitchell et al. (1977), q its Q10.
    """

    name: str
    a: float
    b: float
    q: float
    highest_c: float
    source: str
    activity: float = 0.0
    optimum_c: float | None = None
    maximum_c: float | None = None

    def by_temperature(self, t: float) -> float:
        if self.optimum_c is None or self.maximum_c is None:
            return exp(self.q * t + self.activity)
        span = self.maximum_c - self.optimum_c
        z, y = log(self.q) * span, log(self.q) * (span + 2)
        x = z**2 * (1 + sqrt(1 + 40 / y)) ** 2 / 400
        v = (self.maximum_c - t) / span
        return float(v**x) * exp(x * (1 - v))

    def mg_per_kg_h(self, mass_g: float, t: float) -> float:
        return float(self.a * mass_g**self.b) * self.by_temperature(t) * 1e6 / 24


CURVES = {
    "white_crappie": Curve(
        "white crappie", 0.02366, -0.623, 0.0237, 36.0, "Bajer et al. 2004, after Zweifel 2000; adults"
    ),
    "largemouth_bass": Curve(
        "largemouth bass", 0.008352, -0.355, 0.0313, 36.0, "Rice et al. 1983; adults", activity=0.0196
    ),
    "bluegill": Curve(
        "bluegill", 0.0154, -0.2, 2.1, 36.0, "Kitchell et al. 1974; adults", optimum_c=36.0, maximum_c=40.0
    ),
    "walleye": Curve(
        "walleye", 0.0108, -0.2, 2.1, 31.0, "Kitchell et al. 1977; adults", optimum_c=27.0, maximum_c=32.0
    ),
}
SUNFISH_FAMILY = ("white_crappie", "largemouth_bass", "bluegill")


def routine_mg_per_kg_h(species: str, mass_g: float, temperature_c: float) -> float:
    """Oxygen used by a resting fish of one species.

    Parameters
    ----------
    species : str
        white_crappie, largemouth_bass, bluegill or walleye.
    mass_g : float
        Mass of one fish in g, 20 to 10000. The curves were fitted to adults of ordinary size: at the ends of
        this range they are carried on.
    temperature_c : float
        Water temperature in °C, 0 to 36, walleye to 31: beyond, the curves were not measured or fall off.

    Returns
    -------
    float
        mg of oxygen per kg of fish and hour, at rest.

    Raises
    ------
    OutOfRange
        For a species without a curve, or outside the ranges above (a ValueError).

    References
    ----------
    Parameters as in Fish Bioenergetics 4.0 (Deslauriers et al. 2017, Fisheries 42, 586-596); of each curve in
    `CURVES`.

    Examples
    --------
    >>> round(routine_mg_per_kg_h("white_crappie", mass_g=300, temperature_c=25), 2)
    51.04
    """
    curve = _curve(species)
    mass = within("mass_g", mass_g, LIGHTEST_G, HEAVIEST_G, gettext_noop("The mass of a fish"), "g")
    t = temperature(
        "temperature_c", temperature_c, high=curve.highest_c, what=f"The water temperature for {curve.name}"
    )
    return curve.mg_per_kg_h(mass, t)


def sunfish_mg_per_kg_h(mass_g: float, temperature_c: float) -> Estimate:
    """Oxygen used by a resting sunfish (crappie, bass, bluegill): least, middle and most of the family's
    curves.

    Parameters
    ----------
    mass_g, temperature_c : float
        As for `routine_mg_per_kg_h`; temperature 0 to 36 °C.

    Returns
    -------
    Estimate
        mg per kg and hour. Its ends are the spread between published species, not a confidence interval: a
        black crappie may lie outside.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Notes
    -----
    Smallmouth bass is left out: its published sets differ more than twofold between themselves.

    Examples
    --------
    >>> use = sunfish_mg_per_kg_h(mass_g=300, temperature_c=25)
    >>> round(use.low), round(use.stated), round(use.high)
    (51, 102, 119)
    """
    low, middle, high = sorted(routine_mg_per_kg_h(each, mass_g, temperature_c) for each in SUNFISH_FAMILY)
    return Estimate(low, middle, high)


def estimate_mg_per_kg_h(species: str, mass_g: float, temperature_c: float) -> Estimate:
    """`sunfish_mg_per_kg_h` for 'sunfish', else the one species' curve as an estimate without ends.

    Examples
    --------
    >>> round(estimate_mg_per_kg_h("walleye", mass_g=1000, temperature_c=20).low, 1)
    85.3
    """
    if species == SUNFISH:
        return sunfish_mg_per_kg_h(mass_g, temperature_c)
    return exactly(routine_mg_per_kg_h(species, mass_g, temperature_c))


def checked_species(species: str) -> str:
    """A species with a curve, or 'sunfish'."""
    if species != SUNFISH:
        _curve(species)
    return species


def checked_times_rest(times_rest: float) -> float:
    """How many times the resting rate: 0.5 to 10."""
    return within("times_rest", times_rest, 0.5, 10, gettext_noop("The number of times the resting rate"))


def _curve(species: str) -> Curve:
    curve = CURVES.get(species) if isinstance(species, str) else None
    if curve is None:
        raise OutOfRange(
            "species",
            gettext_noop(
                "There is no published curve for %(species)s, only for %(CURVES)s; for crappie take 'sunfish', the range over the family."
            ),
            species=species,
            CURVES=", ".join(CURVES),
        )
    return curve
