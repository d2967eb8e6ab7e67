"""Read written values: whole numbers, decimals, money, yes and no, choices and lists.

Every reader takes text as a person wrote it and returns an exact value, or raises ``Wrong``
with a sentence that says what is wrong and what to do. Empty text is the caller's business.
"""

import re
from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import TypeVar

from weighin.rules.faults import Fault, Listed, Sentence, Wrong, gettext_noop

NEITHER_YES_NOR_NO = Sentence(
    "neither_yes_nor_no", gettext_noop("'%(written)s' is neither yes nor no: write yes or no")
)
NUMBER_HAS_COMMA = Sentence(
    "number_has_comma", gettext_noop("'%(written)s' has a comma: write one number, with a decimal point")
)
NOT_A_NUMBER = Sentence(
    "not_a_number", gettext_noop("'%(written)s' is not a number: write figures with a decimal point, such as 7 or 0.25")
)
TOO_SMALL = Sentence("too_small", gettext_noop("%(written)s is too small: write %(least)s or more"))
TOO_LARGE = Sentence("too_large", gettext_noop("%(written)s is too large: write %(most)s or less"))
NOT_WHOLE = Sentence(
    "not_whole", gettext_noop("%(written)s is not a whole number: leave out the part behind the point")
)
PARTS_OF_A_CENT = Sentence(
    "parts_of_a_cent", gettext_noop("%(written)s has parts of a cent: write at most two decimals")
)
NOT_A_CHOICE = Sentence("not_a_choice", gettext_noop("'%(text)s' is not one of the choices: %(choices)s"))
EMPTY_ITEM = Sentence(
    "empty_item", gettext_noop("'%(written)s' has an empty place in its list: separate values by single commas")
)
TOO_MANY_CHARACTERS = Sentence(
    "too_many_characters", gettext_noop("this has %(number)s characters: write %(most)s or fewer")
)
LINE_HAS_CONTROLS = Sentence(
    "line_has_controls", gettext_noop("this has line breaks or control characters in it: type it again on one line")
)
NOTHING_SEEN = Sentence(
    "nothing_seen", gettext_noop("nothing can be seen of this: type it again in letters or figures")
)
TEXT_TOO_LONG = Sentence("text_too_long", gettext_noop("this text has %(number)s characters: write %(most)s or fewer"))
TEXT_HAS_CONTROLS = Sentence("text_has_controls", gettext_noop("this text has control characters in it: type it again"))
NOT_A_WHOLE_NUMBER = Sentence(
    "not_a_whole_number", gettext_noop("'%(written)s' is not a whole number: write figures only, such as 7")
)

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

    Raises Wrong for a comma, an exponent, other text, or a value outside ``least`` to ``most``.
    """
    written = text.strip()
    if "," in written:
        raise NUMBER_HAS_COMMA.wrong(written=written)
    if len(written) > 40 or not _DIGITS.match(written):
        raise NOT_A_NUMBER.wrong(written=_short(written))
    number = Decimal(written)
    if least is not None and number < least:
        raise TOO_SMALL.wrong(written=written, least=least)
    if number > most:
        raise TOO_LARGE.wrong(written=written, most=most)
    return number


def whole(text: str, *, least: int = 0, most: int = 1_000_000) -> int:
    """A whole number; ``7.0`` is accepted as 7. Raises Wrong otherwise."""
    written = text.strip()
    try:
        number = decimal(written, most=ENDLESS)
    except Wrong:
        raise NOT_A_WHOLE_NUMBER.wrong(written=_short(written)) from None
    if number != number.to_integral_value():
        raise NOT_WHOLE.wrong(written=written)
    if number < least:
        raise TOO_SMALL.wrong(written=written, least=least)
    if number > most:
        raise TOO_LARGE.wrong(written=written, most=most)
    return int(number)


def money(text: str) -> Decimal:
    """An amount of money, zero or more, with at most two decimals. Raises Wrong otherwise."""
    amount = decimal(text, least=0)
    if amount != amount.quantize(Decimal("0.01")):
        raise PARTS_OF_A_CENT.wrong(written=text.strip())
    return amount


def yes_no(text: str) -> bool:
    """``yes``/``no``, also y/n, true/false, 1/0. Raises Wrong otherwise."""
    word = text.strip().casefold()
    if word in _YES:
        return True
    if word in _NO:
        return False
    raise NEITHER_YES_NOR_NO.wrong(written=_short(text.strip()))


def choice(text: str, choices: Sequence[str]) -> str:
    """One of ``choices``, matched without case, spaces, hyphens or underscores.

    Raises Wrong that lists the choices.
    """
    known = {folded(c): c for c in choices}
    found = known.get(folded(text))
    if found is None:
        raise NOT_A_CHOICE.wrong(text=_short(text.strip()), choices=Listed(tuple(choices)))
    return found


def items(text: str, read: Callable[[str], T]) -> tuple[T, ...]:
    """A list separated by commas, each item read by ``read``. Raises Wrong for an empty item."""
    parts = [part.strip() for part in text.split(",")]
    if any(not part for part in parts):
        raise EMPTY_ITEM.wrong(written=_short(text.strip()))
    return tuple(read(part) for part in parts)


def line(text: str, most: int = 120) -> str:
    """A name or other single line, at most ``most`` characters, no control characters, something to see in it.

    Raises Wrong otherwise; blank text is the caller's business.
    """
    written = text.strip()
    if len(written) > most:
        raise TOO_MANY_CHARACTERS.wrong(number=len(written), most=most)
    if _CONTROLS.search(written):
        raise LINE_HAS_CONTROLS.wrong()
    if _UNSEEN.match(written):
        raise NOTHING_SEEN.wrong()
    return written


def reason(text: str, missing: Fault, most: int = 300) -> tuple[str, list[Fault]]:
    """A reason on one line of at most ``most`` characters, and what is wrong with it: ``missing`` where it is blank."""
    written = " ".join(text.split())
    try:
        return line(written, most), [] if written else [missing]
    except Wrong as wrong:
        return written, [wrong.at(missing.field)]


def lines(text: str, most: int = 500) -> str:
    """A note of several lines, at most ``most`` characters, no control characters; lines end in ``\\n``.

    Raises Wrong otherwise.
    """
    written = text.replace("\r\n", "\n").replace("\r", "\n")
    if len(written) > most:
        raise TEXT_TOO_LONG.wrong(number=len(written), most=most)
    if _CONTROLS.search(written.replace("\n", "").replace("\t", "")):
        raise TEXT_HAS_CONTROLS.wrong()
    return written


def plain(number: Decimal) -> str:
    """A decimal as plain figures: no exponent, no needless zeros behind the point."""
    text = format(number, "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "..."
