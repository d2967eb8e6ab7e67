"""A published event as a picture of 1200 x 630, as links to it are shown elsewhere: its name, the first five places."""

from collections.abc import Sequence
from functools import cache
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from weighin.reports.writers import fonts

WIDE, HIGH = 1200, 630  # what the Open Graph protocol's readers ask for; common practice, no source
PAPER, INK, QUIET, PEN = "#F4F6F0", "#15202A", "#46525B", "#3A2F96"  # css/site/tokens.css
LEFT, RIGHT, RULE = 120, WIDE - 64, 72
FONTS = Path(fonts.__path__[0])
WORDS, FIGURES = "DejaVuSerif", "DejaVuSans"


def picture(name: str, where: str, rows: Sequence[tuple[str, str, str]], state: str) -> bytes:
    """The PNG. ``rows`` are place, team and total; a name that is too long ends in dots, letters that no font here has are
    left out."""
    image = Image.new("RGB", (WIDE, HIGH), PAPER)
    draw = ImageDraw.Draw(image)
    for x in (RULE, RULE + 10):
        draw.line((x, 0, x, HIGH), PEN, 4)
    _write(draw, (LEFT, 48), name, WORDS, 60, RIGHT - LEFT, INK)
    _write(draw, (LEFT, 132), where, FIGURES, 28, RIGHT - LEFT, QUIET)
    for at, (place, team, total) in enumerate(rows):
        y, size = 206 + at * 70, 40
        figures = _font("DejaVuSans-Bold", size)
        draw.line((LEFT, y - 8, RIGHT, y - 8), INK if at == 0 else QUIET, 2 if at == 0 else 1)
        draw.text((LEFT, y), place, QUIET, _font(FIGURES, size))
        draw.text((RIGHT, y), total, INK, figures, anchor="ra")
        room = RIGHT - LEFT - 90 - 40 - draw.textlength(total, figures)
        _write(draw, (LEFT + 90, y), team, WORDS, size, room, INK)
    _write(draw, (LEFT, HIGH - 64), state, FIGURES, 28, RIGHT - LEFT, QUIET)
    out = BytesIO()
    image.quantize(32).save(out, "PNG", optimize=True)
    return out.getvalue()


def legible(text: str) -> bool:
    """Whether every letter of a text can be drawn."""
    return not any(_lacks(WORDS, sign) and _lacks(FIGURES, sign) for sign in text)


def _write(
    draw: ImageDraw.ImageDraw, at: tuple[int, int], text: str, font: str, size: int, room: float, ink: str
) -> None:
    """A line of one font: the one with more letters where the other lacks some."""
    text = "".join(sign for sign in text if legible(sign)).strip()
    font = FIGURES if any(_lacks(font, sign) for sign in text) else font
    draw.text(at, _fitted(draw, text, font, size, room), ink, _font(font, size))


@cache
def _lacks(font: str, sign: str) -> bool:
    """Whether a font has no picture of a sign but the box that stands for all of those."""
    face = _font(font, 20)
    return bytes(face.getmask(sign)) == bytes(face.getmask("\uffff"))


@cache
def _font(name: str, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(FONTS / f"{name}.ttf"), size)


def _fitted(draw: ImageDraw.ImageDraw, text: str, font: str, size: int, room: float) -> str:
    """The text as far as it has room."""
    face = _font(font, size)
    if draw.textlength(text, face) <= room:
        return text
    while text and draw.textlength(f"{text}…", face) > room:
        text = text[:-1]
    return f"{text.rstrip()}…"
