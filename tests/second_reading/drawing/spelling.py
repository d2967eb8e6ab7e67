"""The many ways a workbook may write the same value, chosen by a seeded random generator."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from random import Random

from ..clock import Day


def decimal_text(value: Fraction) -> str:
    """The shortest exact decimal of a terminating fraction."""
    text = format(Decimal(value.numerator) / Decimal(value.denominator), "f")
    if Fraction(text) != value:
        raise ValueError(f"{value} has no exact decimal")
    return text


def weight_text(rng: Random, value: Fraction, unit: str) -> str:
    """A weight in one of the forms its unit allows."""
    if unit in ("lb", "kg"):
        places = 2 if unit == "lb" else 3
        text = decimal_text(value)
        digits = len(text.partition(".")[2])
        if digits < places and rng.random() < 0.7:  # as a scale shows it, with its zeros
            text = f"{text.partition('.')[0]}.{text.partition('.')[2]:0<{places}}"
        return f"{text} {unit}" if rng.random() < 0.15 else text
    if value == 0:
        return rng.choice(["0", "0-00", "0 lb", "0 oz"])
    pounds, ounces = divmod(value * 16, 16)
    whole, part = divmod(ounces, 1)
    decimal = decimal_text(ounces)
    padded = decimal.zfill(2) if part == 0 else f"{int(whole):02d}.{decimal.partition('.')[2]}"
    spoken = f"{whole} {part}" if part else f"{whole}"
    forms = [f"{pounds}-{padded}", f"{pounds}-{spoken}", f"{pounds} lb {decimal} oz"]
    if ounces == 0:
        forms.append(f"{pounds} lb")
    if pounds == 0:
        forms.append(f"{decimal} oz")
    return rng.choice(forms)


def weights_text(rng: Random, values: Sequence[Fraction], unit: str) -> str:
    return rng.choice([", ", ","]).join(weight_text(rng, value, unit) for value in values)


def yes_text(rng: Random, value: bool) -> str:
    return rng.choice(["yes", "yes", "Yes", "y", "true", "1"] if value else ["no", "no", "No", "n", "false", "0"])


def temperature_text(rng: Random, value_f: Fraction) -> str:
    """°F or, where it has one decimal there, °C."""
    celsius = (value_f - 32) * Fraction(5, 9)
    if (celsius * 10).denominator == 1 and rng.random() < 0.5:
        return f"{decimal_text(celsius)} C"
    return f"{decimal_text(value_f)} F"


def moment_text(rng: Random, moment: datetime, day: Day) -> str:
    """A moment as a time of day where that means it, or as an ISO date-time; in UTC seconds exactly."""
    local = moment.astimezone(day.zone)
    forms = [local.isoformat()]
    for text, times in (
        (local.replace(tzinfo=None).isoformat(), 1),
        (local.strftime("%H:%M:%S"), 2),
        (local.strftime("%H:%M"), 6),
    ):
        try:
            same = day.moment(text) == moment
        except ValueError:
            same = False
        if same:
            forms += [text] * times
    return rng.choice(forms)
