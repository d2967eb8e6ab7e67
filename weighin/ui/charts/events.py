"""Events one under the other: each a dot with its 95 % range and its number of fish."""

from collections.abc import Sequence
from dataclasses import dataclass

from weighin.ui.charts.drawing import NAME, Circle, Drawing, Line, Mark, Text, text_width
from weighin.ui.charts.rates import Rate, per_cent
from weighin.ui.charts.scales import Axis, figures, ticks

NARROW = 560.0
HEAD = 44.0


@dataclass(frozen=True)
class EventRate:
    """One row: the event's ``name``, a short ``note`` (the day, the water) and its rate."""

    name: str
    note: str
    rate: Rate


def events_dots(
    rows: Sequence[EventRate], *, title: str, stop: float | None = None, width: float = 960.0
) -> Drawing:
    """Rows in the order given. Below 560 px each name stands above its own strip.

    Raises ValueError when there is no row: the page then says so in words.
    """
    if not rows:
        raise ValueError("no event has fish to draw")
    narrow = width < NARROW
    step = 72.0 if narrow else 48.0
    widest = max(max(text_width(row.name, NAME), text_width(row.note)) for row in rows)
    counts = [f"{row.rate.dead} of {row.rate.fish}" for row in rows]
    right = max(text_width(words) for words in [*counts, "Dead of fish"]) + 12
    shares = max(text_width(per_cent(row.rate.share)) for row in rows) + 12
    left = 8.0 if narrow else min(widest, width * 0.34) + 28
    most = max([row.rate.high for row in rows] + [stop or 0.0, 0.05]) * 100
    marks_at = ticks(0, most, 3 if narrow else 5)
    axis = Axis(0, marks_at[-1], left, width - (20 if narrow else right + shares + 16))
    height = HEAD + step * len(rows) + 8
    marks: list[Mark] = [
        Text(axis.at(value), HEAD - 12, _tick(value, marks_at), anchor="middle") for value in marks_at
    ]
    if not narrow:
        marks.append(Text(width, HEAD - 12, "Dead of fish", anchor="end"))
    marks.append(Line(0, HEAD, width, HEAD, "axis"))
    if stop is not None:
        place, words = axis.at(100 * stop), f"our stop level, {per_cent(stop, 0)}"
        marks.append(Line(place, HEAD, place, height - 8, "limit"))
        room = place + 6 + text_width(words) <= width
        marks.append(Text(place + 6 if room else place - 6, 12, words, "ink", "start" if room else "end"))
        marks.append(Line(place, 0, place, HEAD - 26, "limit"))
    for number, (row, count) in enumerate(zip(rows, counts, strict=True)):
        top = HEAD + number * step
        middle = top + (50 if narrow else 24)
        if narrow:
            marks.append(
                Text(0, top + 25, _short(row.name, NAME, width - right - shares), "name halo", size=NAME)
            )
            marks.append(Text(width, top + 25, f"{per_cent(row.rate.share)}, {count}", "ink halo", "end"))
        else:
            marks.append(Text(0, top + 21, _short(row.name, NAME, left - 20), "name", size=NAME))
            marks.append(Text(0, top + 39, _short(row.note, 14, left - 20)))
            marks.append(Text(width - right, middle + 5, per_cent(row.rate.share), "strong", "end"))
            marks.append(Text(width, middle + 5, count, anchor="end"))
        marks.append(Line(axis.at(100 * row.rate.low), middle, axis.at(100 * row.rate.high), middle, "span"))
        marks.append(Circle(axis.at(100 * row.rate.share), middle, 7, "dot"))
        marks.append(Line(0, top + step, width, top + step, "grid"))
    said = "; ".join(f"{row.name}: {row.rate.said()}" for row in rows)
    limit = f" Our stop level is {per_cent(stop, 0)}." if stop is not None else ""
    return Drawing(title, f"{said}.{limit}", width, height, tuple(marks))


def _tick(value: float, marks_at: Sequence[float]) -> str:
    return f"{figures(value)}\u00a0%" if value == marks_at[-1] else figures(value)


def _short(words: str, size: float, room: float) -> str:
    """``words``, cut at the end when they would not fit; the description keeps them whole."""
    if text_width(words, size) <= room:
        return words
    while words and text_width(words + "\u2026", size) > room:
        words = words[:-1]
    return words.rstrip() + "\u2026"
