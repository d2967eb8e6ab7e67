"""A drawing as SVG for the page: title and description, text as text, looks as classes, no style."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby

from django.utils.html import escape, format_html
from django.utils.safestring import SafeString, mark_safe

from weighin.ui.charts.drawing import TEXT, Circle, Drawing, Line, Mark, Point, Polygon, Polyline, Text


def svg(drawing: Drawing, name: str) -> SafeString:
    """The whole ``<svg>``; ``name`` makes its ids unique on the page."""
    return format_html(
        '<svg class="chart" viewBox="0 0 {0} {1}" width="{0}" height="{1}" role="img" '
        'aria-labelledby="{2}-title" aria-describedby="{2}-desc">'
        '<title id="{2}-title">{3}</title><desc id="{2}-desc">{4}</desc>{5}</svg>',
        _n(drawing.width), _n(drawing.height), name, drawing.title, drawing.description,
        mark_safe("".join(_marks(drawing.marks))),  # noqa: S308 - every part is escaped in _mark
    )  # fmt: skip


def _marks(marks: Iterable[Mark]) -> Iterator[str]:
    """Each mark; circles of one look come by the dozen and have it from a group around them."""
    for (circles, look), alike in groupby(marks, key=lambda mark: (isinstance(mark, Circle), mark.look)):
        if circles:
            yield f"<g{_class(look)}>{''.join(_mark(replace(mark, look='')) for mark in alike)}</g>"
        else:
            yield from map(_mark, alike)


def _class(look: str) -> str:
    return f' class="{escape(look)}"' if look else ""


def _mark(mark: Mark) -> str:
    look = _class(mark.look)
    match mark:
        case Line(x1, y1, x2, y2):
            return f'<line{look} x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"/>'
        case Circle(x, y, r):
            return f'<circle{look} cx="{_n(x)}" cy="{_n(y)}" r="{_n(r)}"/>'
        case Text(x, y, words, _, anchor, size):
            end = "" if anchor == "start" else f' text-anchor="{anchor}"'
            own = "" if size == TEXT else f' font-size="{_n(size)}"'
            return f'<text{look} x="{_n(x)}" y="{_n(y)}"{end}{own}>{escape(words)}</text>'
        case Polyline(points):
            return f'<polyline{look} points="{_points(points)}"/>'
        case Polygon(points):
            return f'<polygon{look} points="{_points(points)}"/>'


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
