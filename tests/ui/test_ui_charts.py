"""Charts say their finding in words, stay inside their frame and carry no style."""

import re
import xml.etree.ElementTree as ET
from itertools import pairwise
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from reportlab.pdfbase import pdfmetrics

from weighin.reports.writers.pdf.fonts import STRONG, register_fonts
from weighin.ui import charts
from weighin.ui.charts.drawing import LOOKS, TEXT, Circle, Drawing, Line, Text, extent, text_width
from weighin.ui.charts.scales import Axis, step_for, ticks
from weighin.ui.charts.widths import PHONE, WHOLE

SVG = "{http://www.w3.org/2000/svg}"


def parsed(drawing: Drawing) -> ET.Element:
    text = charts.svg(drawing, "a-chart").replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return ET.fromstring(text)


def test_title_and_description_are_named_by_the_picture(drawing):
    root = parsed(drawing)
    assert root.get("role") == "img"
    named = {element.get("id"): element.text for element in root if element.get("id")}
    assert named[root.get("aria-labelledby")] == drawing.title
    assert named[root.get("aria-describedby")] == drawing.description
    assert drawing.title and any(figure.isdigit() for figure in drawing.description)


def test_every_mark_stands_inside_the_frame(drawing):
    for mark in drawing.marks:
        left, top, right, bottom = extent(mark)
        assert left >= -0.5 and top >= -0.5, mark
        assert right <= drawing.width + 0.5 and bottom <= drawing.height + 0.5, mark


def test_words_are_text_and_looks_are_classes(drawing):
    root = parsed(drawing)
    words = [element.text for element in root.iter(f"{SVG}text")]
    assert words == [mark.words for mark in drawing.marks if isinstance(mark, Text)]
    for element in root.iter():
        assert element.get("style") is None and element.get("fill") is None and element.get("stroke") is None
        assert set((element.get("class") or "").split()) <= set(LOOKS) | {"chart"}


def test_words_do_not_cover_one_another(drawing):
    boxes = [(mark.words, extent(mark)) for mark in drawing.marks if isinstance(mark, Text)]
    for number, (one, a) in enumerate(boxes):
        for other, b in boxes[number + 1 :]:
            clear = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 1 or b[3] <= a[1] + 1
            assert clear, f"{one!r} and {other!r} overlap"


def test_every_look_has_its_form():
    css = Path(finders.find("weighin/css/charts.css")).read_text()
    for look in LOOKS:
        assert re.search(rf"\.{look}\b", css), look


def test_words_from_outside_are_escaped():
    day = charts.EventRate("<b>Reed & Son</b>", "", charts.Rate(1, 20, 0.0, 0.2))
    drawn = charts.svg(charts.events_dots([day], title='"Reed" <i>'), "x")
    assert "&lt;b&gt;Reed &amp; Son" in drawn and "<b>" not in drawn and "<i>" not in drawn


def test_dot_and_range_stand_where_the_rate_is():
    # Axis 0 to 20 % from pixel 8 to 680: 6 % stands at 8 + 672 * 0.3 = 209.6.
    drawing = charts.interval_strip(charts.Rate(6, 100, 0.02, 0.12), title="six", stop=0.1, width=720)
    (dot,) = [mark for mark in drawing.marks if isinstance(mark, Circle)]
    (span,) = [mark for mark in drawing.marks if isinstance(mark, Line) and mark.look == "broad"]
    ticked = [mark.words for mark in drawing.marks if isinstance(mark, Text)]
    assert ticked[:3] == ["0", "5", "10"]
    assert dot.x == pytest.approx(8 + 672 * 6 / 15)
    assert (span.x1, span.x2) == pytest.approx((8 + 672 * 2 / 15, 8 + 672 * 12 / 15))


def test_days_of_one_temperature_stand_side_by_side_and_keep_their_counts():
    days = [charts.TemperatureRate(80, charts.Rate(dead, 120, 0.0, 0.4)) for dead in (3, 7, 11)]
    drawing = charts.temperature_scatter(days, title="t", width=310)
    places = sorted(mark.x for mark in drawing.marks if isinstance(mark, Circle))
    assert min(b - a for a, b in pairwise(places)) >= 12
    words = [mark.words for mark in drawing.marks if isinstance(mark, Text)]
    assert words.count("120") == 3 and {"3", "7", "11"} <= set(words)


@pytest.mark.parametrize("dead,fish", [(0, 5), (5, 5), (1, 1), (0, 4000)])
def test_rates_at_the_edge_are_drawn_inside(dead, fish):
    rate = charts.Rate(dead, fish, 0.0 if dead == 0 else 0.3, 1.0 if dead == fish else 0.4)
    for drawing in (
        charts.interval_strip(rate, title="t", stop=0.1, width=310),
        charts.events_dots([charts.EventRate("E", "", rate)], title="t", stop=0.1, width=310),
        charts.temperature_scatter([charts.TemperatureRate(70, rate)], title="t", stop=0.1, width=310),
    ):
        for mark in drawing.marks:
            left, _, right, bottom = extent(mark)
            assert left >= -0.5 and right <= 310.5 and bottom <= drawing.height + 0.5, mark


