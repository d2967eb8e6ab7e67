"""A document of flowing parts on numbered pages: head line, words, tables, charts.

The PDF carries title and language but no tags for screen readers: the page on the site is the accessible form.
"""

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any
from unicodedata import normalize

from django.utils.translation import gettext
from reportlab.lib import colors
from reportlab.lib.pagesizes import landscape, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    KeepTogether,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Paragraph,
    Spacer,
    Table,
    TableStyle,
)

from weighin.reports.domain.sheet import Sheet, Value, as_written
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG, WORDS, register_fonts
from weighin.ui import figures

INK = colors.HexColor("#15202A")
INK_2 = colors.HexColor("#46525B")
RULE = colors.HexColor("#C5CDC8")
PEN = colors.HexColor("#3A2F96")
MARGIN = 18 * mm
PAD = 3  # beside a cell's words
BESIDE = 2.0 * PAD + 1  # both sides, and a hair
ABOVE, BELOW = 2.5, 3.0
RULES_AT = (MARGIN - 9, MARGIN - 6.5)  # the double rule, left of everything written
WORDS_AT_LEAST = 110  # of a text, before a sheet wants a page that lies across
WIDTH = letter[0] - 2 * MARGIN
WORDS_PAGE, WIDE_PAGE, WHOLE_PAGE = "words", "wide", "whole"
BOTTOM, TOP = 18 * mm, 16 * mm

TITLE = ParagraphStyle("title", fontName=WORDS, fontSize=20, leading=24, textColor=INK, spaceAfter=4)
HEADING = ParagraphStyle(
    "heading", fontName=WORDS, fontSize=14, leading=18, textColor=INK, spaceBefore=14, spaceAfter=4
)
SAYS = ParagraphStyle("says", fontName=WORDS, fontSize=11, leading=15.5, textColor=INK, spaceAfter=6)
TEXT = ParagraphStyle("text", fontName=FIGURES, fontSize=9, leading=13, textColor=INK, spaceAfter=4)
SMALL = ParagraphStyle("small", fontName=FIGURES, fontSize=8, leading=11, textColor=INK_2, spaceAfter=3)
HEAD = ParagraphStyle("head", fontName=FIGURES, fontSize=7.5, leading=9.5, textColor=INK_2)
HEAD_RIGHT = ParagraphStyle("head right", parent=HEAD, alignment=2)
CELL = ParagraphStyle("cell", fontName=FIGURES, fontSize=8.5, leading=11, textColor=INK)


@dataclass(frozen=True)
class _Section:
    """Where a part of a document begins that has pages of its own, and what like they are."""

    number: int
    like: str


@dataclass
class PdfDocument:
    """Collects a document's parts in order; ``build`` lays them out. A section lies across where one of its sheets wants it.

    ``like`` is what its pages are like by now.
    """

    title: str
    foot: str
    subject: str = ""
    like: str = WORDS_PAGE
    parts: list[Any] = field(default_factory=list)

    def __post_init__(self) -> None:
        register_fonts()
        self.first, self._section, self._wide = self.like, 0, set[int]()

    def heading(self, words: str, first: bool = False) -> None:
        self.parts.append(Paragraph(escaped(words), TITLE if first else HEADING))

    def says(self, words: str) -> None:
        self.parts.append(Paragraph(escaped(words), SAYS))

    def text(self, words: str) -> None:
        self.parts.append(Paragraph(escaped(words), TEXT))

    def small(self, words: str) -> None:
        self.parts.append(Paragraph(escaped(words), SMALL))

    def space(self, points: float = 8) -> None:
        self.parts.append(Spacer(1, points))

    def page(self, like: str = WORDS_PAGE) -> None:
        """A new page, with margins for words, across (``WIDE_PAGE``), or (``WHOLE_PAGE``) without margins."""
        self.like = like
        self._section += 1
        self.parts.append(_Section(self._section, like))

    def sheet(self, sheet: Sheet, room: float = 0) -> None:
        """A table whose head repeats on every page and whose rows never split; ``room`` to write in, points a row."""
        for sentence in sheet.before:
            self.text(sentence)
        if wants_width(sheet):
            self._wide.add(self._section)
        self.parts.append(RuledSheet(sheet, room))
        for sentence in sheet.after:
            self.small(sentence)

    def to_sign(self, words: str) -> None:
        """A sentence with lines below it for a signature, a name in print and a date, kept on one page."""
        labels = [Paragraph(one, SMALL) for one in (gettext("Signature"), gettext("Name in print"), gettext("Date"))]
        lines = Table(
            [["", "", ""], labels],
            colWidths=[WIDTH * share for share in (0.45, 0.35, 0.2)],
            rowHeights=[34, None],
            hAlign="LEFT",
        )
        lines.setStyle(
            TableStyle(
                [
                    ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                    ("LINEBELOW", (0, 0), (-1, 0), 0.8, INK),
                    ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ]
            )
        )
        self.parts.append(KeepTogether([Spacer(1, 10), Paragraph(escaped(words), TEXT), lines]))

    def build(self) -> bytes:
        """The finished PDF."""
        out = io.BytesIO()
        pages = {WORDS_PAGE: _words_page(WORDS_PAGE, letter), WIDE_PAGE: _words_page(WIDE_PAGE, landscape(letter))}
        whole = Frame(0, 0, *letter, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0)
        first = self._like(0, self.first)
        parts: list[Flowable] = []
        for part in self.parts:
            if isinstance(part, _Section):
                parts += [NextPageTemplate(self._like(part.number, part.like)), PageBreak()]
            else:
                parts.append(part)
        template = BaseDocTemplate(
            out,
            pagesize=letter,
            pageTemplates=[pages.pop(first), *pages.values(), PageTemplate(WHOLE_PAGE, [whole], pagesize=letter)],
            title=self.title,
            subject=self.subject,
            author="weighin",
            lang="en",
            displayDocTitle=True,
            initialFontName=FIGURES,
        )
        template.build(parts, canvasmaker=_numbered(self.foot))
        return out.getvalue()

    def _like(self, section: int, like: str) -> str:
        return WIDE_PAGE if like == WORDS_PAGE and section in self._wide else like


