"""A day in panels that share one time axis: each panel its own quantity, never a second axis."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import time

from weighin.ui.charts.drawing import Circle, Drawing, Line, Mark, Polygon, Polyline, Text, text_width
from weighin.ui.charts.scales import Axis, figures, ticks
from weighin.ui.figures import clock as clock_said

NARROW = 560.0
APART = 18.0  # pixels from one line's name to the next


@dataclass(frozen=True)
class DayLine:
    """``name`` stands at the line's end with its last ``figures``; points are (minute of the day, value).

    ``band`` is how low and how high the line may really run: (minute, low, high).
    """

    name: str
    figures: str
    points: tuple[tuple[float, float], ...]
    compared: bool = False
    band: tuple[tuple[float, float, float], ...] = ()


@dataclass(frozen=True)
class Panel:
    """One quantity over the day; ``limit`` is our own, with its words."""

    unit: str
    lines: tuple[DayLine, ...]
    limit: float | None = None
    limit_words: str = ""


def over_the_day(
    panels: Sequence[Panel],
    *,
    title: str,
    description: str,
    moments: Sequence[tuple[float, str]] = (),
    width: float = 840.0,
) -> Drawing:
    """Stacked panels; ``moments`` are (minute, words) drawn as uprights through the first panel.

    Minutes may pass 1440 in a night event. Raises ValueError when a panel has no points.
    """
    if not panels or not all(panel.lines and all(len(line.points) > 1 for line in panel.lines) for panel in panels):
        raise ValueError("a day needs panels, and every line two points or more")
    narrow = width < NARROW
    minutes = [minute for panel in panels for line in panel.lines for minute, _ in line.points]
    ends = [_end(line) for panel in panels for line in panel.lines]
    left = 12 + max(text_width(words) for panel in panels for _, words in _scale(panel))
    right = 12.0 if narrow else max(map(text_width, ends)) + 16
    across = Axis(min(minutes), max(minutes), left, width - right)
    tall = 120.0 if narrow else 130.0
    marks: list[Mark] = []
    top = 30.0
    for number, panel in enumerate(panels):
        above = 34.0 if moments and number == 0 else 12.0
        if narrow:
            top += above - 12 + 20 * len(panel.lines)
        marks += _panel(panel, across, top, tall, above if narrow else None)
        if number == 0:
            marks += _moments(moments, across, top, tall)
        bottom = top + tall
        top = bottom + 46
    marks += _clock(across, bottom, width)
    return Drawing(title, description, width, bottom + 32, tuple(marks))


def _end(line: DayLine) -> str:
    return f"{line.name}, {line.figures}"


def _scale(panel: Panel) -> list[tuple[float, str]]:
    """Tick values of the panel with their words, lowest first; the highest names the unit."""
    values = [value for line in panel.lines for _, value in line.points]
    values += [end for line in panel.lines for _, *ends in line.band for end in ends]
    values += [panel.limit] if panel.limit is not None else []
    low, high = min(values), max(values)
    if low == panel.limit:  # a limit on the axis itself could not be seen
        low -= 0.05 * (high - low)
    marks_at = ticks(low, high if high > low else low + 1, 4)
    return [
        (value, f"{figures(value)}\u00a0{panel.unit}" if value == marks_at[-1] else figures(value))
        for value in marks_at
    ]


def _panel(panel: Panel, across: Axis, top: float, tall: float, above: float | None) -> list[Mark]:
    """``above``: how far over the panel its lines are named; None names them at their ends."""
    marks_at = _scale(panel)
    up = Axis(marks_at[0][0], marks_at[-1][0], top + tall, top)
    marks: list[Mark] = []
    for value, words in marks_at:
        y = up.at(value)
        if value != panel.limit:
            marks.append(Line(across.start, y, across.end, y, "axis" if value == up.low else "grid"))
        marks.append(Text(across.start - 10, y + 5, words, anchor="end"))
    for line in panel.lines:
        if line.band:
            under = [(across.at(minute), up.at(low)) for minute, low, _ in line.band]
            over = [(across.at(minute), up.at(high)) for minute, _, high in reversed(line.band)]
            marks.append(Polygon((*under, *over), "band"))
    if panel.limit is not None:
        y = up.at(panel.limit)
        marks.append(Line(across.start, y, across.end, y, "limit"))
    lines = sorted(panel.lines, key=lambda line: -line.points[-1][1])
    ends: list[float] = []
    for line in lines:
        ends.append(max([up.at(line.points[-1][1]), *(taken + APART for taken in ends[-1:])]))
    # None under the axis, where the hours stand
    ends = [min(y, top + tall - APART * (len(lines) - 1 - number)) for number, y in enumerate(ends)]
    for number, line in enumerate(lines):
        places = tuple((across.at(minute), up.at(value)) for minute, value in line.points)
        marks.append(Polyline(places, "other" if line.compared else "data"))
        look = "" if line.compared else "penned"
        if above is not None:
            marks.append(Text(across.start, top - above - 20 * (len(panel.lines) - 1 - number), _end(line), look))
            continue
        if not line.compared:
            marks.append(Circle(*places[-1], 6, "dot"))
        marks.append(Text(places[-1][0] + 12, ends[number] + 5, _end(line), look))
    if panel.limit is not None:  # last, so that its halo keeps it readable over the lines
        y = up.at(panel.limit)
        # What is said over the panel stands close above its edge
        marks.append(Text(across.start + 4, y + 18 if y < top + 14 else y - 8, panel.limit_words, "ink halo"))
    return marks


def _moments(moments: Sequence[tuple[float, str]], across: Axis, top: float, tall: float) -> list[Mark]:
    marks: list[Mark] = []
    free = 0.0
    for minute, words in sorted(moments):
        x = across.at(minute)
        marks.append(Line(x, top - 4, x, top + tall, "drop"))
        if x >= free and x + text_width(words) <= across.end + 40:
            marks.append(Text(x, top - 12, words, "ink"))
            free = x + text_width(words) + 8
    return marks


def _clock(across: Axis, y: float, width: float) -> list[Mark]:
    span = across.high - across.low
    pixels = across.end - across.start
    step = next(step for step in (30, 60, 120, 180, 240, 360, 720, 1440) if pixels * step / max(span, 1) >= 76)
    first = int(-(-across.low // step) * step)
    marks: list[Mark] = []
    for minute in range(first, int(across.high) + 1, step):
        x = across.at(minute)
        marks.append(Line(x, y, x, y + 5, "axis"))
        words = clock_said(time(minute // 60 % 24, minute % 60))
        marks.append(Text(min(x, width - text_width(words) / 2), y + 23, words, anchor="middle"))
    return marks