@pytest.mark.parametrize("values", [(3, 2, 0.1, 0.9), (1, 0, 0, 1), (-1, 5, 0, 1), (1, 2, 0.6, 0.9), (1, 2, 0.1, 1.2)])
def test_what_is_not_a_rate_is_refused(values):
    with pytest.raises(ValueError, match="not a rate|does not hold"):
        charts.Rate(*values)


def test_nothing_to_draw_is_refused_in_words():
    with pytest.raises(ValueError, match="no event"):
        charts.events_dots([], title="t")
    with pytest.raises(ValueError, match="no day"):
        charts.temperature_scatter([], title="t")
    with pytest.raises(ValueError, match="two points"):
        charts.over_the_day([charts.Panel("x", (charts.DayLine("a", "1", ((0, 1),)),))], title="t", description="d")


@pytest.mark.parametrize(
    "low,high,most", [(0, 17.5, 4), (53, 87, 9), (-3, 4, 5), (0, 0.003, 4), (0, 100, 1), (61, 61.5, 9)]
)
def test_ticks_are_round_few_and_hold_the_values(low, high, most):
    found = ticks(low, high, most)
    assert found[0] <= low and found[-1] >= high
    assert 1 <= len(found) - 1 <= most
    step = step_for(low, high, most)
    assert f"{step:e}"[0] in "125"


def test_an_axis_holds_values_to_itself():
    axis = Axis(0, 10, 100, 200)
    assert (axis.at(5), axis.at(-1), axis.at(11)) == (150, 100, 200)
    with pytest.raises(ValueError, match="cannot be drawn"):
        ticks(5, 5, 4)


def test_no_dead_fish_is_never_drawn_as_none_at_all():
    none = charts.Rate(0, 157, 0.0, 0.024)
    assert none.seen() == "none seen"
    assert none.said() == "0 of 157 fish dead, range up to 2.4\u00a0%"
    rows = [charts.EventRate("Icebreaker", "14 Mar", none)]
    dots = charts.events_dots(rows, title="none", width=WHOLE)
    scatter = charts.temperature_scatter([charts.TemperatureRate(54, none)], title="none", width=WHOLE)
    for drawing in (dots, scatter):
        words = [mark.words for mark in drawing.marks if isinstance(mark, Text)]
        assert ("none seen" in words) is (drawing is dots)
        assert not any(word.startswith("0.0") or word == "0\u00a0%" for word in words)


@pytest.mark.parametrize("share,high", [(0.064, 0.163), (0.02, 0.06), (0.3, 0.9)])
@pytest.mark.parametrize("stop", [0.05, 0.1, 0.125, 0.5])
def test_a_phone_strip_names_the_stop_level_inside_its_frame(share, high, stop):
    rate = charts.Rate(round(1000 * share), 1000, 0.0, high)
    drawing = charts.interval_strip(rate, title="strip", stop=stop, width=PHONE)
    for mark in drawing.marks:
        left, _, right, _ = extent(mark)
        assert left >= -0.5 and right <= PHONE + 0.5, mark
    assert any(isinstance(mark, Text) and f"{100 * stop:g}\u00a0%" in mark.words for mark in drawing.marks)


def test_dots_close_by_keep_their_labels_on_the_side_that_is_free():
    """61 and 62.5 degrees stand side by side: the cooler one's label goes to its left."""
    points = [
        charts.TemperatureRate(t, charts.Rate(dead, 170, 0.0, 0.2))
        for t, dead in ((54, 2), (61, 3), (62.5, 4), (86, 4))
    ]
    drawing = charts.temperature_scatter(points, title="Rates by lake temperature")
    labels = [mark for mark in drawing.marks if isinstance(mark, Text) and "strong" in mark.look]
    dots = sorted(mark.x for mark in drawing.marks if isinstance(mark, Circle))
    assert len(labels) == 4
    assert (labels[1].anchor, labels[2].anchor) == ("end", "start")
    assert labels[1].x < dots[1] < dots[2] < labels[2].x


def test_a_number_of_fish_starts_at_zero():
    points = [charts.TemperatureRate(n, charts.Rate(5, n, 0.0, 0.2)) for n in (152, 165, 282)]
    drawing = charts.temperature_scatter(points, title="By size", unit="fish", from_zero=True)
    words = [mark.words for mark in drawing.marks if isinstance(mark, Text) and mark.anchor == "middle"]
    assert words[0] == "0"


@pytest.mark.parametrize("words", ["2\u00a0%", "19\u00a0%", "0.5\u00a0%", "19.1\u00a0%", "100\u00a0%"])
def test_bold_figures_have_the_room_that_the_broadest_usual_font_takes(words):
    # DejaVu Sans Bold by its own metrics, as reportlab reads them
    register_fonts()
    assert text_width(words, bold=True) >= pdfmetrics.stringWidth(words, STRONG, TEXT)
