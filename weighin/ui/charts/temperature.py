"""Share of fish dead by lake temperature: dots with their 95 % ranges, the number of fish under each."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.ui.charts.drawing import Anchor, Circle, Drawing, Line, Mark, Polygon, Polyline, Text, text_width
from weighin.ui.charts.rates import Rate, level, per_cent
from weighin.ui.charts.scales import Axis, figures, ticks

NARROW = 560.0
APART = 18.0
CLOSE = 12.0  # on a phone, with smaller dots: so that no dot stands far from where it belongs


@dataclass(frozen=True)
class TemperatureRate:
    """A day or a band of days at one lake temperature, in the chart's unit."""

    temperature: float
    rate: Rate


@dataclass(frozen=True)
class Fit:
    """One point of a fitted curve and its 95 % range, as shares of 1."""

    temperature: float
    share: float
    low: float
    high: float


def temperature_scatter(
    points: Sequence[TemperatureRate],
    *,
    title: str,
    unit: str = "°F",
    stop: float | None = None,
    fit: Sequence[Fit] = (),
    width: float = 960.0,
    from_zero: bool = False,
) -> Drawing:
    """``from_zero`` lets the axis along the foot begin at 0, as a number of fish does.

    Dots are the evidence; the curve, when there is one, is thin and drawn only where it was given.

    Dots that would cover one another stand side by side. Raises ValueError when there is no point.
    """
    if not points:
        raise ValueError("no day has a lake temperature and fish to draw")
    narrow = width < NARROW
    points = sorted(points, key=lambda point: (point.temperature, point.rate.share))
    across, up = _axes(points, stop, fit, width, narrow, from_zero)
    bottom = up.start
    marks: list[Mark] = [*_grid(up, across, stop, narrow)]
    if fit:
        marks += _curve(fit, across, up)
    places = _side_by_side([across.at(point.temperature) for point in points], CLOSE if narrow else APART)
    for point, x in zip(points, places, strict=True):
        marks.append(Line(x, up.at(100 * point.rate.low), x, up.at(100 * point.rate.high), "span"))
    for point, x in zip(points, places, strict=True):
        marks.append(Circle(x, up.at(100 * point.rate.share), 4.5 if narrow else 8, "dot"))
    if not narrow:
        marks += _labels(points, places, up, width)
    for value in ticks(across.low, across.high, 5 if narrow else 9):
        words = f"{figures(value)}\u00a0{unit}" if value == across.high else figures(value)
        marks.append(Line(across.at(value), bottom, across.at(value), bottom + 5, "axis"))
        marks.append(Text(min(across.at(value), width - text_width(words) / 2), bottom + 23, words, anchor="middle"))
    counts, height = _counts(points, places, bottom + 36, across)
    said = "; ".join(f"{figures(point.temperature)} {unit}: {point.rate.said()}" for point in points)
    limit = " " + gettext("Our stop level is %(level)s.") % {"level": level(stop)} if stop is not None else ""
    return Drawing(title, f"{said}.{limit}", width, height, (*marks, *counts))


def _axes(
    points: Sequence[TemperatureRate],
    stop: float | None,
    fit: Sequence[Fit],
    width: float,
    narrow: bool,
    from_zero: bool,
) -> tuple[Axis, Axis]:
    warmth = [point.temperature for point in points] + [place.temperature for place in fit]
    low, high = 0.0 if from_zero else min(warmth) - 1, max(warmth) + 1
    span = ticks(low, high, 5 if narrow else 9)
    rates = [point.rate.high for point in points] + [place.high for place in fit] + [stop or 0.0, 0.05]
    top = min(ticks(0, max(rates) * 100, 4)[-1], 100.0)
    left = 14 + max(text_width(gettext("dead")), text_width(f"{figures(top)}\u00a0%"))
    across = Axis(span[0], span[-1], left, width - (20 if narrow else 28))
    return across, Axis(0, top, 268 if narrow else 352, 24)


