"""Read one line of an indicator: sign, figures, unit, and how the scale stands. Decimal only, nothing converted.

What is not wholly a line of the layout is not read at all: never a guess. The tablet's ``scales/lines.js`` does the
same; ``tests/scales/test_scale_lines_on_the_tablet.py`` holds the two together.
"""

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import lru_cache

from weighin.rules import weights
from weighin.scales.domain import layouts
from weighin.scales.domain.layouts import FRAME, LONGEST, MOTION, OVERLOAD, STABLE, UNDERLOAD, UNZEROED, Layout

_SIX = re.compile(r" {0,5}[0-9]{1,6}\Z", re.ASCII)
_FRAME_LENGTH = 16
_NAMED = {2: "<STX>", 3: "<ETX>", 10: "<LF>", 13: "<CR>"}


@dataclass(frozen=True)
class Reading:
    """What a line says. ``digits`` as the scale wrote them without leading zeros (``9.47``, ``9-07.5``), blank when the
    line only says how the scale stands; ``unit`` lb, lb-oz, kg, g, oz or t; ``raw`` the line with its control signs named.
    """

    sign: str
    digits: str
    unit: str
    state: str
    raw: str

    @property
    def stable(self) -> bool:
        """Whether the scale was at rest and in range."""
        return self.state == STABLE

    @property
    def text(self) -> str:
        """Sign and figures: ``-0.04``, ``9.47``."""
        return f"{self.sign}{self.digits}" if self.digits else ""

    @property
    def weight(self) -> Decimal:
        """The weight in the reading's own unit, pounds for lb-oz. Raises ValueError when the line says none."""
        try:
            size = weights.read(self.digits, self.unit) if self.unit == "lb-oz" else Decimal(self.digits)
        except InvalidOperation:
            raise ValueError("the line says no weight") from None
        return -size if self.sign else size


def read(layout: Layout, line: str) -> Reading | None:
    """The reading of one whole line without its line end, as Latin-1 text; None for anything else."""
    if layout.name == FRAME:
        return frame(line)
    said = line.strip("\x02\x03 ")
    if not said or len(said) > LONGEST or not said.isascii() or not said.isprintable():
        return None
    for pattern in layout.patterns:
        found = _expression(pattern, layout.width).match(said)
        if found is not None:
            return _reading(layout, found.groupdict(), layouts.unit_written(pattern), line)
    for head in layout.heads:
        found = _expression(head).match(said)
        state = _state(layout, found.groupdict()) if found is not None else None
        if state not in (None, STABLE):
            return Reading("", "", "", str(state), shown(line))
    return None


def frame(line: str) -> Reading | None:
    """The continuous output: STX, status bytes A, B and C, six figures of weight and six of tare.

    Whatever stands before the last STX, such as the check sum of the frame before, is not looked at.
    """
    said = line[line.rfind("\x02") :]
    if len(said) != _FRAME_LENGTH or said[0] != "\x02":
        return None
    a, b, c = (ord(sign) for sign in said[1:4])
    figures, tare = said[4:10], said[10:]
    sound = all(status & 0x60 == 0x20 for status in (a, c)) and b & 0x20 and a & 0x18 and c & 0x06 == 0
    if not (sound and max(a, b, c) < 128 and _SIX.match(figures) and _SIX.match(tare)):
        return None
    point = (a & 7) - 2
    digits = figures.strip().rjust(6, "0") + "0" * max(-point, 0)
    if point > 0:
        digits = f"{digits[:-point]}.{digits[-point:]}"
    unit = "g" if c & 1 else "kg" if b & 0x10 else "lb"
    state = UNZEROED if b & 0x40 else OVERLOAD if b & 4 else MOTION if b & 8 else STABLE
    digits = _short(digits)
    return Reading(_sign("-" if b & 2 else "", digits), digits, unit, state, shown(line))


def why_not(reading: Reading, unit: str) -> str:
    """Why a reading is not taken into an event that weighs in ``unit``, as a sentence; blank when it can be."""
    said = {
        MOTION: "The scale is not at rest: wait until it is.",
        OVERLOAD: "The scale is overloaded or out of its range: take the weight off, and weigh in parts.",
        UNDERLOAD: "The scale reads below its range: look whether the pan lies right, and zero it with nothing on it.",
        UNZEROED: "The scale was not zeroed since it was switched on: zero it with nothing on it.",
    }
    if reading.state != STABLE:
        return said.get(reading.state, "The scale cannot say its weight now: look at its display.")
    if reading.unit != unit:
        return (
            f"The scale reads {reading.unit}, the event weighs in {unit}: set the scale to {unit}, or type the weight."
        )
    if reading.sign:
        return "The scale reads below zero: zero it with nothing on it."
    try:
        size = reading.weight
    except ValueError:
        return "The scale says no weight that can be read: look at its display."
    if size > weights.MOST:
        return f"The scale reads more than {weights.MOST} {unit}: look at its display."
    return ""


def shown(line: str) -> str:
    """A raw line in signs that can be seen: ``<STX>``, ``<CR>`` and ``<hex 1F>`` stand for those that cannot."""
    told = "".join(sign if " " <= sign <= "~" else _NAMED.get(ord(sign), f"<hex {ord(sign):02X}>") for sign in line)
    return told[:200]


def _reading(layout: Layout, found: dict[str, str | None], written: str, line: str) -> Reading | None:
    state = _state(layout, found)
    if state is None:
        return None
    unit = layouts.UNITS[(found.get("unit") or written).lower().replace("-", "")]
    if "ounces" in found:
        pounds, ounces = str(found["pounds"]), str(found["ounces"])
        if Decimal(ounces) >= 16:
            return None
        whole, point, rest = ounces.partition(".")
        digits = f"{_short(pounds)}-{whole:0>2}{point}{rest}"
    else:
        digits = _short(str(found["figures"]))
    return Reading(_sign(found["sign"], digits), digits, unit, state, shown(line))


def _state(layout: Layout, found: dict[str, str | None]) -> str | None:
    """How the scale stands; a word that the layout does not know is not guessed at. A line without one is stable."""
    if "state" not in found:
        return STABLE
    return (layout.states or {}).get((found["state"] or "").upper())


def _sign(written: str | None, digits: str) -> str:
    """A minus before a nought says nothing."""
    return "-" if written == "-" and re.search("[1-9]", digits) else ""


def _short(figures: str) -> str:
    return re.sub(r"^0+(?=[0-9])", "", figures)


@lru_cache(maxsize=100)
def _expression(pattern: str, width: int = 0) -> re.Pattern[str]:
    return layouts.python(layouts.compiled(pattern.strip(), width))
