"""A rule sheet in words, on one sheet of paper to hand out."""

from django.utils.translation import gettext
from reportlab.platypus import KeepInFrame, Paragraph, Table, TableStyle

from weighin.reports.writers.pdf.briefing_pdf import HEADLINE, INNER, LABEL, LABELS, LINE, TALL
from weighin.reports.writers.pdf.document import INK, RULE, PdfDocument, escaped
from weighin.reports.writers.pdf.fonts import FIGURES
from weighin.rules.rulebook import Rulebook
from weighin.rules.words.sheet import sheet_in_words


def rule_sheet_pdf(rules: Rulebook, title: str, about: str, permit: str = "") -> bytes:
    """The whole sheet, section by section; ``about`` says whose it is, ``permit`` is printed where there is one."""
    document = PdfDocument(title=title, subject=about, foot=title)
    document.small(about)
    document.parts.append(Paragraph(escaped(title), HEADLINE))
    document.text(gettext("State and local fishing law and the permit come before any rule here."))
    if permit:
        document.text(gettext("Permit: %(permit)s") % {"permit": permit})
    rows = [
        [Paragraph(escaped(name), LABEL), [Paragraph(escaped(sentence), LINE) for sentence in sentences]]
        for name, sentences in sheet_in_words(rules)
    ]
    table = Table(rows, colWidths=[LABELS, INNER - LABELS], spaceBefore=5, splitInRow=0, hAlign="LEFT")
    table.setStyle(
        TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 6),
                ("TOPPADDING", (0, 0), (-1, -1), 3),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
                ("LINEABOVE", (0, 0), (-1, 0), 0.8, INK),
                ("LINEBELOW", (0, 0), (-1, -1), 0.4, RULE),
            ]
        )
    )
    document.parts.append(table)
    document.parts = [KeepInFrame(INNER, TALL, document.parts, mode="shrink")]  # one sheet, whatever the rules
    return document.build()