class RuledSheet(Flowable):  # type: ignore[misc]
    """A sheet as a table, as wide as the page on which it comes to stand."""

    def __init__(self, sheet: Sheet, room: float = 0):
        super().__init__()
        self.sheet, self.room = sheet, room
        self.table: Table | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if self.table is None:
            self.table = ruled_table(self.sheet, self.room, width + 2 * PAD)
        found: tuple[float, float] = self.table.wrapOn(self.canv, width, height)
        return found

    def split(self, width: float, height: float) -> list[Flowable]:
        self.wrap(width, height)
        return list(self.table.splitOn(self.canv, width, height)) if self.table else []

    def draw(self) -> None:
        if self.table:
            self.table.drawOn(self.canv, -PAD, 0)


def _words_page(like: str, size: tuple[float, float]) -> PageTemplate:
    """A page with margins, and the double rule of a log book beside its left one."""
    frame = Frame(MARGIN, BOTTOM, size[0] - 2 * MARGIN, size[1] - BOTTOM - TOP, leftPadding=PAD, rightPadding=PAD)
    return PageTemplate(like, [frame], pagesize=size, onPage=_double_rule)


def _double_rule(canvas: Canvas, _document: BaseDocTemplate) -> None:
    canvas.saveState()
    canvas.setStrokeColor(PEN)
    canvas.setLineWidth(0.6)
    for x in RULES_AT:
        canvas.line(x, 0, x, canvas._pagesize[1])
    canvas.restoreState()


def wants_width(sheet: Sheet) -> bool:
    """Whether a sheet's columns want a page that lies across: heads, figures and some words of each text beside each other."""
    return bool(sum(_least(sheet, WORDS_AT_LEAST), BESIDE * len(sheet.columns)) > WIDTH)


def ruled_table(sheet: Sheet, room: float = 0, across: float = WIDTH) -> Table:
    """A sheet as ruled lines: ink under the head, hairlines between rows, figures right; ``room`` more a row.

    Where heads and figures do not fit beside each other they are set smaller, down to half their size.
    """
    register_fonts()
    total = sum(column.width for column in sheet.columns)
    least = _least(sheet)
    small = max(0.5, min(1.0, (across - BESIDE * len(least)) / sum(least)))
    widths = _for_words(
        [one * small + BESIDE for one in least], [across * column.width / total for column in sheet.columns]
    )
    size, leading = CELL.fontSize * small, CELL.leading * small
    heads = [
        ParagraphStyle(like.name, parent=like, fontSize=like.fontSize * small, leading=like.leading * small)
        for like in (HEAD, HEAD_RIGHT)
    ]
    head = [Paragraph(escaped(str(c.head)), heads[c.figures]) for c in sheet.columns]
    lines = [
        [_lines(_words(value), width - 2 * PAD, size) for value, width in zip(row, widths, strict=True)]
        for row in sheet.rows
    ]
    # What is known is not left to be found out: how tall each row is, and that an empty cell has nothing to draw
    heights = [max(len(cell) or 1 for cell in row) * leading + ABOVE + room + BELOW for row in lines]
    rows = [["\n".join(cell) or () for cell in row] for row in lines]
    table = Table([head, *rows], colWidths=widths, rowHeights=[None, *heights], repeatRows=1)
    figures = [("ALIGN", (n, 1), (n, -1), "RIGHT") for n, column in enumerate(sheet.columns) if column.figures]
    table.setStyle(
        TableStyle(
            [
                ("FONT", (0, 0), (-1, -1), FIGURES, size, leading),
                ("TEXTCOLOR", (0, 0), (-1, -1), INK),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), PAD),
                ("RIGHTPADDING", (0, 0), (-1, -1), PAD),
                ("TOPPADDING", (0, 0), (-1, -1), ABOVE),
                ("BOTTOMPADDING", (0, 0), (-1, -1), BELOW),
                ("TOPPADDING", (0, 1), (-1, -1), ABOVE + room),
                ("LINEBELOW", (0, 0), (-1, 0), 0.8, INK),
                ("LINEBELOW", (0, 1), (-1, -1), 0.4, RULE),
                *figures,
            ]
        )
    )
    return table


