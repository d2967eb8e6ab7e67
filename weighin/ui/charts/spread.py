"""How values lie apart: a dot for each on one line, piled up where they are close, the middle marked."""

from collections.abc import Sequence
from dataclasses import dataclass

from weighin.ui.charts.drawing import Circle, Drawing, Line, Mark, Text
from weighin.ui.charts.scales import Axis, figures, ticks

RADIUS = 4.5
PILE = 10.0  # pixels from dot to dot of a pile
NARROW = 560.0


@dataclass(frozen=True)
class Spread:
    """``words`` stand over the dots, ``unit`` behind the last tick; ``middle`` has half of the ``values`` on each side."""

    words: str
    unit: str
    values: tuple[float, ...]
    middle: float


def spreads(panels: Sequence[Spread], *, title: str, description: str, width: float = 720.0) -> Drawing:
    """A line of dots for each panel, each on a scale of its own. Raises ValueError for a panel without values."""
    if not panels or not all(panel.values for panel in panels):
        raise ValueError("a spread needs values")
    marks: list[Mark] = []
    top = 0.0
    for panel in panels:
        low, high = min(panel.values), max(panel.values)
        marks_at = ticks(low, high if high > low else low + 1, 3 if width < NARROW else 6)
        axis = Axis(marks_at[0], marks_at[-1], 12, width - 36)
        piles: dict[int, int] = {}
        places = []
        for value in sorted(panel.values):
            pile = round(axis.at(value) / PILE)
            piles[pile] = piles.get(pile, 0) + 1
            places.append((pile * PILE, piles[pile]))
        base = top + 34 + PILE * max(piles.values())
        marks.append(Text(0, top + 14, panel.words, "ink"))
        marks.append(Line(axis.at(panel.middle), top + 24, axis.at(panel.middle), base, "drop"))
        marks += [Circle(x, base - PILE * height + 3, RADIUS, "dot") for x, height in places]
        marks.append(Line(axis.start, base, axis.end, base, "axis"))
        for value in marks_at:
            words = f"{figures(value)}\u00a0{panel.unit}" if value == marks_at[-1] else figures(value)
            marks.append(Line(axis.at(value), base, axis.at(value), base + 5, "axis"))
            marks.append(Text(axis.at(value), base + 22, words, anchor="middle"))
        top = base + 44
    return Drawing(title, description, width, top - 12, tuple(marks))
