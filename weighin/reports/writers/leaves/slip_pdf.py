"""Slips on paper: boat, readings, every deduction, the sum, two lines to sign on, the code of the slip's page.

A slip with more lines than its paper holds goes on over further leaves; the sum and the signatures stand on the last.
"""

import io
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from textwrap import wrap

from django.utils.translation import gettext, gettext_lazy
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from weighin.reports.writers.leaves.small_paper import (
    MARGIN,
    QR,
    SMALLEST,
    Leaf,
    Paper,
    fitting,
    height_of,
    printed,
    text_width,
)
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG, WORDS, register_fonts
from weighin.slips.pages.printed_slips import PrintedSlip

SIGN = 8 * mm
GAP = 5.0
HEED = 8.5
# What is taller goes among the lines, which may take further leaves
TALLEST_HEED, TALLEST_READINGS = 100.0, 40.0
OF_A_ROW, LONGEST_NAME = 250, 120
BETWEEN = 6 * mm
GOES_ON = 14.0
Line = tuple[str, str]
SCAN = gettext_lazy(
    "The code opens this slip on the site, for the club’s members. Wrong? Tell the table now: a mended slip replaces "
    "this one, and both stay in the book."
)
AGREE = gettext_lazy("Paper and ledger agree when its page shows")


def slips_pdf(title: str, slips: Sequence[PrintedSlip], paper: Paper) -> bytes:
    """The slips, in their order. Raises ValueError without any."""
    register_fonts()
    return printed(title, paper, (leaf for slip in slips for leaf in _leaves(slip, paper)))


def _leaves(slip: PrintedSlip, paper: Paper) -> list[Callable[[Leaf], None]]:
    """The leaves of one slip, laid out before they are drawn."""
    rows = list(slip.lines)
    if height_of(slip.heed, HEED, paper.width - 2 * MARGIN, STRONG) > TALLEST_HEED:
        rows = [*_as_rows(slip.heed), *rows]
        slip = replace(slip, heed="")
    if height_of(_readings(slip), SMALLEST, paper.width - 2 * MARGIN) > TALLEST_READINGS:
        rows += _as_rows(_readings(slip))
        slip = replace(slip, readings="", paper="")
    first, more = _room(slip, paper, 1), _room(slip, paper, 2)
    width = paper.width - 2 * MARGIN
    foot = _foot_height(slip, width)
    size = next((size for size in (10.0, 9.0) if _tall(rows, size, width) + foot <= first), SMALLEST)
    parts: list[list[Line]] = [[]]
    for row in rows:
        if parts[-1] and _tall([*parts[-1], row], size, width) > (first if len(parts) == 1 else more) - GOES_ON:
            parts.append([])
        parts[-1].append(row)
    if _tall(parts[-1], size, width) + foot > (first if len(parts) == 1 else more):
        parts.append([])
    return [
        partial(_draw, slip=slip, rows=part, size=size, number=number, of=len(parts))
        for number, part in enumerate(parts, 1)
    ]


def _room(slip: PrintedSlip, paper: Paper, number: int) -> float:
    """What the head of a leaf leaves for lines and foot."""
    trial = Leaf(Canvas(io.BytesIO(), initialFontName=FIGURES), paper)
    _head(trial, slip, number)
    return float(trial.y - trial.bottom)


def _draw(leaf: Leaf, *, slip: PrintedSlip, rows: list[Line], size: float, number: int, of: int) -> None:
    _head(leaf, slip, number)
    for at, row in enumerate(rows):
        if at:
            leaf.rule(0.3)
        _row(leaf, row, size)
    if number < of:
        leaf.y = leaf.bottom
        leaf.line(
            gettext("Slip %(number)s goes on: leaf %(leaf)s of %(of)s. Check %(check)s")
            % {"number": slip.number, "leaf": number, "of": of, "check": slip.check},
            SMALLEST,
        )
    else:
        _foot(leaf, slip, gettext("Leaf %(number)s of %(of)s.") % {"number": number, "of": of} + " " if of > 1 else "")


