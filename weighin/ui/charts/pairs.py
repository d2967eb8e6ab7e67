"""Two shares of fish dead, one above the other: with a practice (filled) and without it (open), each with its range."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.ui.charts.drawing import NAME, TEXT, Circle, Drawing, Line, Mark, Text, cut_to, text_width
from weighin.ui.charts.rates import Rate
from weighin.ui.charts.scales import Axis, figures, ticks

NARROW = 560.0
HEAD = 30.0


@dataclass(frozen=True)
class Pair:
    """A practice (``name``) on days of one kind (``note``): the two sides in words, each with its rate."""

    name: str
    note: str
    practised: str
    filled: Rate
    otherwise: str
    open: Rate


def paired_dots(rows: Sequence[Pair], *, title: str, width: float = 960.0) -> Drawing:
    """Rows in the order given; below 560 px names and counts stand above their dots. Raises ValueError when there is no row."""
    if not rows:
        raise ValueError("no practice has fish on both sides to draw")
    narrow = width < NARROW
    step = 106.0 if narrow else 62.0
    first = 56.0 if narrow else 21.0  # from a row's top to its filled dot
    height = HEAD + step * len(rows) + 4
    right = max(text_width(words) for row in rows for words in (_words(row.filled, True), _words(row.open, False))) + 4
    widest = max(max(text_width(row.name, NAME), text_width(row.note)) for row in rows)
    left = 8.0 if narrow else min(widest, width * 0.3) + 24
    most = max([rate.high for row in rows for rate in (row.filled, row.open)] + [0.05]) * 100
    marks_at = ticks(0, min(most, 100.0), 2 if narrow else 5)
    axis = Axis(0, marks_at[-1], left, width - (24 if narrow else right + 26))
    marks: list[Mark] = []
    for value in marks_at:
        words = f"{figures(value)}\u00a0%" if value == marks_at[-1] else figures(value)
        marks.append(Text(axis.at(value), HEAD - 12, words, anchor="middle"))
    marks.append(Line(0, HEAD, width, HEAD, "axis"))
    for number, row in enumerate(rows):
        top = HEAD + number * step
        room = width if narrow else left - 16
        marks.append(Text(0, top + (22 if narrow else 27), cut_to(row.name, NAME, room), "name", size=NAME))
        marks.append(Text(width, top + 42, row.note, anchor="end") if narrow else _under(row, top, room))
        apart = 36 if narrow else 22
        for rate, look, y in ((row.filled, "dot", top + first), (row.open, "hollow", top + first + apart)):
            marks.append(Line(axis.at(100 * rate.low), y, axis.at(100 * rate.high), y, "span"))
            marks.append(Circle(axis.at(100 * rate.share), y, 6, look))
            said = _words(rate, look == "dot")
            marks.append(Text(0, y - 14, said, "ink") if narrow else Text(width, y + 5, said, "ink", "end"))
        marks.append(Line(0, top + step, width, top + step, "grid"))
    told = "; ".join(
        f"{row.name}, {row.note}: {row.practised} {row.filled.said()}, {row.otherwise} {row.open.said()}"
        for row in rows
    )
    return Drawing(title, f"{told}.", width, height, tuple(marks))


def _under(row: Pair, top: float, room: float) -> Text:
    return Text(0, top + 47, cut_to(row.note, TEXT, room))


def _words(rate: Rate, practised: bool) -> str:
    said = gettext("with %(share)s of %(fish)s") if practised else gettext("without %(share)s of %(fish)s")
    return said % {"share": rate.seen(), "fish": f"{rate.fish:,}"}
