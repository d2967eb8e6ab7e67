"""A document of chapters: contents with page numbers that lead there, bookmarks, and headings that never end a page."""

from dataclasses import dataclass, field

from django.utils.translation import gettext
from reportlab.lib.pagesizes import letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Flowable, Paragraph, Table, TableStyle

from weighin.reports.writers.pdf.document import (
    HEADING,
    INK,
    MARGIN,
    PEN,
    RULE,
    SMALL,
    TEXT,
    WIDTH,
    WORDS_PAGE,
    PdfDocument,
    escaped,
)
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG

ROOM = 90.0  # wanted for a heading and the first of what it heads, in points
FAR_DOWN = 0.33 * letter[1]  # a chapter begins with this much of the page before it, or on the next
NUMBER = 30.0  # width of the page numbers
CHAPTER = ParagraphStyle(
    "chapter", fontName=STRONG, fontSize=9, leading=12, textColor=PEN, spaceBefore=22, keepWithNext=1
)
OF_CHAPTER = ParagraphStyle("of a chapter", parent=TEXT, fontName=STRONG, fontSize=10, leading=13, spaceBefore=5)
OF_SECTION = ParagraphStyle("of a section", parent=TEXT, leftIndent=14, leading=11.5, spaceAfter=0)


@dataclass
class Entry:
    """A line of the contents: a chapter (level 0) with its finding, or a section (level 1). The page is known in the end."""

    words: str
    level: int
    key: str
    says: str = ""
    page: int = 0


@dataclass
class ChapterDocument(PdfDocument):
    """Sections are the headings that a chapter's writer gives, its finding the first of them."""

    entries: list[Entry] = field(default_factory=list)
    contents_at: int = 0

    def contents(self) -> None:
        """Here the contents go."""
        self.contents_at = len(self.parts)

    def chapter(self, words: str, like: str = WORDS_PAGE) -> None:
        """Begin a chapter: on a page of its own after the contents, where pages turn, and where little is left of one."""
        number = 1 + sum(not entry.level for entry in self.entries)
        if number == 1 or like != self.like:
            self.page(like)
        else:
            self.parts.append(CondPageBreak(FAR_DOWN))
        self._marked(gettext("%(number)s. %(chapter)s") % {"number": number, "chapter": words}, 0, CHAPTER)

    def heading(self, words: str, first: bool = False) -> None:
        """A section's heading, or with ``first`` the chapter's finding (before any chapter: the document's title)."""
        if not first:
            self.parts.append(CondPageBreak(ROOM))
            self._marked(words, 1, HEADING)
            return
        super().heading(words, first=True)
        if self.entries:
            self.entries[-1].says = words

    def build(self) -> bytes:
        self.parts[self.contents_at : self.contents_at] = [_contents(self.entries)]
        return super().build()

    def _marked(self, words: str, level: int, style: ParagraphStyle) -> None:
        entry = Entry(words, level, f"part-{len(self.entries)}")
        self.entries.append(entry)
        self.parts.append(_Heading(entry, style))


class _Heading(Paragraph):  # type: ignore[misc]
    """A heading that leaves a bookmark."""

    def __init__(self, entry: Entry, style: ParagraphStyle):
        super().__init__(escaped(entry.words), style)
        self.entry = entry

    def draw(self) -> None:
        canvas, entry = self.canv, self.entry
        entry.page, top = canvas.getPageNumber(), canvas.absolutePosition(0, self.height)[1]

        def mark() -> None:  # once the pages stand: a canvas that keeps them has all on its first until then
            canvas.bookmarkPage(entry.key, fit="XYZ", left=0, top=top + 6)
            canvas.addOutlineEntry(entry.words, entry.key, entry.level)
            canvas.showOutline()

        canvas.later.append((entry.page, mark))
        super().draw()


class _PageNumber(Flowable):  # type: ignore[misc]
    """The page of an entry, written once it is known; the line leads there."""

    def __init__(self, entry: Entry, style: ParagraphStyle):
        super().__init__()
        self.entry, self.style = entry, style

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return width, self.style.leading

    def draw(self) -> None:
        canvas, entry, style = self.canv, self.entry, self.style
        left, foot = canvas.absolutePosition(0, 0)

        def write() -> None:
            canvas.setFont(FIGURES, style.fontSize)
            canvas.setFillColor(INK)
            canvas.drawRightString(left + NUMBER, foot + 3, str(entry.page))
            line = (MARGIN, foot, left + NUMBER, foot + style.leading)
            canvas.linkRect(entry.words, entry.key, line, relative=0)

        canvas.later.append((canvas.getPageNumber(), write))


def _contents(entries: list[Entry]) -> Table:
    """Chapters with their findings, sections below them."""
    rows: list[list[object]] = []
    marks: list[tuple[object, ...]] = []
    for entry in entries:
        style = OF_SECTION if entry.level else OF_CHAPTER
        words = [Paragraph(escaped(entry.words), style)]
        if entry.says:
            words.append(Paragraph(escaped(entry.says), SMALL))
        if not entry.level and rows:
            marks += [
                ("LINEABOVE", (0, len(rows)), (-1, len(rows)), 0.4, RULE),
                ("TOPPADDING", (0, len(rows)), (-1, len(rows)), 8),
                ("BOTTOMPADDING", (0, len(rows) - 1), (-1, len(rows) - 1), 8),
            ]
        rows.append([words, _PageNumber(entry, style)])
    table = Table(rows, colWidths=[WIDTH - NUMBER, NUMBER])
    table.setStyle(
        TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 1.5),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5),
                *marks,
            ]
        )
    )
    return table