def _head(leaf: Leaf, slip: PrintedSlip, number: int) -> None:
    leaf.head(slip.club, (slip.where, slip.when), gettext("Slip %(number)s") % {"number": slip.number})
    if slip.heed and number == 1:
        leaf.y -= 3
        leaf.paragraph(slip.heed, HEED, STRONG)
        leaf.y -= 4
        leaf.rule(0.9)
    boat = str(slip.boat)
    big = 38.0 if len(boat) < 4 else 26.0
    boat_wide = text_width(boat, big, STRONG)
    fish_wide = max((text_width(line, 9) for line in slip.fish), default=0)
    x = leaf.left + boat_wide + 8
    wide = leaf.right - x - 8 - (fish_wide + 8 if fish_wide else 0)
    size = fitting(slip.team, wide, WORDS, 16, SMALLEST, lines=3)
    tall = max(34.0, height_of(slip.team, size, wide, WORDS))
    top = leaf.y - 6
    leaf.y = top - tall / 2 - big * 0.36
    leaf.line(boat, big, STRONG)
    leaf.canvas.setLineWidth(0.6)
    for line in (x, x + 2):
        leaf.canvas.line(line, top, line, top - tall)
    leaf.y = top - (tall - height_of(slip.team, size, wide, WORDS)) / 2
    leaf.paragraph(slip.team, size, WORDS, x=x + 8, width=wide)
    leaf.y = top - tall / 2 + 7
    for line in slip.fish:
        leaf.line(line, 9, right=True)
        leaf.y -= 11.5
    leaf.y = top - tall - 6
    leaf.rule(0.5)


def _row(leaf: Leaf, row: Line, size: float) -> None:
    words, figures = row
    wide = _words_wide(figures, size, leaf.width)
    leaf.y -= 2
    top = leaf.y
    leaf.y = top - size
    leaf.line(figures, size, STRONG, right=True)
    leaf.y = top
    leaf.paragraph(words, size, width=wide)
    leaf.y -= 2.5


def _tall(rows: Sequence[Line], size: float, width: float) -> float:
    return sum(height_of(words, size, _words_wide(figures, size, width)) + 4.5 for words, figures in rows)


def _words_wide(figures: str, size: float, width: float) -> float:
    return width - text_width(figures, size, STRONG) - 8


def _foot_height(slip: PrintedSlip, width: float) -> float:
    total = 42.0 if slip.total else 0.0
    said = sum(height_of(words, SMALLEST, width) + 2 for words in (slip.big_fish, _readings(slip), slip.proof) if words)
    return float(total + said + SIGN + _signed_height(_official(slip), (width - BETWEEN) / 2) + QR + 2 * GAP)


def _foot(leaf: Leaf, slip: PrintedSlip, leaf_words: str) -> None:
    if slip.total:
        leaf.rule(0.6, double=True)
        leaf.y -= 31
        leaf.line(gettext("Total"), 12)
        leaf.line(slip.unit, 11, right=True)
        figures = leaf.right - text_width(slip.unit, 11) - 4
        leaf.line(slip.total, 32, STRONG, x=figures, right=True)
        leaf.y -= 7
    for words in (slip.big_fish, _readings(slip), slip.proof):
        if words:
            leaf.paragraph(words, SMALLEST)
            leaf.y -= 2
    _sign(leaf, _official(slip))
    leaf.qr(slip.address)
    x = leaf.left + QR + 4 * mm
    leaf.y = leaf.bottom + QR
    leaf.paragraph(f"{leaf_words}{SCAN} {AGREE}", SMALLEST, x=x, width=leaf.right - x)
    leaf.y = leaf.bottom + 1
    leaf.line(slip.check, 11, STRONG, x=x)


def _sign(leaf: Leaf, official: str) -> None:
    half = (leaf.width - BETWEEN) / 2
    base = leaf.bottom + QR + GAP + _signed_height(official, half)
    leaf.canvas.setLineWidth(0.9)
    for x, words in ((leaf.left, gettext("Angler")), (leaf.left + half + BETWEEN, official)):
        leaf.canvas.line(x, base, x + half, base)
        leaf.y = base - 2
        leaf.paragraph(words, SMALLEST, x=x, width=half)


def _as_rows(words: str) -> list[Line]:
    return [(part, "") for part in wrap(words, OF_A_ROW)]


def _official(slip: PrintedSlip) -> str:
    name = slip.official
    return gettext("Official, %(name)s") % {"name": name if len(name) <= LONGEST_NAME else name[:LONGEST_NAME] + "…"}


def _signed_height(official: str, width: float) -> float:
    return height_of(official, SMALLEST, width) + 4


def _readings(slip: PrintedSlip) -> str:
    written = gettext("As written: %(readings)s.") % {"readings": slip.readings} if slip.readings else ""
    source = gettext("From %(paper)s.") % {"paper": slip.paper} if slip.paper else ""
    return f"{written} {source}".strip()
