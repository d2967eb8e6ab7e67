"""Events one under the other: each a dot with its 95 % range and its number of fish."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.ui.charts.drawing import NAME, TEXT, Circle, Drawing, Line, Mark, Text, cut_to, text_width
from weighin.ui.charts.rates import Rate, level
from weighin.ui.charts.scales import Axis, figures, ticks

NARROW = 560.0
HEAD = 44.0


@dataclass(frozen=True)
class EventRate:
    """One row: the event's ``name``, a short ``note`` (the day, the water) and its rate."""

    name: str
    note: str
    rate: Rate


def events_dots(rows: Sequence[EventRate], *, title: str, stop: float | None = None, width: float = 960.0) -> Drawing:
    """Rows in the order given. Below 560 px each name stands above its own strip.

    Raises ValueError when there is no row: the page then says so in words.
    """
    if not rows:
        raise ValueError("no event has fish to draw")
    narrow = width < NARROW
    step = 108.0 if narrow else 48.0
    height = HEAD + step * len(rows) + 8
    right = max(text_width(words) for words in [*map(_count, rows), gettext("Dead of fish")]) + 12
    shares = max(text_width(row.rate.seen(), bold=True) for row in rows) + 12
    widest = max(max(text_width(row.name, NAME), text_width(row.note)) for row in rows)
    left = 8.0 if narrow else min(widest, width * 0.34) + 28
    most = max([row.rate.high for row in rows] + [stop or 0.0, 0.05]) * 100
    marks_at = ticks(0, most, 3 if narrow else 5)
    axis = Axis(0, marks_at[-1], left, width - (24 if narrow else right + shares + 16))
    marks: list[Mark] = [Text(axis.at(value), HEAD - 12, _tick(value, marks_at), anchor="middle") for value in marks_at]
    marks.append(Line(0, HEAD, width, HEAD, "axis"))
    if stop is not None:
        marks += _stop(stop, axis.at(100 * stop), width, None if narrow else height - 8)
    if not narrow:
        marks.append(Text(width, HEAD - 12, gettext("Dead of fish"), anchor="end"))
    for number, row in enumerate(rows):
        top = HEAD + number * step
        marks += _under(row, top, width) if narrow else _beside(row, top, left, width, right)
        middle = top + (86 if narrow else 24)
        if narrow and stop is not None:
            marks.append(Line(axis.at(100 * stop), middle - 14, axis.at(100 * stop), middle + 14, "limit"))
        marks.append(Line(axis.at(100 * row.rate.low), middle, axis.at(100 * row.rate.high), middle, "span"))
        marks.append(Circle(axis.at(100 * row.rate.share), middle, 7, "dot"))
        marks.append(Line(0, top + step, width, top + step, "grid"))
    said = "; ".join(f"{row.name}: {row.rate.said()}" for row in rows)
    limit = " " + gettext("Our stop level is %(level)s.") % {"level": level(stop)} if stop is not None else ""
    return Drawing(title, f"{said}.{limit}", width, height, tuple(marks))


def _stop(stop: float, x: float, width: float, foot: float | None) -> list[Mark]:
    """The stop level's name over the scale and, on a wide chart, its line down to ``foot``."""
    words = gettext("our stop level, %(level)s") % {"level": level(stop)}
    room = x + 6 + text_width(words) <= width
    marks: list[Mark] = [
        Line(x, 0, x, HEAD - 26, "limit"),
        Text(x + 6 if room else x - 6, 12, words, "ink", "start" if room else "end"),
    ]
    if foot is not None:
        marks.append(Line(x, HEAD, x, foot, "limit"))
    return marks


def _beside(row: EventRate, top: float, left: float, width: float, right: float) -> list[Mark]:
    return [
        Text(0, top + 21, cut_to(row.name, NAME, left - 20), "name", size=NAME),
        Text(0, top + 39, cut_to(row.note, TEXT, left - 20)),
        Text(width - right, top + 29, row.rate.seen(), "strong", "end"),
        Text(width, top + 29, _count(row), anchor="end"),
    ]


def _under(row: EventRate, top: float, width: float) -> list[Mark]:
    return [
        Text(0, top + 23, cut_to(row.name, NAME, width), "name", size=NAME),
        Text(0, top + 43, cut_to(row.note, TEXT, width)),
        Text(0, top + 64, row.rate.seen(), "strong"),
        Text(width, top + 64, gettext("%(count)s dead") % {"count": _count(row)}, "ink", "end"),
    ]


def _count(row: EventRate) -> str:
    return gettext("%(dead)s of %(fish)s") % {"dead": row.rate.counted, "fish": f"{row.rate.fish:,}"}


def _tick(value: float, marks_at: Sequence[float]) -> str:
    return f"{figures(value)}\u00a0%" if value == marks_at[-1] else figures(value)
