"""Slips and cards on small paper: a quarter of a sheet each, alone or four to a sheet, drawn by hand.

Margins are 7 mm, no text is smaller than 8 points, a QR code is 22 mm, all black on white. Lengths are in
points; y grows upward, as on reportlab's canvas.
"""

import io
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext, gettext_lazy
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph

from weighin.reports.writers.pdf.check_code import draw_code
from weighin.reports.writers.pdf.document import composed, escaped
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG, WORDS, register_fonts

MARGIN = 7 * mm
SMALLEST = 8.0
QR = 22 * mm


@dataclass(frozen=True)
class Paper:
    """The size of one slip, and how many go across and down a sheet."""

    width: float
    height: float
    across: int = 1
    words: str | Promise = ""


PAPERS = {
    "a6": Paper(105 * mm, 148 * mm, words="A6"),
    "quarter-letter": Paper(letter[0] / 2, letter[1] / 2, words=gettext_lazy("quarter letter")),
    "a4": Paper(A4[0] / 2, A4[1] / 2, across=2, words=gettext_lazy("A6, four to an A4 sheet")),
    "letter-sheet": Paper(
        letter[0] / 2, letter[1] / 2, across=2, words=gettext_lazy("quarter letter, four to a letter sheet")
    ),
}


class Leaf:
    """One slip or card being drawn, from the top down. ``y`` is where the next thing goes."""

    def __init__(self, canvas: Canvas, paper: Paper):
        self.canvas = canvas
        self.left, self.right = MARGIN, paper.width - MARGIN
        self.bottom, self.y = MARGIN, paper.height - MARGIN

    @property
    def width(self) -> float:
        return float(self.right - self.left)

    def rule(self, thick: float = 0.5, double: bool = False) -> None:
        """A line across the leaf; a double one before a total."""
        self.canvas.setLineWidth(thick)
        self.canvas.line(self.left, self.y, self.right, self.y)
        if double:
            self.canvas.line(self.left, self.y - 1.8, self.right, self.y - 1.8)
            self.y -= 1.8

    def paragraph(
        self, words: str, size: float = 9, font: str = FIGURES, *, x: float | None = None, width: float | None = None
    ) -> float:
        """Wrapped text at the left, or at ``x``; gives its height and moves down by it."""
        written = paragraph(words, size, font)
        wide = self.width if width is None else width
        _, height = written.wrap(wide, 10_000)
        written.drawOn(self.canvas, self.left if x is None else x, self.y - height)
        self.y -= height
        return float(height)

    def line(
        self, words: str, size: float, font: str = FIGURES, *, x: float | None = None, right: bool = False
    ) -> None:
        """One line whose base is ``y``."""
        self.canvas.setFont(font, size)
        words = composed(words)
        if right:
            self.canvas.drawRightString(self.right if x is None else x, self.y, words)
        else:
            self.canvas.drawString(self.left if x is None else x, self.y, words)

    def head(self, club: str, lines: Iterable[str], corner: str) -> None:
        """Club, event and day at the left, what this is at the right, and a rule under them."""
        top, reserved = self.y, text_width(corner, 13, WORDS) + 4 * mm
        self.y = top - 11
        self.line(corner, 13, WORDS, right=True)
        self.y = top
        self.paragraph(club, fitting(club, self.width - reserved, WORDS, 11.5, 9), WORDS, width=self.width - reserved)
        for line in lines:
            self.paragraph(line, 8.5, width=self.width - reserved)
        self.y -= 5
        self.rule(0.9)

    def qr(self, address: str, side: float = QR) -> None:
        """The code of an address at the lower left, its quiet zone the margin and the gap beside it."""
        draw_code(self.canvas, address, self.left, self.bottom, side)


Draws = Callable[[Leaf], None]


def paragraph(words: str, size: float, font: str = FIGURES) -> Paragraph:
    """Text that wraps, long words too."""
    style = ParagraphStyle("small", fontName=font, fontSize=size, leading=size * 1.25, splitLongWords=1)
    return Paragraph(escaped(words), style)


def height_of(words: str, size: float, width: float, font: str = FIGURES) -> float:
    """How tall a wrapped text is."""
    return float(paragraph(words, size, font).wrap(width, 10_000)[1])


def text_width(words: str, size: float, font: str = FIGURES) -> float:
    """How wide one line is."""
    register_fonts()
    return float(stringWidth(words, font, size))


def fitting(words: str, width: float, font: str, largest: float, smallest: float = SMALLEST, lines: int = 1) -> float:
    """The largest size, by half points, at which a text takes no more than ``lines`` lines; else ``smallest``."""
    register_fonts()
    size = largest
    while size > smallest and (
        height_of(words, size, width, font) > lines * size * 1.25 + 0.1
        or max(text_width(word, size, font) for word in words.split() or [""]) > width
    ):
        size -= 0.5
    return size


def printed(title: str, paper: Paper, leaves: Iterable[Draws]) -> bytes:
    """A PDF of leaves, one a page or four a sheet with lines to cut along."""
    register_fonts()
    out = io.BytesIO()
    size = (paper.width * paper.across, paper.height * paper.across)
    canvas = Canvas(out, pagesize=size, initialFontName=FIGURES, lang="en", pageCompression=1)
    canvas.setTitle(title)
    canvas.setAuthor("weighin")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    given = list(leaves)
    if not given:
        raise ValueError(gettext("there is nothing to print"))
    for place, sheet in enumerate(sheets(paper, given)):
        if place:
            canvas.showPage()
        draw_sheet(canvas, paper, sheet)
    canvas.save()
    return out.getvalue()


def sheets(paper: Paper, leaves: Sequence[Draws]) -> list[Sequence[Draws]]:
    """The leaves, as many together as go on a sheet."""
    many = paper.across**2
    return [leaves[first : first + many] for first in range(0, len(leaves), many)]


def draw_sheet(canvas: Canvas, paper: Paper, leaves: Sequence[Draws]) -> None:
    """The leaves of one sheet, from the top left, with lines to cut along where there may be several."""
    if paper.across > 1:
        _cut_lines(canvas, paper.width * paper.across, paper.height * paper.across)
    for place, draw in enumerate(leaves):
        down, across = divmod(place, paper.across)
        canvas.saveState()
        canvas.translate(across * paper.width, (paper.across - 1 - down) * paper.height)
        draw(Leaf(canvas, paper))
        canvas.restoreState()


def _cut_lines(canvas: Canvas, width: float, height: float) -> None:
    canvas.setLineWidth(0.2)
    canvas.setDash(2, 4)
    canvas.line(width / 2, 0, width / 2, height)
    canvas.line(0, height / 2, width, height / 2)
    canvas.setDash()


__all__ = ["FIGURES", "PAPERS", "QR", "SMALLEST", "STRONG", "WORDS", "Leaf", "Paper", "fitting", "height_of", "printed"]
