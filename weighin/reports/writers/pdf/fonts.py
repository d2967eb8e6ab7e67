"""The embedded fonts: DejaVu Sans for figures and labels, DejaVu Serif for words."""

from functools import cache
from pathlib import Path
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

FOLDER = Path(__file__).resolve().parent.parent / "fonts"
FIGURES, STRONG, WORDS = "DejaVuSans", "DejaVuSans-Bold", "DejaVuSerif"


class _Told(TTFont):  # type: ignore[misc]
    """A font that tells the document which it is drawn in of signs that it lacks: they come out as boxes."""

    def splitString(self, text: str, doc: Any, encoding: str = "utf-8") -> Any:
        if not text.isascii() and any(ord(sign) not in self.face.charToGlyph for sign in text):
            doc.has_boxes = True
        return super().splitString(text, doc, encoding)


@cache
def register_fonts() -> None:
    """Tell reportlab of the fonts, once. The built-in ones lack letters and are never embedded, so none is used."""
    rl_config.useA85 = 0  # fonts as bytes and not as text of bytes: a quarter smaller
    for name in (FIGURES, STRONG, WORDS):
        pdfmetrics.registerFont(_Told(name, str(FOLDER / f"{name}.ttf")))
    pdfmetrics.registerFontFamily(FIGURES, normal=FIGURES, bold=STRONG, italic=FIGURES, boldItalic=STRONG)
