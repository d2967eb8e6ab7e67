"""Cell texts to exact values: weights, numbers, money, temperatures, yes and no.

Weights are Fractions of a pound in `lb` and `lb-oz` events and of a kilogram in `kg` events
("`lb` and `lb-oz` events count in pounds (1 oz = 0.0625 lb exactly), `kg` events in kilograms").
Only valid texts are expected; anything else raises ValueError.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

POUNDS_PER_KILOGRAM = Fraction(1) / Fraction("0.45359237")  # 1 lb = 0.45359237 kg exactly
OUNCE = Fraction(1, 16)

_NUMBER = r"\d+(?:\.\d+)?|\.\d+"


def given(text: object) -> bool:
    """As written: "an empty optional cell means 'not recorded', never zero"."""
    return text is not None and str(text).strip() != ""


def number(text: str) -> Fraction:
    """A plain number, exact."""
    return Fraction(Decimal(text.strip()))


def whole(text: str) -> int:
    """A whole number."""
    value = number(text)
    if value.denominator != 1:
        raise ValueError(f"not a whole number: {text!r}")
    return int(value)


def numbers(text: str) -> list[Fraction]:
    """As written: "lists are separated by commas"."""
    return [number(part) for part in text.split(",")]


def yes(text: str) -> bool:
    """As written: "yes/no also as true/false, y/n, 1/0"."""
    word = text.strip().lower()
    if word in ("yes", "y", "true", "1"):
        return True
    if word in ("no", "n", "false", "0"):
        return False
    raise ValueError(f"neither yes nor no: {text!r}")


def _ounces(text: str) -> Fraction:
    """`07.5`, `7 1/2`, `7`."""
    value = Fraction(0)
    for part in text.split():
        value += Fraction(part) if "/" in part else number(part)
    return value


def weight(text: str, unit: str) -> Fraction:
    """As written: "Weights read: lb events `9.47`, `9.47 lb`; lb-oz events `9-07.5`, `9-7 1/2`, `9 lb 7.5
    oz`, `9 lb`, `7 oz` (a bare decimal is a fault there, 0 excepted); kg events `4.295`, `4.295 kg`"."""
    text = text.strip()
    if unit in ("lb", "kg"):
        match = re.fullmatch(rf"({_NUMBER})\s*(?:{unit})?", text)
        if not match:
            raise ValueError(f"not a weight in {unit}: {text!r}")
        return number(match[1])
    if re.fullmatch(r"0+(\.0+)?", text):
        return Fraction(0)
    if match := re.fullmatch(r"(\d+)-(.+)", text):
        return whole(match[1]) + _ounces(match[2]) * OUNCE
    if match := re.fullmatch(r"(\d+)\s*lb(?:\s+(.+?)\s*oz)?", text):
        return whole(match[1]) + (_ounces(match[2]) * OUNCE if match[2] else Fraction(0))
    if match := re.fullmatch(r"(.+?)\s*oz", text):
        return _ounces(match[1]) * OUNCE
    raise ValueError(f"not a weight in lb-oz: {text!r}")


def weights(text: str, unit: str) -> list[Fraction]:
    """A list of weights, separated by commas."""
    return [weight(part, unit) for part in text.split(",")]


def fahrenheit(text: str) -> Fraction:
    """`82 F` or `27.8 C`, exactly in degrees Fahrenheit."""
    match = re.fullmatch(r"(-?[\d.]+)\s*([FC])", text.strip())
    if not match:
        raise ValueError(f"a temperature without a unit: {text!r}")
    value = number(match[1])
    return value if match[2] == "F" else value * Fraction(9, 5) + 32


def whole_pounds(total: Fraction, unit: str) -> int:
    """As written: "whole pounds of total (kg converted exactly, then floored; never negative)"."""
    pounds = total * POUNDS_PER_KILOGRAM if unit == "kg" else total
    return max(0, pounds.numerator // pounds.denominator)


def down_to(amount: Fraction, step: Fraction) -> Fraction:
    """The largest multiple of `step` not above `amount`."""
    quotient = amount / step
    return (quotient.numerator // quotient.denominator) * step


CENT = Fraction(1, 100)
