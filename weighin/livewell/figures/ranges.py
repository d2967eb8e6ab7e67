"""Range checks whose messages can be shown to the person who typed the number."""

import reprlib
from math import isfinite
from typing import Any


class OutOfRange(ValueError):
    """A number the models must not be asked about.

    Attributes
    ----------
    name : str
        The argument's name, so that a form can put the sentence at its field.
    """

    def __init__(self, name: str, sentence: str) -> None:
        super().__init__(sentence)
        self.name = name


def number(name: str, value: Any, what: str) -> float:
    """`value` as a finite float.

    Raises
    ------
    OutOfRange
        When it is no number, not a number (nan) or infinite.

    Examples
    --------
    >>> number("volume_l", "75", "The volume")
    Traceback (most recent call last):
    weighin.livewell.figures.ranges.OutOfRange: The volume must be a number, not '75'.
    """
    if isinstance(value, (bool, str)):
        raise OutOfRange(name, f"{what} must be a number, not {reprlib.repr(value)}.")
    try:
        result = float(value)
    except (TypeError, ValueError, OverflowError):
        raise OutOfRange(name, f"{what} must be a number, not {reprlib.repr(value)}.") from None
    if not isfinite(result):
        raise OutOfRange(name, f"{what} must be a finite number, not {result}.")
    return result


def within(name: str, value: Any, low: float, high: float, what: str, unit: str = "") -> float:
    """`value` as a float from `low` to `high`, both allowed.

    Examples
    --------
    >>> within("percent", 12, 0, 5, "The salt", "%")
    Traceback (most recent call last):
    weighin.livewell.figures.ranges.OutOfRange: The salt must be from 0 to 5 %, not 12 %.
    """
    result = number(name, value, what)
    if not low <= result <= high:
        sentence = f"{what} must be from {low:.12g} to {high:.12g} {unit}".rstrip()
        raise OutOfRange(name, sentence + _not(result, unit))
    return result


def above(name: str, value: Any, low: float, high: float, what: str, unit: str = "") -> float:
    """`value` as a float above `low`, at most `high`.

    Examples
    --------
    >>> above("volume_l", 0, 0, 100_000, "The water", "L")
    Traceback (most recent call last):
    weighin.livewell.figures.ranges.OutOfRange: The water must be more than 0 and at most 100000 L, not 0 L.
    """
    result = number(name, value, what)
    if not low < result <= high:
        sentence = f"{what} must be more than {low:.12g} and at most {high:.12g} {unit}".rstrip()
        raise OutOfRange(name, sentence + _not(result, unit))
    return result


def temperature(
    name: str, value: Any, low: float = 0.0, high: float = 40.0, what: str = "The water temperature"
) -> float:
    """A temperature in °C from `low` to `high`; a number that looks like °F is told so.

    Examples
    --------
    >>> temperature("temperature_c", 78)
    Traceback (most recent call last):
    weighin.livewell.figures.ranges.OutOfRange: The water temperature must be from 0 to 40 °C, not 78 °C. \
If it was read in °F, that is 25.6 °C.
    """
    result = number(name, value, what)
    celsius = (result - 32) / 1.8
    if result > high and low <= celsius <= high:
        sentence = f"{what} must be from {low:.12g} to {high:.12g} °C{_not(result, '°C')}"
        raise OutOfRange(name, f"{sentence} If it was read in °F, that is {celsius:.1f} °C.")
    return within(name, result, low, high, what, "°C")


def keep(instance: object, name: str, value: object) -> None:
    """Put the checked value into a frozen dataclass, from its own `__post_init__`: a Decimal comes out a float."""
    object.__setattr__(instance, name, value)


def _not(value: float, unit: str) -> str:
    return f", not {value:.12g} {unit}".rstrip() + "."
