"""A document of flowing parts on numbered pages: head line, words, tables, charts.

The PDF carries title and language but no tags for screen readers: the page on the site is the accessible form.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext
from reportlab.lib import colors
from reportlab.lib.pagesizes import letter
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

INK = colors.HexColor("#15202A")
INK_2 = colors.HexColor("#46525B")
RULE = colors.HexColor("#C5CDC8")
PEN = colors.HexColor("#3A2F96")
MARGIN = 18 * mm
PAD = 3  # beside a cell's words
WIDTH = letter[0] - 2 * MARGIN
WORDS_PAGE, WHOLE_PAGE = "words", "whole"

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


@dataclass
class PdfDocument:
    """Collects a document's parts in order; ``build`` lays them out."""

    title: str
    foot: str
    subject: str = ""
    parts: list[Flowable] = field(default_factory=list)

    def __post_init__(self) -> None:
        register_fonts()

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
        """A new page, with margins for words or (``WHOLE_PAGE``) none."""
        self.parts += [NextPageTemplate(like), PageBreak()]

    def sheet(self, sheet: Sheet, room: float = 0) -> None:
        """A table whose head repeats on every page and whose rows never split; ``room`` to write in, points a row."""
        for sentence in sheet.before:
            self.text(sentence)
        self.parts.append(ruled_table(sheet, room))
        for sentence in sheet.after:
            self.small(sentence)

    def to_sign(self, words: str) -> None:
        """A sentence with lines below it for a signature, a name in print and a date, kept on one page."""
        labels = [
            Paragraph(label, SMALL) for label in (gettext("Signature"), gettext("Name in print"), gettext("Date"))
        ]
        lines = Table(
            [["", "", ""], labels], colWidths=[WIDTH * share for share in (0.45, 0.35, 0.2)], rowHeights=[34, None]
        )
        lines.setStyle(
            TableStyle(
                [
                    ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                    ("LINEBELOW", (0, 0), (-1, 0), 0.8, INK),
                    ("LEFTPADDING", (0, 0), (-1, -1), 3),
                ]
            )
        )
        self.parts.append(KeepTogether([Spacer(1, 10), Paragraph(escaped(words), TEXT), lines]))

    def build(self) -> bytes:
        """The finished PDF."""
        out = io.BytesIO()
        bottom, top = 18 * mm, 16 * mm
        whole = Frame(0, 0, *letter, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0)
        template = BaseDocTemplate(
            out,
            pagesize=letter,
            pageTemplates=[
                PageTemplate(WORDS_PAGE, [Frame(MARGIN, bottom, WIDTH, letter[1] - bottom - top)]),
                PageTemplate(WHOLE_PAGE, [whole]),
            ],
            title=self.title,
            subject=self.subject,
            author="weighin",
            lang="en",
            displayDocTitle=True,
            initialFontName=FIGURES,
        )
        template.build(self.parts, canvasmaker=_numbered(self.foot))
        return out.getvalue()


def ruled_table(sheet: Sheet, room: float = 0) -> Table:
    """A sheet as ruled lines: ink under the head, hairlines between rows, figures right; ``room`` more a row."""
    register_fonts()
    total = sum(column.width for column in sheet.columns)
    widths = _for_words(sheet, [WIDTH * column.width / total for column in sheet.columns])
    head = [Paragraph(escaped(str(c.head)), HEAD_RIGHT if c.figures else HEAD) for c in sheet.columns]
    rows = [
        ["\n".join(_lines(_words(value), width - 2 * PAD)) for value, width in zip(row, widths, strict=True)]
        for row in sheet.rows
    ]
    table = Table([head, *rows], colWidths=widths, repeatRows=1)
    figures = [("ALIGN", (n, 1), (n, -1), "RIGHT") for n, column in enumerate(sheet.columns) if column.figures]
    table.setStyle(
        TableStyle(
            [
                ("FONT", (0, 0), (-1, -1), FIGURES, CELL.fontSize, CELL.leading),
                ("TEXTCOLOR", (0, 0), (-1, -1), INK),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), PAD),
                ("RIGHTPADDING", (0, 0), (-1, -1), PAD),
                ("TOPPADDING", (0, 0), (-1, -1), 2.5),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
                ("TOPPADDING", (0, 1), (-1, -1), 2.5 + room),
                ("LINEBELOW", (0, 0), (-1, 0), 0.8, INK),
                ("LINEBELOW", (0, 1), (-1, -1), 0.4, RULE),
                *figures,
            ]
        )
    )
    return table


def _words(value: Value) -> str:
    """A cell for people: files for programs say yes and no in one language, paper in the reader's."""
    if isinstance(value, bool):
        return gettext("yes") if value else gettext("no")
    return as_written(value)


def _lines(text: str, width: float) -> list[str]:
    """A cell's text as lines that fit: plain lines take a fifth of the time of paragraphs."""
    if "\n" not in text and stringWidth(text, CELL.fontName, CELL.fontSize) <= width:
        return [text]
    return simpleSplit(text, CELL.fontName, CELL.fontSize, width)  # type: ignore[no-any-return]


def _for_words(sheet: Sheet, widths: list[float]) -> list[float]:
    """The widths with room for the longest word of every head and figure, taken from the columns that have room."""
    heads = [
        max(stringWidth(word, HEAD.fontName, HEAD.fontSize) for word in str(c.head).split()) for c in sheet.columns
    ]
    cells = [
        max(
            (stringWidth(as_written(row[n]), CELL.fontName, CELL.fontSize) for row in sheet.rows if c.figures),
            default=0,
        )
        for n, c in enumerate(sheet.columns)
    ]
    least = [max(pair) + 7 for pair in zip(heads, cells, strict=True)]
    wanted = sum(max(0.0, low - width) for low, width in zip(least, widths, strict=True))
    room = sum(max(0.0, width - low) for low, width in zip(least, widths, strict=True))
    if not wanted or wanted > room:
        return widths
    return [low + max(0.0, width - low) * (1 - wanted / room) for low, width in zip(least, widths, strict=True)]


def escaped(words: str) -> str:
    """Text made safe for reportlab's paragraph marks."""
    return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\n", "<br/>")


def _numbered(foot: str) -> type[Canvas]:
    """A canvas that writes the foot line and 'page 2 of 3' once it knows how many pages there are."""

    class NumberedCanvas(Canvas):  # type: ignore[misc]
        def __init__(self, *args: Any, **kwargs: Any):
            kwargs["initialFontName"] = FIGURES
            super().__init__(*args, **kwargs)
            self._kept: list[dict[str, Any]] = []

        def showPage(self) -> None:
            self._kept.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for state in self._kept:
                self.__dict__.update(state)
                self.setFont(FIGURES, 7.5)
                self.setFillColor(INK_2)
                self.drawString(MARGIN, 10 * mm, foot[:120])
                self.drawRightString(
                    letter[0] - MARGIN,
                    10 * mm,
                    gettext("page %(pagenumber)s of %(kept)s")
                    % {"pagenumber": self._pageNumber, "kept": len(self._kept)},
                )
                super().showPage()
            super().save()

    return NumberedCanvas


def facts(pairs: Sequence[tuple[str, str]]) -> Table:
    """Label and value lines, the value in bold."""
    register_fonts()
    rows = [
        [Paragraph(escaped(a), TEXT), Paragraph(f'<font name="{STRONG}">{escaped(b)}</font>', TEXT)] for a, b in pairs
    ]
    table = Table(rows, colWidths=[WIDTH * 0.4, WIDTH * 0.6])
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
