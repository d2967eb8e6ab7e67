"""Charts as lists of marks: drawn once, written as SVG for the page and by the reports as PDF."""

from weighin.ui.charts.day import DayLine, Panel, over_the_day
from weighin.ui.charts.drawing import Drawing
from weighin.ui.charts.events import EventRate, events_dots
from weighin.ui.charts.pairs import Pair, paired_dots
from weighin.ui.charts.rates import Rate
from weighin.ui.charts.spread import Spread, spreads
from weighin.ui.charts.strip import interval_strip
from weighin.ui.charts.svg import svg
from weighin.ui.charts.temperature import Fit, TemperatureRate, temperature_scatter
from weighin.ui.charts.widths import Drawings, drawn

__all__ = [
    "DayLine",
    "Drawing",
    "Drawings",
    "EventRate",
    "Fit",
    "Pair",
    "Panel",
    "Rate",
    "Spread",
    "TemperatureRate",
    "drawn",
    "events_dots",
    "interval_strip",
    "over_the_day",
    "paired_dots",
    "spreads",
    "svg",
    "temperature_scatter",
]
