"""Read written values: whole numbers, decimals, money, yes and no, choices and lists.

Every reader takes text as a person wrote it and returns an exact value, or raises ``ValueError``
with a sentence that says what is wrong and what to do. Empty text is the caller's business.
"""

import re
from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import TypeVar

T = TypeVar("T")

_DIGITS = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)\Z")
_YES = {"yes", "y", "true", "1"}
_NO = {"no", "n", "false", "0"}
MOST = Decimal(1_000_000_000)
ENDLESS = Decimal(10) ** 40
# Control characters, those that turn a line round on the page, half characters, and the two that no XML file can hold.
_CONTROLS = re.compile("[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")
_UNSEEN = re.compile("[\\s\u00ad\u034f\u061c\u115f\u1160\u180e\u200b-\u200f\u2060-\u2064\u3164\ufeff\uffa0]+\\Z")


def folded(text: str) -> str:
    """Text without case, spaces, hyphens and underscores: how headers, keys and choices are matched."""
    return re.sub(r"[\s_\-]+", "", text.strip()).casefold()


def decimal(text: str, *, least: Decimal | int | None = None, most: Decimal | int = MOST) -> Decimal:
    """A decimal number with a point, exactly as written.

    Raises ValueError for a comma, an exponent, other text, or a value outside ``least`` to ``most``.
    """
    written = text.strip()
    if "," in written:
        raise ValueError(f"'{written}' has a comma: write one number, with a decimal point")
    if len(written) > 40 or not _DIGITS.match(written):
        raise ValueError(f"'{_short(written)}' is not a number: write figures with a decimal point, such as 7 or 0.25")
    number = Decimal(written)
    if least is not None and number < least:
        raise ValueError(f"{written} is too small: write {least} or more")
    if number > most:
        raise ValueError(f"{written} is too large: write {most} or less")
    return number


def whole(text: str, *, least: int = 0, most: int = 1_000_000) -> int:
    """A whole number; ``7.0`` is accepted as 7. Raises ValueError otherwise."""
    written = text.strip()
    try:
        number = decimal(written, most=ENDLESS)
    except ValueError:
        raise ValueError(f"'{_short(written)}' is not a whole number: write figures only, such as 7") from None
    if number != number.to_integral_value():
        raise ValueError(f"{written} is not a whole number: leave out the part behind the point")
    if number < least:
        raise ValueError(f"{written} is too small: write {least} or more")
    if number > most:
        raise ValueError(f"{written} is too large: write {most} or less")
    return int(number)


def money(text: str) -> Decimal:
    """An amount of money, zero or more, with at most two decimals. Raises ValueError otherwise."""
    amount = decimal(text, least=0)
    if amount != amount.quantize(Decimal("0.01")):
        raise ValueError(f"{text.strip()} has parts of a cent: write at most two decimals")
    return amount


def yes_no(text: str) -> bool:
    """``yes``/``no``, also y/n, true/false, 1/0. Raises ValueError otherwise."""
    word = text.strip().casefold()
    if word in _YES:
        return True
    if word in _NO:
        return False
    raise ValueError(f"'{_short(text.strip())}' is neither yes nor no: write yes or no")


def choice(text: str, choices: Sequence[str]) -> str:
    """One of ``choices``, matched without case, spaces, hyphens or underscores.

    Raises ValueError that lists the choices.
    """
    known = {folded(c): c for c in choices}
    found = known.get(folded(text))
    if found is None:
        raise ValueError(f"'{_short(text.strip())}' is not one of the choices: {', '.join(choices)}")
    return found


def items(text: str, read: Callable[[str], T]) -> tuple[T, ...]:
    """A list separated by commas, each item read by ``read``. Raises ValueError for an empty item."""
    parts = [part.strip() for part in text.split(",")]
    if any(not part for part in parts):
        raise ValueError(f"'{_short(text.strip())}' has an empty place in its list: separate values by single commas")
    return tuple(read(part) for part in parts)


def line(text: str, most: int = 120) -> str:
    """A name or other single line, at most ``most`` characters, no control characters, something to see in it.

    Raises ValueError otherwise; blank text is the caller's business.
    """
    written = text.strip()
    if len(written) > most:
        raise ValueError(f"this has {len(written)} characters: write {most} or fewer")
    if _CONTROLS.search(written):
        raise ValueError("this has line breaks or control characters in it: type it again on one line")
    if _UNSEEN.match(written):
        raise ValueError("nothing can be seen of this: type it again in letters or figures")
    return written


def lines(text: str, most: int = 500) -> str:
    """A note of several lines, at most ``most`` characters, no control characters; lines end in ``\\n``.

    Raises ValueError otherwise.
    """
    written = text.replace("\r\n", "\n").replace("\r", "\n")
    if len(written) > most:
        raise ValueError(f"this text has {len(written)} characters: write {most} or fewer")
    if _CONTROLS.search(written.replace("\n", "").replace("\t", "")):
        raise ValueError("this text has control characters in it: type it again")
    return written


def plain(number: Decimal) -> str:
    """A decimal as plain figures: no exponent, no needless zeros behind the point."""
    text = format(number, "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "..."
