"""Weights as a scale of each unit shows them, counted in the scale's smallest step."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

POUNDS_A_KILOGRAM = 1 / 0.45359237


@dataclass(frozen=True)
class Scale:
    """A scale that shows ``per_unit`` steps a pound (``lb``, ``lb-oz``) or kilogram (``kg``)."""

    unit: str
    per_unit: int

    def steps(self, pounds: float) -> int:
        """The steps the scale shows for a true weight in pounds."""
        weight = pounds / POUNDS_A_KILOGRAM if self.unit == "kg" else pounds
        return round(weight * self.per_unit)

    def show(self, steps: int) -> Decimal | str:
        """What is written in the workbook: a number, or text such as ``9-07.5`` for pounds and ounces."""
        if self.unit != "lb-oz":
            return Decimal(steps) / self.per_unit
        pounds, rest = divmod(steps, self.per_unit)
        ounces = Fraction(rest * 16, self.per_unit)
        half = ".5" if ounces.denominator == 2 else ""
        return f"{pounds}-{int(ounces):02d}{half}"


POUNDS = Scale("lb", 100)
OUNCES = Scale("lb-oz", 32)
KILOGRAMS = Scale("kg", 200)
