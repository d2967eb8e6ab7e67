"""A practice's two shares on a phone: every word whole, the scale over the whole width."""

from itertools import pairwise

import pytest

from weighin.ui import charts
from weighin.ui.charts.drawing import Text, text_width

ROWS = [
    charts.Pair(
        "Ice in the livewell",
        "warmer days",
        "ice",
        charts.Rate(17, 367, 0.03, 0.08),
        "no ice",
        charts.Rate(40, 261, 0.08, 0.24),
    )
]


@pytest.mark.parametrize("width", [280.0, 310.0, 960.0])
def test_no_word_is_cut_and_none_stands_in_another(width: float) -> None:
    drawn = charts.paired_dots(ROWS, title="With and without", width=width)
    words = [mark for mark in drawn.marks if isinstance(mark, Text)]
    assert {"Ice in the livewell", "warmer days"} <= {mark.words for mark in words}
    lines: dict[float, list[tuple[float, float]]] = {}
    for mark in words:
        wide = text_width(mark.words, mark.size)
        start = {"start": mark.x, "middle": mark.x - wide / 2, "end": mark.x - wide}[mark.anchor]
        lines.setdefault(mark.y, []).append((start, start + wide))
    for spans in lines.values():
        spans.sort()
        assert all(one[1] <= other[0] for one, other in pairwise(spans)), spans


def test_on_a_phone_the_scale_uses_the_width() -> None:
    drawn = charts.paired_dots(ROWS, title="With and without", width=300.0)
    assert max(mark.x for mark in drawn.marks if isinstance(mark, Text) and mark.anchor == "middle") > 250
