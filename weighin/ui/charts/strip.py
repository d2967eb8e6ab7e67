"""One rate on a scale from zero: its dot, its 95 % range and our stop level."""

from django.utils.translation import gettext

from weighin.ui.charts.drawing import Circle, Drawing, Line, Mark, Text, text_width
from weighin.ui.charts.rates import Rate, level
from weighin.ui.charts.scales import Axis, figures, ticks

HEIGHT = 76.0


def interval_strip(rate: Rate, *, title: str, stop: float | None = None, width: float = 720.0) -> Drawing:
    """``stop`` is our stop level as a share of 1; ``width`` the pixels to draw for (240 and more)."""
    most = max(rate.high, stop or 0.0, 0.05) * 100
    marks_at = ticks(0, min(most * 1.15, 100), 4)
    axis = Axis(0, marks_at[-1], 8, width - 40)
    zero = 50.0
    marks: list[Mark] = [Line(axis.start, zero, axis.end, zero, "axis")]
    for value in marks_at:
        unit = f"{figures(value)}\u00a0%" if value == marks_at[-1] else figures(value)
        marks.append(Line(axis.at(value), zero, axis.at(value), zero + 5, "axis"))
        marks.append(Text(axis.at(value), zero + 22, unit, anchor="middle"))
    if stop is not None:
        place, words = axis.at(100 * stop), gettext("our stop level, %(level)s") % {"level": level(stop)}
        if text_width(words) > max(width - place, place) - 6:
            words = gettext("stop level %(level)s") % {"level": level(stop)}
        marks.append(Line(place, 4, place, zero, "limit"))
        if place + 6 + text_width(words) <= width:
            marks.append(Text(place + 6, 15, words, "ink halo"))
        else:
            marks.append(Text(place - 6, 15, words, "ink halo", "end"))
    marks.append(Line(axis.at(100 * rate.low), 34, axis.at(100 * rate.high), 34, "broad"))
    marks.append(Circle(axis.at(100 * rate.share), 34, 8, "dot"))
    said = rate.said() + "."
    if stop is not None:
        said += " " + gettext("Our stop level is %(level)s.") % {"level": level(stop)}
    return Drawing(title, said, width, HEIGHT, tuple(marks))
