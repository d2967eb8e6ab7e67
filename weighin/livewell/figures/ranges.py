"""Range checks whose messages can be shown to the person who typed the number."""

import reprlib
from collections.abc import Callable
from math import isfinite
from typing import Any


class OutOfRange(ValueError):
    """A number the models must not be asked about.

    Attributes
    ----------
    name : str
        The argument's name, so that a form can put the sentence at its field.
    text : str
        The sentence, with named places for ``params``; ``what`` among them is a text for people too.
    """

    def __init__(self, name: str, text: str, **params: object) -> None:
        super().__init__(name, text, params)
        self.name = name
        self.text = text
        self.params = params

    def __str__(self) -> str:
        """The sentence in the language active now."""
        what = {name: _look_up(str(value)) for name, value in self.params.items() if name == "what"}
        return _look_up(self.text) % {**self.params, **what} if self.params else _look_up(self.text)

    def at(self, name: str) -> "OutOfRange":
        """The same of the argument that another function calls ``name``."""
        return OutOfRange(name, self.text, **self.params)


def gettext_noop(text: str) -> str:
    """Marks a text for the catalogue; it is looked up when the sentence is read."""
    return text


def speak(look_up: Callable[[str], str] = gettext_noop) -> None:
    """From now on sentences ask ``look_up`` for the reader's language; without it they are in English."""
    global _look_up
    _look_up = look_up


_look_up: Callable[[str], str] = gettext_noop
NOT_A_NUMBER = gettext_noop("%(what)s must be a number, not %(value)s.")
FROM_TO = gettext_noop("%(what)s must be from %(low)s to %(high)s, not %(value)s.")
FROM_TO_UNIT = gettext_noop("%(what)s must be from %(low)s to %(high)s %(unit)s, not %(value)s %(unit)s.")
ABOVE = gettext_noop("%(what)s must be more than %(low)s and at most %(high)s, not %(value)s.")
ABOVE_UNIT = gettext_noop("%(what)s must be more than %(low)s and at most %(high)s %(unit)s, not %(value)s %(unit)s.")


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
        raise OutOfRange(name, NOT_A_NUMBER, what=what, value=reprlib.repr(value))
    try:
        result = float(value)
    except (TypeError, ValueError, OverflowError):
        raise OutOfRange(name, NOT_A_NUMBER, what=what, value=reprlib.repr(value)) from None
    if not isfinite(result):
        raise OutOfRange(
            name, gettext_noop("%(what)s must be a finite number, not %(value)s."), what=what, value=result
        )
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
        raise OutOfRange(name, FROM_TO_UNIT if unit else FROM_TO, what=what, **_limits(low, high, result), unit=unit)
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
        raise OutOfRange(name, ABOVE_UNIT if unit else ABOVE, what=what, **_limits(low, high, result), unit=unit)
    return result


def temperature(
    name: str, value: Any, low: float = 0.0, high: float = 40.0, what: str = gettext_noop("The water temperature")
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
        text = gettext_noop(
            "%(what)s must be from %(low)s to %(high)s °C, not %(value)s °C. "
            "If it was read in °F, that is %(celsius)s °C."
        )
        raise OutOfRange(name, text, what=what, **_limits(low, high, result), celsius=f"{celsius:.1f}")
    return within(name, result, low, high, what, "°C")


def keep(instance: object, name: str, value: object) -> None:
    """Put the checked value into a frozen dataclass, from its own `__post_init__`: a Decimal comes out a float."""
    object.__setattr__(instance, name, value)


def _limits(low: float, high: float, value: float) -> dict[str, str]:
    return {"low": f"{low:.12g}", "high": f"{high:.12g}", "value": f"{value:.12g}"}
