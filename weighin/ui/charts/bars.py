"""Amounts side by side, each a bar from zero with its figure at the end."""

from collections.abc import Sequence
from dataclasses import dataclass

from weighin.ui.charts.drawing import Drawing, Line, Mark, Rect, Text, text_width
from weighin.ui.charts.scales import Axis

STEP = 40.0
NARROW = 560.0


@dataclass(frozen=True)
class Bar:
    """``value`` is 0 or more; ``figures`` is how it is written, ``note`` what stands behind it."""

    name: str
    value: float
    figures: str
    note: str = ""


def bars_from_zero(bars: Sequence[Bar], *, title: str, width: float = 720.0) -> Drawing:
    """Bars in the order given, all on one scale that begins at zero.

    Raises ValueError when there is no bar or a value is negative.
    """
    if not bars or any(bar.value < 0 for bar in bars):
        raise ValueError("bars need at least one value, and none below zero")
    narrow = width < NARROW
    step = STEP + (20 if narrow else 0)
    ends = [f"{bar.figures}  {bar.note}".rstrip() for bar in bars]
    left = 0.0 if narrow else min(max(text_width(bar.name) for bar in bars), width * 0.4) + 16
    room = max(map(text_width, ends)) + 10
    axis = Axis(0, max(bar.value for bar in bars) or 1.0, left, max(width - room, left + 40))
    marks: list[Mark] = []
    for number, (bar, end) in enumerate(zip(bars, ends, strict=True)):
        top = 4 + number * step
        place = top + (30 if narrow else 8)
        if narrow:
            marks.append(Text(0, top + 22, bar.name, "ink"))
            marks.append(Line(left, place - 2, left, place + 24, "axis"))
        else:
            marks.append(Text(left - 12, top + 24, bar.name, "ink", "end"))
        if bar.value > 0:
            marks.append(Rect(left, place, axis.at(bar.value) - left, 22, "bar"))
        marks.append(Text(axis.at(bar.value) + 8, place + 16, end, "ink"))
    height = 8 + step * len(bars)
    if not narrow:
        marks.append(Line(left, 0, left, height, "axis"))
    said = "; ".join(f"{bar.name}: {bar.figures}" + (f", {bar.note}" if bar.note else "") for bar in bars)
    return Drawing(title, f"{said}.", width, height, tuple(marks))