def _grid(up: Axis, across: Axis, stop: float | None, narrow: bool) -> list[Mark]:
    marks: list[Mark] = []
    values = ticks(0, up.high, 4)
    for value in values:
        y = up.at(value)
        words = f"{figures(value)}\u00a0%" if value == values[-1] else figures(value)
        if stop is None or abs(value - 100 * stop) > 1e-9:
            marks.append(Line(across.start, y, across.end, y, "axis" if value == 0 else "grid"))
        marks.append(Text(across.start - 10, y + 5, words, anchor="end"))
    if stop is not None:
        y = up.at(100 * stop)
        marks.append(Line(across.start, y, across.end, y, "limit"))
        words = gettext("our stop level") if narrow else gettext("our stop level, %(level)s") % {"level": level(stop)}
        marks.append(Text(across.start + 4, y - 8, words, "ink halo"))
    return marks


def _curve(fit: Sequence[Fit], across: Axis, up: Axis) -> list[Mark]:
    xs = [across.at(place.temperature) for place in fit]
    high = [(x, up.at(100 * place.high)) for x, place in zip(xs, fit, strict=True)]
    low = [(x, up.at(100 * place.low)) for x, place in zip(xs, fit, strict=True)]
    line = [(x, up.at(100 * place.share)) for x, place in zip(xs, fit, strict=True)]
    return [Polygon((*high, *reversed(low)), "band"), Polyline(tuple(line), "fit")]


def _side_by_side(xs: Sequence[float], apart: float) -> list[float]:
    """Places at least ``apart`` from one another, as near as may be to where they belong, in order."""
    places: list[float] = []
    group: list[float] = []
    for x in [*xs, float("inf")]:
        if group and x - group[-1] >= apart:
            middle = sum(group) / len(group)
            places += [middle + apart * (number - (len(group) - 1) / 2) for number in range(len(group))]
            group = []
        group.append(x)
    return places


def _labels(points: Sequence[TemperatureRate], places: Sequence[float], up: Axis, width: float) -> list[Mark]:
    """The share beside each dot, where it covers no other dot, range or label."""
    marks: list[Mark] = []
    taken: list[tuple[float, float]] = []  # along the foot, of labels already there
    for number, (point, x) in enumerate(zip(points, places, strict=True)):
        if not point.rate.dead:  # it would stand on the axis; the counts below say 0
            continue
        words = per_cent(point.rate.share, 0)
        wide = text_width(words, bold=True)
        before = places[number - 1] if number else -4.0
        after = places[number + 1] if number + 1 < len(places) else width + 4
        sides: tuple[tuple[float, Anchor, float], ...] = ((x + 14, "start", after), (x - 14 - wide, "end", before))
        for left, anchor, clear in sides:
            right = left + wide
            free = right < clear - 4 if anchor == "start" else left > clear + 4
            if free and all(right < start or left > end for start, end in taken):
                at = left if anchor == "start" else right
                marks.append(Text(at, up.at(100 * point.rate.share) + 5, words, "strong halo", anchor))
                taken.append((left, right))
                break
    return marks


def _counts(
    points: Sequence[TemperatureRate], places: Sequence[float], top: float, across: Axis
) -> tuple[list[Mark], float]:
    """Fish and dead under each dot, in as many tiers as it takes for them to stand clear of one another."""
    ends: list[float] = []
    marks: list[Mark] = []
    for point, x in zip(points, places, strict=True):
        half = max(text_width(str(point.rate.fish)), text_width(point.rate.counted)) / 2 + 3
        tier = next((number for number, end in enumerate(ends) if x - half > end), len(ends))
        if tier == len(ends):
            ends.append(x + half)
        ends[tier] = x + half
        y = top + 46 * tier
        marks.append(Text(x, y + 16, str(point.rate.fish), "ink", "middle"))
        marks.append(Text(x, y + 36, point.rate.counted, "ink", "middle"))
    for tier in range(len(ends)):
        y = top + 46 * tier
        marks.append(Line(0, y, across.end, y, "grid"))
        marks.append(Text(0, y + 16, gettext("fish")))
        marks.append(Text(0, y + 36, gettext("dead")))
    return marks, top + 46 * len(ends) - 2
