"""Figures as people write them: ``24``, ``24 gal``, ``91 L``, ``80 F``; read into SI and written back.

A bare figure has the unit that stands beside its blank. A unit that is written goes first.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from weighin.livewell.figures import units
from weighin.planning.domain.faults import NO_UNIT, NOT_A_FIGURE_HERE, UNIT_UNKNOWN

US, METRIC = "us", "metric"
SYSTEMS = (US, METRIC)
GRAMS_PER_OUNCE = units.KG_PER_POUND * 1000 / 16

_FIGURE = re.compile(r"(?P<figure>[+-]?(?:[0-9]{1,9}(?:\.[0-9]{0,9})?|\.[0-9]{1,9}))\s*(?P<unit>[^0-9.\s].*)?\Z")


def _same(value: float) -> float:
    return value


@dataclass(frozen=True)
class Unit:
    """A unit: the word shown after a figure, how people may spell it, and the way to SI and back."""

    word: str
    spellings: tuple[str, ...]
    to_si: Callable[[float], float] = _same
    from_si: Callable[[float], float] = _same


def _times(word: str, spellings: str, factor: float) -> Unit:
    return Unit(word, tuple(spellings.split()), lambda value: value * factor, lambda si: si / factor)


@dataclass(frozen=True)
class Quantity:
    """A kind of figure: its unit in each system, and further units that are understood when written."""

    us: Unit
    metric: Unit
    others: tuple[Unit, ...] = ()
    guess: bool = True  # whether a bare figure may take the system's unit when nobody chose the system
    near: float = 0.0  # how far off a rewritten figure may be, where half a per cent of it is no measure

    def unit(self, system: str) -> Unit:
        """The unit of a system; ``us`` for anything but ``metric``."""
        return self.metric if system == METRIC else self.us

    def named(self, spelling: str) -> Unit | None:
        """The unit somebody wrote, by any of its spellings; None for one that is not known."""
        plain = spelling.strip().lower().removeprefix("°").removesuffix(".").strip()
        return next((u for u in (self.us, self.metric, *self.others) if plain in u.spellings), None)


VOLUME = Quantity(
    Unit("gal", ("gal", "gals", "gallon", "gallons"), units.litres, units.gallons),
    Unit("L", ("l", "liter", "liters", "litre", "litres")),
)
TEMPERATURE = Quantity(
    Unit("°F", ("f", "fahrenheit"), units.celsius, units.fahrenheit),
    Unit("°C", ("c", "celsius")),
    guess=False,
    near=0.1,
)
FISH = Quantity(
    _times("lb", "lb lbs pound pounds", units.KG_PER_POUND * 1000),
    _times("kg", "kg kilo kilos", 1000),
    (_times("oz", "oz ounce ounces", GRAMS_PER_OUNCE), _times("g", "g gram grams", 1)),
)
ICE = Quantity(_times("lb", "lb lbs pound pounds", units.KG_PER_POUND), _times("kg", "kg kilo kilos", 1))
ELEVATION = Quantity(_times("ft", "ft foot feet", units.METRES_PER_FOOT), _times("m", "m meter meters metre metres", 1))
FLOW = Quantity(_times("gal/h", "gal/h gph gal/hr", units.LITRES_PER_GALLON), _times("L/h", "l/h lph l/hr", 1))


def _everywhere(word: str, spellings: str) -> Quantity:
    unit = _times(word, spellings, 1)
    return Quantity(unit, unit)


HOURS = _everywhere("h", "h hr hrs hour hours")
MINUTES = _everywhere("min", "min mins minute minutes")
OXYGEN = _everywhere("mg/L", "mg/l ppm")
GAS = _everywhere("L/min", "l/min lpm")


@dataclass(frozen=True)
class Written:
    """A figure somebody wrote: the number and its unit."""

    figure: float
    unit: Unit

    @property
    def si(self) -> float:
        return self.unit.to_si(self.figure)

    def __str__(self) -> str:
        return f"{shortest(self.figure)} {self.unit.word}"


def read(text: str, quantity: Quantity, system: str, chosen: bool = True) -> Written:
    """A written figure; a bare one has the unit of ``system``, which is a guess when nobody has ``chosen`` it.

    Raises ValueError with a sentence for what is no figure, has an unknown unit, or has none where a guess
    will not do.

    >>> read("26.5 °C", TEMPERATURE, US).si
    26.5
    """
    written = text.strip().replace("\u2212", "-").replace("\u00a0", " ")
    found = _FIGURE.match(written)
    if found is None:
        raise NOT_A_FIGURE_HERE.wrong(written=_short(written))
    figure, spelling = float(found["figure"]), found["unit"]
    if spelling is not None:
        unit = quantity.named(spelling)
        if unit is None:
            raise UNIT_UNKNOWN.wrong(spelling=_short(spelling), choice=_choice(quantity))
        return Written(figure, unit)
    if not (chosen or quantity.guess):
        us, metric = quantity.us, quantity.metric
        raise NO_UNIT.wrong(figure=_short(written), unit=us.word, other=metric.word)
    return Written(figure, quantity.unit(system))


def rewritten(written: Written, quantity: Quantity, system: str) -> str:
    """The figure in a system's unit, with as few decimals as read back to what was written and are near it.

    >>> rewritten(read("24", VOLUME, US), VOLUME, METRIC), rewritten(read("80", TEMPERATURE, US), TEMPERATURE, METRIC)
    ('91', '26.7')
    """
    unit = quantity.unit(system)
    if unit == written.unit:
        return shortest(written.figure)
    exact = unit.from_si(written.si)
    decimals = len(shortest(written.figure).partition(".")[2])
    for digits in range(7):
        figure = round(exact, digits)
        back = round(written.unit.from_si(unit.to_si(figure)), decimals)
        if back == round(written.figure, decimals) and abs(figure - exact) <= max(0.005 * abs(exact), quantity.near):
            return shortest(figure)
    return shortest(round(exact, 6))


def shortest(value: float) -> str:
    """A figure without needless decimals and never in powers of ten."""
    return f"{value + 0.0:.6f}".rstrip("0").rstrip(".")


def shown(si: float, quantity: Quantity, system: str, decimals: int = 0) -> str:
    """An SI value as figure and unit of a system: ``shown(26.7, TEMPERATURE, US)`` is 80 °F."""
    return f"{figure(si, quantity, system, decimals)}\u00a0{quantity.unit(system).word}"


def figure(si: float, quantity: Quantity, system: str, decimals: int = 0) -> str:
    """An SI value as the figure alone, commas between thousands; never a minus before nothing."""
    value = round(quantity.unit(system).from_si(si), decimals)
    return f"{value + 0.0:,.{decimals}f}".replace("-", "\u2212")


def _short(text: str) -> str:
    return text if len(text) <= 24 else f"{text[:24]}…"


def _choice(quantity: Quantity) -> str:
    words = list(dict.fromkeys(u.word for u in (quantity.us, quantity.metric, *quantity.others)))
    return " or ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]
