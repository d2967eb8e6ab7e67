"""What a chart is made of: marks at points in a frame, each with a look named by words.

x runs right and y runs down from the frame's upper left corner, in CSS pixels at the width the chart was
drawn for. A look is one or more of ``LOOKS``; the page gives it form in charts.css, a report in its own
table.
"""

from dataclasses import dataclass
from typing import Literal

LOOKS = {
    "ink": "text in ink",
    "strong": "bold text in ink",
    "penned": "bold text in the pen",
    "name": "a name, in the words type",
    "halo": "text kept readable over lines",
    "axis": "the zero line and its ticks",
    "grid": "hairlines to read a value by",
    "limit": "a dashed line that is our own limit",
    "span": "a 95 % range",
    "broad": "the one 95 % range of a strip",
    "dot": "a measured value",
    "hollow": "the measured value it is compared with",
    "fit": "a fitted curve, thin",
    "band": "a fitted curve's 95 % range",
    "data": "a line that is measured or worked out",
    "other": "a line it is compared with",
    "drop": "a moment in time",
}
TEXT = 14.0
BOLD = 1.35  # times as wide as plain text: a per cent sign and a 1 grow most
NAME = 18.0
Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]


@dataclass(frozen=True)
class Line:
    x1: float
    y1: float
    x2: float
    y2: float
    look: str


@dataclass(frozen=True)
class Circle:
    x: float
    y: float
    r: float
    look: str


@dataclass(frozen=True)
class Text:
    """Words on a baseline; ``anchor`` says which end of them stands at ``x``."""

    x: float
    y: float
    words: str
    look: str = ""
    anchor: Anchor = "start"
    size: float = TEXT


@dataclass(frozen=True)
class Polyline:
    points: tuple[Point, ...]
    look: str


@dataclass(frozen=True)
class Polygon:
    points: tuple[Point, ...]
    look: str


Mark = Line | Circle | Text | Polyline | Polygon


@dataclass(frozen=True)
class Drawing:
    """A finished chart: ``title`` states the finding, ``description`` says it again in figures."""

    title: str
    description: str
    width: float
    height: float
    marks: tuple[Mark, ...]


def text_width(words: str, size: float = TEXT, bold: bool = False) -> float:
    """About how wide ``words`` stand, in pixels: a generous guess, since the reader's font is not known."""
    narrow = sum(words.count(letter) for letter in " .,:;'!|il1()")
    return size * (0.60 * (len(words) - narrow) + 0.38 * narrow) * (BOLD if bold else 1)


def cut_to(words: str, size: float, room: float) -> str:
    """``words``, cut at the end when they would not fit; a description keeps them whole."""
    if text_width(words, size) <= room:
        return words
    while words and text_width(words + "\u2026", size) > room:
        words = words[:-1]
    return words.rstrip() + "\u2026"


def extent(mark: Mark) -> tuple[float, float, float, float]:
    """The box a mark fills: left, top, right, bottom."""
    match mark:
        case Line(x1, y1, x2, y2):
            return min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)
        case Circle(x, y, r):
            return x - r, y - r, x + r, y + r
        case Text(x, y, words, _, anchor, size):
            wide = text_width(words, size)
            left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
            return left, y - size * 0.8, left + wide, y + size * 0.25
        case Polyline(points) | Polygon(points):
            xs, ys = [x for x, _ in points], [y for _, y in points]
            return min(xs), min(ys), max(xs), max(ys)