def _words(value: Value) -> str:
    """A cell for people: files for programs say yes and no in one language and days in ISO, paper as the reader does."""
    if isinstance(value, bool):
        return gettext("yes") if value else gettext("no")
    if isinstance(value, date):
        return figures.moment(value) if isinstance(value, datetime) else figures.short_day(value)
    return composed(as_written(value))


def _lines(text: str, width: float, size: float) -> list[str]:
    """A cell's text as lines that fit: plain lines take a fifth of the time of paragraphs."""
    if "\n" not in text and _wide(text) * size <= width:
        return [text]
    return [piece for line in simpleSplit(text, CELL.fontName, size, width) for piece in _pieces(line, width / size)]


def _pieces(line: str, width: float) -> list[str]:
    """A line that fits, or one long word of a name in pieces that do."""
    pieces = [""]
    for sign in line if _wide(line) > width else ():
        pieces[-1:] = [pieces[-1] + sign] if _wide(pieces[-1] + sign) <= width else [pieces[-1], sign]
    return [piece for piece in pieces if piece] or [line]


def _wide(text: str) -> float:
    """How wide a text is at one point."""
    return float(stringWidth(text, FIGURES, 1))


def _least(sheet: Sheet, words: float = 0) -> list[float]:
    """What each column needs for the longest word of its head and its longest figure, or of a text up to ``words``."""
    found = []
    for n, column in enumerate(sheet.columns):
        head = max(_wide(word) for word in str(column.head).split() or [""]) * HEAD.fontSize
        cells = {_words(row[n]) for row in sheet.rows} if column.figures or words else ()
        cell = max((_wide(line) for text in cells for line in text.split("\n")), default=0) * CELL.fontSize
        found.append(max(head, cell if column.figures else min(cell, words)))
    return found


def _for_words(least: list[float], widths: list[float]) -> list[float]:
    """The widths with at least the ``least`` of every column, taken from the columns that have room."""
    wanted = sum(max(0.0, low - width) for low, width in zip(least, widths, strict=True))
    room = sum(max(0.0, width - low) for low, width in zip(least, widths, strict=True))
    if not wanted:
        return widths
    left = max(0.0, 1 - wanted / room) if room else 0.0
    return [low + max(0.0, width - low) * left for low, width in zip(least, widths, strict=True)]


def escaped(words: str) -> str:
    """Text made safe for reportlab's paragraph marks."""
    return composed(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\n", "<br/>")


def composed(words: str) -> str:
    """Letters and their marks as one sign: the fonts have those of Latin, Greek, Cyrillic and Vietnamese names as such."""
    return normalize("NFC", words)


def _numbered(foot: str) -> type[Canvas]:
    """A canvas that writes the foot line and 'page 2 of 3' once it knows how many pages there are."""
    words = composed(foot)

    class NumberedCanvas(Canvas):  # type: ignore[misc]
        def __init__(self, *args: Any, **kwargs: Any):
            kwargs["initialFontName"] = FIGURES
            super().__init__(*args, **kwargs)
            self._kept: list[dict[str, Any]] = []
            self.later: list[tuple[int, Callable[[], None]]] = []  # by page: what needs to know the pages after it

        def showPage(self) -> None:
            self._kept.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for state in self._kept:
                self.__dict__.update(state)
                for write in (write for page, write in self.later if page == self._pageNumber):
                    write()
                self.setFillColor(INK_2)
                page = gettext("page %(pagenumber)s of %(kept)s")
                page %= {"pagenumber": self._pageNumber, "kept": len(self._kept)}
                right = self._pagesize[0] - MARGIN - PAD
                room = right - MARGIN - stringWidth(page, FIGURES, 7.5) - 12
                self.setFont(FIGURES, min(7.5, 7.5 * room / (stringWidth(words, FIGURES, 7.5) or 1)))
                self.drawString(MARGIN + PAD, 10 * mm, words)
                self.setFont(FIGURES, 7.5)
                self.drawRightString(right, 10 * mm, page)
                if hasattr(self._doc, "has_boxes"):
                    boxes = gettext("A box stands for a letter that this file cannot show. The site’s pages show it.")
                    self.drawString(MARGIN + PAD, 10 * mm - 10, boxes)
                super().showPage()
            super().save()

    return NumberedCanvas


def facts(pairs: Sequence[tuple[str, str]]) -> Table:
    """Label and value lines, the value in bold."""
    register_fonts()
    rows = [
        [Paragraph(escaped(a), TEXT), Paragraph(f'<font name="{STRONG}">{escaped(b)}</font>', TEXT)] for a, b in pairs
    ]
    table = Table(rows, colWidths=[WIDTH * 0.4, WIDTH * 0.6], hAlign="LEFT")
    table.setStyle(
        TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                ("LINEBELOW", (0, 0), (-1, -1), 0.4, RULE),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ]
        )
    )
    return table
