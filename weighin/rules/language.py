"""The reader's language: a hook, so that pure code can say sentences and knows nothing of Django.

Without a catalogue every text stays as it is written, in English. The site sets Django's own functions
(``ui.apps``), which look up the catalogue of the language that is active when they are called.
"""

from collections.abc import Callable
from decimal import Decimal


def _as_written(text: str) -> str:
    return text


def _one_or_many(one: str, many: str, number: int) -> str:
    return one if number == 1 else many


_look_up: Callable[[str], str] = _as_written
_look_up_number: Callable[[str, str, int], str] = _one_or_many


def gettext(text: str) -> str:
    """``text`` in the language active now."""
    return _look_up(text)


def ngettext(one: str, many: str, number: int | Decimal) -> str:
    """``one`` or ``many`` in the form that the language active now has for ``number``; 1.5 are several."""
    return _look_up_number(one, many, int(number) if number == int(number) else 2)


def speak(
    look_up: Callable[[str], str] = _as_written, look_up_number: Callable[[str, str, int], str] = _one_or_many
) -> None:
    """From now on ``gettext`` and ``ngettext`` ask these two; without them they say what is written."""
    global _look_up, _look_up_number
    _look_up, _look_up_number = look_up, look_up_number
