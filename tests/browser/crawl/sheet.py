"""How full the first sheet of a printed page is."""

from io import BytesIO
from typing import Any

import numpy
import pypdfium2

FULL = 0.6
PALEST = 200  # of 255: rules and text are darker


def first_sheet(page: Any) -> tuple[int, float]:
    """Sheets, and how far down the first one its lowest ink stands: 1 where all is on one sheet."""
    paper = pypdfium2.PdfDocument(BytesIO(page.pdf(format="Letter", prefer_css_page_size=True, print_background=False)))
    try:
        if len(paper) == 1:
            return 1, 1.0
        grey = paper[0].render(scale=0.5, grayscale=True).to_numpy().squeeze()
        # The double rule runs down every sheet, full or not: a row counts by the ink right of it
        right = grey[:, int(grey.shape[1] * 0.22) :]
        rows = numpy.flatnonzero((right < PALEST).sum(axis=1))
        return len(paper), float(rows[-1] + 1) / grey.shape[0] if len(rows) else 0.0
    finally:
        paper.close()
