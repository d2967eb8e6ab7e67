"""The layouts in which indicators write a weighing over their serial line, as data that the tablet reads too.

A layout is one or more patterns. In a pattern everything stands for itself but these pieces; spaces may be any number,
none included, and stand round every piece:

- ``{state}`` a word that says how the scale stands: ST, US, OL ... (``STATES``); ``{rest}`` is "?" or nothing instead
- ``{mode}`` gross or net; a line that is neither (a tare, a count) is not read
- ``{figures}`` sign and figures with one point; ``{pounds}`` and ``{ounces}`` instead on a scale of pounds and ounces
- ``{unit}`` the unit's word; a pattern may have it written out instead
- ``{any}`` whatever it may be

Words are looked at without regard to case. ``continuous`` is fixed and no pattern: see ``reading.frame``.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy

from weighin.rules.faults import Fault, Faults, Listed, Said, gettext_noop
from weighin.scales.domain.faults import (
    NO_SUCH_LAYOUT,
    PATTERN_BLANK,
    PATTERN_BRACE_ALONE,
    PATTERN_NO_SUCH_PIECE,
    PATTERN_NOT_PLAIN,
    PATTERN_ONE_WEIGHT,
    PATTERN_PIECE_TWICE,
    PATTERN_STATE_AND_REST,
    PATTERN_UNIT_BESIDE_OUNCES,
    PATTERN_WITHOUT_UNIT,
)

if TYPE_CHECKING:
    from django_stubs_ext import StrPromise

STABLE, MOTION, OVERLOAD, UNDERLOAD = "stable", "motion", "overload", "underload"
REFUSED, UNZEROED = "refused", "unzeroed"
KEY = "key"
MODES = "GS|NT|G|N|GROSS|NET"
UNITS = {"lb": "lb", "lbs": "lb", "kg": "kg", "g": "g", "oz": "oz", "t": "t", "lboz": "lb-oz"}
OWN = "own"
FRAME = "continuous"
LONGEST = 80

_PIECES = {
    "state": r"(?<state>[A-Za-z+\-]{1,2})",
    "rest": r"(?<state>\??)",
    "mode": rf"(?:{MODES})",
    "figures": r"(?<sign>[+\-]?) {0,8}(?<figures>[0-9]{1,9}(?:\.[0-9]{1,6})?)",
    "pounds": r"(?<sign>[+\-]?) {0,8}(?<pounds>[0-9]{1,4})",
    "ounces": r"(?<ounces>[0-9]{1,2}(?:\.[0-9]{1,3})?)",
    "unit": r"(?<unit>lbs?|kg|g|oz|t)",
    "any": "[ -~]{0,60}",
}
_GAP = " {0,20}"
_PIECE = re.compile(r"\{([a-z]*)\}| +")


@dataclass(frozen=True)
class Layout:
    """A way of writing: its patterns and the words for how the scale stands. Whose manual each is from stands in DEVELOPERS.md.

    ``heads`` are lines that say why there is no weight; ``states`` what its words for the state mean; ``width`` is the
    number of signs before the unit, where the manual fixes it (0: it does not): a sign lost or doubled is seen by it.
    """

    name: str
    _words: str
    patterns: tuple[str, ...] = ()
    states: Mapping[str, str] | None = None
    heads: tuple[str, ...] = ()
    width: int = 0

    @property
    def words(self) -> "StrPromise":
        return gettext_lazy(self._words)


HEADERS = {"ST": STABLE, "US": MOTION, "OL": OVERLOAD, "UL": UNDERLOAD, "LO": OVERLOAD}
SICS = {"S": STABLE, "D": MOTION, "+": OVERLOAD, "-": UNDERLOAD, "I": REFUSED}
# Words that own patterns may use
ANY_STATES = {**HEADERS, "S": STABLE, "U": MOTION, "M": MOTION, "D": MOTION, "?": MOTION, "": STABLE, "O": OVERLOAD}

LAYOUTS = {
    layout.name: layout
    for layout in (
        Layout(
            "headers",
            gettext_noop("ST,GS,+00009.47lb: state, with or without its tare, weight"),
            ("{state},{mode},{figures} {unit}", "{state},{mode},{figures},{unit}"),
            HEADERS,
            heads=("{state},{any}",),
        ),
        Layout(
            "header",
            gettext_noop("ST,+0009.47 lb: state, weight"),
            ("{state},{figures} {unit}",),
            HEADERS,
            heads=("{state},{any}",),
            width=12,
        ),
        Layout(
            "sics",
            gettext_noop("S S 9.47 lb: the answer of the standard command set"),
            ("S {state} {figures} {unit}",),
            SICS,
            heads=("S {state}{any}",),
            width=14,
        ),
        Layout(
            "mark",
            gettext_noop("9.47 lb ?: weight, and a question mark while it moves"),
            ("{figures} {unit} {rest}", "{figures} {unit} {rest} NET"),
            {"?": MOTION, "": STABLE},
        ),
        Layout(
            FRAME,
            gettext_noop("STX, three status bytes, six figures, six of tare: the continuous output"),
        ),
    )
}


def layout_of(name: str, pattern: str = "") -> Layout:
    """The layout of a name; ``own`` is made of ``pattern``. Raises Faults for ``layout`` and ``pattern``."""
    if name == OWN:
        expression(pattern)
        return Layout(OWN, gettext_noop("a pattern of its own"), (pattern,), ANY_STATES)
    if name not in LAYOUTS:
        raise Faults([NO_SUCH_LAYOUT.at("layout", name=name[:20], layouts=Listed((*LAYOUTS, OWN)))])
    return LAYOUTS[name]


def expression(pattern: str) -> str:
    """The regular expression of a pattern, in what Python (see ``python``) and JavaScript both read.

    Every repetition is bounded and lines are short, so no pattern can make a reader slow. Raises Faults for ``pattern``.
    """
    said = pattern.strip()
    _look(said, [piece[1] for piece in _PIECE.finditer(said) if piece[1] is not None])
    return compiled(said)


def python(expression: str) -> re.Pattern[str]:
    """The expression as Python reads it."""
    return re.compile(expression.replace("(?<", "(?P<"), re.IGNORECASE | re.ASCII)


def as_data(layout: Layout) -> dict[str, object]:
    """The layout in plain JSON values, for the tablet."""
    return {
        "name": layout.name,
        "pattern": layout.patterns[0] if layout.name == OWN else "",
        "frame": layout.name == FRAME,
        "patterns": [compiled(pattern, layout.width) for pattern in layout.patterns],
        "heads": [compiled(head) for head in layout.heads],
        "states": dict(layout.states or {}),
        "written": [unit_written(pattern) for pattern in layout.patterns],
    }


def compiled(pattern: str, width: int = 0) -> str:
    """The regular expression of a pattern that is known to be sound; ``width`` as of ``Layout``."""
    found, end = "", 0
    for piece in _PIECE.finditer(pattern):
        found += re.escape(pattern[end : piece.start()])
        found += _GAP if piece[1] is None else _GAP + _PIECES[piece[1]] + _GAP
        end = piece.end()
    found += re.escape(pattern[end:])
    look = f"(?=.{{{width - 1}}}[0-9]{_GAP}[A-Za-z]{{1,3}}$)" if width else ""
    return "^" + look + re.sub(r"(?: \{0,20\})+", lambda _: _GAP, _GAP + found + _GAP) + "$"


def _look(pattern: str, used: list[str]) -> None:
    if not pattern:
        raise _fault(PATTERN_BLANK.says())
    if not pattern.isascii() or not pattern.isprintable():
        raise _fault(PATTERN_NOT_PLAIN.says())
    if "{" in _PIECE.sub("", pattern) or "}" in _PIECE.sub("", pattern):
        raise _fault(PATTERN_BRACE_ALONE.says())
    for one in used:
        if one not in _PIECES:
            pieces = Listed(tuple("{" + name + "}" for name in _PIECES))
            raise _fault(PATTERN_NO_SUCH_PIECE.says(piece=one, pieces=pieces))
        if used.count(one) > 1:
            raise _fault(PATTERN_PIECE_TWICE.says(piece=one))
    if "state" in used and "rest" in used:
        raise _fault(PATTERN_STATE_AND_REST.says())
    plain, split = "figures" in used, {"pounds", "ounces"} & set(used)
    if plain == bool(split) or len(split) == 1:
        raise _fault(PATTERN_ONE_WEIGHT.says())
    if split and "unit" in used:
        raise _fault(PATTERN_UNIT_BESIDE_OUNCES.says())
    if plain and "unit" not in used and _unit_written(pattern) is None:
        raise _fault(PATTERN_WITHOUT_UNIT.says())


def _unit_written(pattern: str) -> str | None:
    """The one unit that a pattern has written out; None when there is none, or several."""
    words = {word.lower() for word in re.findall(r"[A-Za-z]+", re.sub(r"\{[a-z]*\}", " ", pattern))}
    found = {UNITS[word] for word in words if word in UNITS and word != "lboz"}
    return found.pop() if len(found) == 1 else None


def unit_written(pattern: str) -> str:
    """The unit of a pattern without ``{unit}``."""
    return "lb-oz" if "{ounces}" in pattern else _unit_written(pattern) or ""


def _fault(said: Said) -> Faults:
    return Faults([Fault("pattern", said)])
