"""Codes in a PDF, and the one on a printed result that opens the page which checks it."""

import segno
from django.urls import reverse
from django.utils.translation import gettext
from reportlab.lib.colors import black
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, KeepTogether, Paragraph, Table, TableStyle

from weighin.events.models import Event
from weighin.proof.domain.canonical import printed
from weighin.proof.queries.document import proof_document
from weighin.reports.writers.pdf.document import HEADING, TEXT, WIDTH, PdfDocument, escaped
from weighin.reports.writers.pdf.fonts import FIGURES
from weighin.standings.queries.embargo import embargo_start

SIDE = 26 * mm
QUIET = 4  # modules of white around the code, as ISO/IEC 18004 asks


class Code(Flowable):  # type: ignore[misc]
    """The code of an address with its white margin, ``side`` points in all."""

    def __init__(self, address: str, side: float = SIDE):
        super().__init__()
        self.address, self.width, self.height = address, side, side

    def draw(self) -> None:
        modules = segno.make(self.address, error="m", micro=False).symbol_size(border=0)[0]
        quiet = self.width * QUIET / (modules + 2 * QUIET)
        self.canv.saveState()
        self.canv.setFillColor(black)
        draw_code(self.canv, self.address, quiet, quiet, self.width - 2 * quiet)
        self.canv.restoreState()


def draw_code(canvas: Canvas, address: str, x: float, y: float, side: float) -> None:
    """The code of an address without a margin, its lower left at ``x`` and ``y``: each row of dark modules in one piece."""
    modules = segno.make(address, error="m", micro=False).matrix
    step = side / len(modules)
    canvas.setLineWidth(0)
    for row, dark in enumerate(modules):
        start = None
        for column, one in enumerate([*dark, 0]):
            if one and start is None:
                start = column
            elif not one and start is not None:
                at = y + side - (row + 1) * step
                canvas.rect(x + start * step, at, (column - start) * step, step, stroke=0, fill=1)
                start = None


def check_of(document: PdfDocument, event: Event, site: str) -> None:
    """How anyone checks an official result that is published: the proof's figures, and where the site's address is known
    the code that opens the page."""
    if not event.is_public or embargo_start(event) is not None:
        return
    proof = proof_document(event)
    if proof["result"]["version"] is None:
        return
    page, figures = reverse("public:check", args=[event.slug]), printed(proof["digest"])
    heading = Paragraph(gettext("Check this result"), HEADING)
    if not site:
        said = gettext(
            "The page %(page)s of the club’s site works it out again in your browser. Its figures are %(digest)s."
        )
        document.parts.append(
            KeepTogether([heading, Paragraph(escaped(said % {"page": page, "digest": figures}), TEXT)])
        )
        return
    said = gettext("The code opens a page that works it out again in your browser. Its figures are %(digest)s.")
    words = [Paragraph(escaped(one), TEXT) for one in (said % {"digest": figures}, site + page)]
    beside = Table([[Code(site + page), words]], colWidths=[SIDE + 6, WIDTH - SIDE - 6], hAlign="LEFT")
    beside.setStyle(
        TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), FIGURES),
                ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                ("LEFTPADDING", (0, 0), (0, 0), 0),
            ]
        )
    )
    document.parts.append(KeepTogether([heading, beside]))
