"""Temperatures as a thermometer shows them: a figure and its unit, °F or °C, never guessed."""

import re
from dataclasses import dataclass
from decimal import Decimal

from weighin.events.domain.faults import AIR_OUTSIDE_RANGE, NO_UNIT, NOT_A_TEMPERATURE, WATER_OUTSIDE_RANGE
from weighin.rules.faults import Sentence
from weighin.ui import figures

_WRITTEN = re.compile(r"(?P<figure>[+-]?[0-9]{1,4}(?:\.[0-9]{1,6})?)\s*°?\s*(?P<unit>[FfCc])\Z")
WATER_C = (Decimal(0), Decimal(45))
AIR_C = (Decimal(-40), Decimal(60))
LONGEST = 20


@dataclass(frozen=True)
class Temperature:
    """A temperature, exact: the figure as written and its unit, ``F`` or ``C``."""

    figure: Decimal
    unit: str

    @property
    def fahrenheit(self) -> Decimal:
        """In °F, exact."""
        return self.figure if self.unit == "F" else self.figure * 9 / 5 + 32

    @property
    def celsius(self) -> Decimal:
        """In °C (a quotient of 28 digits when written in °F)."""
        return self.figure if self.unit == "C" else (self.figure - 32) * 5 / 9

    def written(self) -> str:
        """As the workbook writes it, such as ``82 F``."""
        return f"{self.figure:f} {self.unit}"


def usual_unit(weight_unit: str, *written: str) -> str:
    """The unit a bare figure is in: the club's; else that of the first of the temperatures ``written`` so far, else ``C`` beside kilograms
    and ``F`` beside pounds."""
    if figures.writing().degrees:
        return figures.writing().degrees
    units = [text.strip()[-1:].upper() for text in written if text.strip()]
    return next((unit for unit in units if unit in ("F", "C")), "C" if weight_unit == "kg" else "F")


def water(text: str) -> Temperature:
    """A water temperature, 0-45 °C. Raises ValueError with a sentence otherwise.

    >>> water("82 F").celsius.quantize(Decimal("0.1"))
    Decimal('27.8')
    """
    return _read(text, WATER_C, WATER_OUTSIDE_RANGE)


def air(text: str) -> Temperature:
    """An air temperature, -40 to 60 °C. Raises ValueError with a sentence otherwise."""
    return _read(text, AIR_C, AIR_OUTSIDE_RANGE)


def _read(text: str, limits: tuple[Decimal, Decimal], outside: Sentence) -> Temperature:
    written = text.strip()
    found = _WRITTEN.match(written) if len(written) <= LONGEST else None
    if found is None:
        bare = re.fullmatch(r"[+-]?[0-9.]+\s*°?", written)
        raise (NO_UNIT if bare else NOT_A_TEMPERATURE).wrong(written=written[:40])
    temperature = Temperature(Decimal(found["figure"]), found["unit"].upper())
    least, most = limits
    if not least <= temperature.celsius <= most:
        least_f, most_f = (f"{limit * 9 / 5 + 32:.0f}" for limit in limits)
        raise outside.wrong(written=written, least=least, most=most, least_f=least_f, most_f=most_f)
    return temperature
