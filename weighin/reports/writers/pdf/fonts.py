"""The embedded fonts: DejaVu Sans for figures and labels, DejaVu Serif for words."""

from functools import cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

FOLDER = Path(__file__).resolve().parent.parent / "fonts"
FIGURES, STRONG, WORDS = "DejaVuSans", "DejaVuSans-Bold", "DejaVuSerif"


@cache
def register_fonts() -> None:
    """Tell reportlab of the fonts, once. The built-in ones lack letters and are never embedded, so none is used."""
    for name in (FIGURES, STRONG, WORDS):
        pdfmetrics.registerFont(TTFont(name, str(FOLDER / f"{name}.ttf")))
    pdfmetrics.registerFontFamily(FIGURES, normal=FIGURES, bold=STRONG, italic=FIGURES, boldItalic=STRONG)
