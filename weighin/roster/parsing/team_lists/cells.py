"""Cells of a list of teams: names, boat numbers, and yes, no or an amount."""

import re
import unicodedata
from collections.abc import Sequence
from decimal import Decimal

from weighin.roster.domain.list_faults import (
    DECIMAL_COMMA,
    NO_AT_SIGN,
    NO_FLIGHT,
    NO_FLIGHTS,
    NO_STATUS,
    NOT_A_BOAT,
    NOT_PAID_OR_NOT,
    NOT_YOUTH,
    OTHER_AMOUNT,
)
from weighin.roster.parsing.contacts import LONGEST
from weighin.rules import values
from weighin.rules.faults import Listed, Wrong
from weighin.rules.look_alikes import name_line
from weighin.rules.results import ROSTER_STATUSES
from weighin.ui.figures import money as money_said

YES = frozenset({"y", "yes", "x", "true", "1", "paid", "\u2713", "\u2714", "\u2611", "\u2705", "\u221a", "\U0001f5f8"})
NO = frozenset({"n", "no", "false", "0", "unpaid"})
MOST_BOAT = 2_000_000_000
_BETWEEN = re.compile(r"\s+&\s+|\s+and\s+|\s+/\s+|;|[\r\n]+", re.IGNORECASE)
_AMOUNT = re.compile(r"(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(?:\.[0-9]*)?\Z|\.[0-9]+\Z")
_WITH_COMMA = re.compile(r"[0-9.,]*,[0-9.,]*\Z")


def one_line(text: str) -> str:
    """A text without outer and doubled spaces, and without unseen signs at its ends."""
    return " ".join(text.split()).strip("\u200b\u200e\u200f\ufeff\u2060 ")


def name(text: str) -> str:
    """A name as it is written, in its own script. Raises Wrong."""
    written = one_line(text)
    return name_line(written) if written else ""


def several(text: str) -> list[str]:
    """The texts of the anglers in one cell: split at &, and, / between spaces, at semicolons and line breaks."""
    return [part for part in map(one_line, _BETWEEN.split(text)) if part]


def last_of_several(text: str) -> str:
    """The text after the last place at which ``several`` splits: the angler that is being typed."""
    return one_line(_BETWEEN.split(text)[-1])


def boat(text: str) -> int | None:
    """A boat number, None where there is none yet; a spreadsheet's ``12.0`` is 12. Raises Wrong."""
    written = one_line(text)
    if not written:
        return None
    try:
        return values.whole(written, least=1, most=MOST_BOAT)
    except Wrong:
        raise NOT_A_BOAT.wrong(text=written[:40]) from None


def paid(text: str, fee: Decimal) -> bool:
    """Whether a fee is paid: a word, a check mark, or the amount of the fee; blank is no. Raises Wrong."""
    word = _word(text)
    if word in YES or word in NO or not word:
        return word in YES
    figures = "".join(sign for sign in word if not sign.isspace() and unicodedata.category(sign) != "Sc")
    if not _AMOUNT.match(figures):
        if _WITH_COMMA.match(figures) and any(sign.isdigit() for sign in figures):
            raise DECIMAL_COMMA.wrong(text=one_line(text)[:40])
        raise NOT_PAID_OR_NOT.wrong(text=one_line(text)[:40], fee=money_said(fee))
    amount = Decimal(figures.replace(",", ""))
    if amount == 0:
        return False
    if amount != fee:
        raise OTHER_AMOUNT.wrong(amount=one_line(text)[:40], fee=money_said(fee))
    return True


def youth(text: str) -> bool | None:
    """Whether a team is a youth team; None where nothing is recorded. Raises Wrong."""
    word = _word(text)
    if not word:
        return None
    if word not in YES | NO:
        raise NOT_YOUTH.wrong(text=one_line(text)[:40])
    return word in YES


def flight(text: str, flights: Sequence[str]) -> str:
    """The flight of that name as the event writes it. Raises Wrong."""
    written = one_line(text)
    if not written:
        return ""
    known = {values.folded(one): one for one in flights}
    found = known.get(values.folded(written))
    if found is None:
        wrong = NO_FLIGHT if flights else NO_FLIGHTS
        raise wrong.wrong(text=written[:40], choices=Listed(tuple(flights)))
    return found


def status(text: str) -> str:
    """The status of a team; blank is entered. Raises Wrong."""
    written = one_line(text)
    if not written:
        return "entered"
    try:
        return values.choice(written, ROSTER_STATUSES)
    except Wrong:
        raise NO_STATUS.wrong(text=written[:40], choices=Listed(tuple(ROSTER_STATUSES))) from None


def contact(field: str, text: str) -> str:
    """A phone number, an emergency contact or an e-mail address, on one line. Raises Wrong."""
    written = values.line(one_line(text), LONGEST[field]) if one_line(text) else ""
    if field == "email" and written and "@" not in written:
        raise NO_AT_SIGN.wrong(text=written[:40])
    return written


def _word(text: str) -> str:
    return one_line(text).replace("\ufe0f", "").casefold()
