"""The briefing as one sheet of paper."""

from collections.abc import Iterable

from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import KeepInFrame, Paragraph, Table, TableStyle

from weighin.planning.domain.briefing import Briefing, Line
from weighin.reports.writers.pdf.document import HEAD, INK, PAD, RULE, SMALL, TEXT, TITLE, WIDTH, PdfDocument, escaped
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG
from weighin.ui import figures

LABEL = ParagraphStyle("label", parent=HEAD, fontName=STRONG, textColor=INK, leading=9.6)
LINE = ParagraphStyle("line", parent=TEXT, fontSize=7.5, leading=9.4, spaceAfter=0)
HEADLINE = ParagraphStyle("headline", parent=TITLE, fontSize=15, leading=18, spaceAfter=0)
SUPPOSED = ParagraphStyle("supposed", parent=LINE, textColor=SMALL.textColor, spaceBefore=3)
LABELS = 82.0
INNER, TALL = WIDTH - 2 * PAD, 682.0  # the frame of a page within its padding, points


def briefing_pdf(briefing: Briefing, permit: str = "") -> bytes:
    """The briefing of a day; ``permit`` is printed for members only."""
    event, day = briefing.event, briefing.day
    date = figures.day(day.date)
    several = len(briefing.days) > 1
    of = {"event": event.name, "day": day.number}
    title = gettext("Briefing of %(event)s, day %(day)s") if several else gettext("Briefing of %(event)s")
    foot = (
        gettext("%(event)s, day %(day)s: briefing for every boat")
        if several
        else gettext("%(event)s: briefing for every boat")
    )
    name = gettext("%(event)s, day %(day)s") % of if several else event.name
    document = PdfDocument(
        title=title % of,
        subject=f"{event.club.name}, {event.water.name}, {date}",
        foot=foot % of,
    )
    document.small(f"{name}. {event.water.name}, {date}. {event.club.name}.")
    document.parts.append(Paragraph(escaped(briefing.finding), HEADLINE))
    document.parts.append(
        _part(gettext("The day"), (*briefing.times, *([Line(gettext("Permit"), permit)] if permit else [])))
    )
    if briefing.figures:
        document.parts.append(_part(gettext("The day’s figures"), briefing.figures))
        document.parts.append(Paragraph(escaped(briefing.supposed), SUPPOSED))
    document.parts.append(_part(gettext("Care"), briefing.care))
    document.parts.append(_part(gettext("Rules in short"), briefing.rules))
    document.parts.append(_cautions(briefing.cautions))
    document.parts = [KeepInFrame(INNER, TALL, document.parts, mode="shrink")]  # one sheet, whatever the rules
    return document.build()


def _part(name: str, lines: Iterable[Line]) -> Table:
    """A section: its name over a line of ink, then label and sentences."""
    rows: list[list[object]] = [[Paragraph(escaped(name), LABEL), ""]]
    rows += [[Paragraph(escaped(line.label), LINE), Paragraph(escaped(line.words), LINE)] for line in lines]
    return _ruled(rows, [LABELS, INNER - LABELS])


def _cautions(cautions: Iterable[tuple[str, str]]) -> Table:
    """Two columns of cautions, each with its bold first sentence."""
    said = [Paragraph(f'<font name="{STRONG}">{escaped(bold)}</font> {escaped(rest)}', LINE) for bold, rest in cautions]
    rows: list[list[object]] = [[Paragraph(gettext("Cautions"), LABEL), ""]]
    rows += [[said[i], said[i + 1] if i + 1 < len(said) else ""] for i in range(0, len(said), 2)]
    return _ruled(rows, [INNER / 2, INNER / 2])


def _ruled(rows: list[list[object]], widths: list[float]) -> Table:
    table = Table(rows, colWidths=widths, spaceBefore=5, hAlign="LEFT")
    table.setStyle(
        TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                ("SPAN", (0, 0), (-1, 0)),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 6),
                ("TOPPADDING", (0, 0), (-1, -1), 1.6),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.6),
                ("LINEBELOW", (0, 0), (-1, 0), 0.8, INK),
                ("LINEBELOW", (0, 1), (-1, -1), 0.4, RULE),
            ]
        )
    )
    return table
