"""The charts of dead fish: as chart, data and title, so that page (three widths) and paper draw the same."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext

from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.temperature_curve import TemperatureCurve
from weighin.mortality.domain.words import counted
from weighin.mortality.pages.season_words import event_note, events_title, title
from weighin.mortality.queries.funnel_plot import funnel_plot_of
from weighin.mortality.queries.practices import Compared
from weighin.mortality.queries.season import SeasonMortality
from weighin.mortality.queries.stop_level import StopLevel
from weighin.mortality.queries.trend import Trend
from weighin.survival.clusters import Clustered
from weighin.ui import charts
from weighin.ui.charts import Drawing, Drawings


@dataclass(frozen=True)
class Figure:
    """A chart waiting for its width."""

    chart: Callable[..., Drawing]
    data: Any
    options: dict[str, Any]

    def at(self, width: float) -> Drawing:
        """Drawn for one width, in CSS pixels."""
        return self.chart(self.data, **self.options, width=width)

    def drawn(self) -> Drawings:
        """Drawn for the page's three widths."""
        return charts.drawn(self.chart, self.data, **self.options)


def rate_strip(rate: Clustered, title: str, stop: float | None) -> Figure:
    """One rate with its range against the stop level."""
    return Figure(charts.interval_strip, chart_rate(rate), {"title": title, "stop": stop})


def season_strip(found: SeasonMortality) -> Figure | None:
    """The season's rate with the headline's range; None without fish."""
    return rate_strip(found.headline, title(found), found.stop) if found.headline else None


def events_figure(found: SeasonMortality) -> Figure | None:
    """Every event with fish as a dot with its range, the highest rate first; None without any."""
    rows = [
        charts.EventRate(line.event.name, event_note(line, found.unit), chart_rate(line.rate))
        for line in found.worst_first
        if line.rate
    ]
    return Figure(charts.events_dots, rows, {"title": events_title(found), "stop": found.stop}) if rows else None


def temperature_figure(temperature_curve: TemperatureCurve, stop: float | None) -> Figure | None:
    """Rates over the lake's temperature, with the curve where there is one; None with too few events to compare."""
    if not temperature_curve.has_dots:
        return None
    points = [
        charts.TemperatureRate(in_unit(f, temperature_curve.unit), chart_rate(rate))
        for f, rate in temperature_curve.points
    ]
    fit = [
        charts.Fit(in_unit(p.fahrenheit, temperature_curve.unit), p.share, p.low, p.high)
        for p in temperature_curve.curve
    ]
    options = {"title": temperature_curve.title, "unit": f"°{temperature_curve.unit}", "stop": stop, "fit": fit}
    return Figure(charts.temperature_scatter, points, options)


def watch_figure(watched: StopLevel) -> Figure | None:
    """The running rate with its range against the stop level, in the order of the scales; None without fish."""
    rows = [
        charts.EventRate(
            gettext("After %(livewells)s") % {"livewells": counted(step.livewells, "livewell")},
            watched.step_note(step),
            chart_rate(step.rate),
        )
        for step in watched.steps
    ]
    return Figure(charts.events_dots, rows, {"title": watched.title, "stop": watched.stop}) if rows else None


def seasons_figure(found: Trend) -> Figure | None:
    """Every season with fish as a dot with its range, oldest first; None with fewer than two."""
    rows = [
        charts.EventRate(one.season.name, counted(len(one.events), "event"), chart_rate(one.rate))
        for one in found.seasons
    ]
    return Figure(charts.events_dots, rows, {"title": found.title}) if len(rows) > 1 else None


def funnel_figure(found: SeasonMortality) -> Figure | None:
    """Every event's rate over its fish, with where chance alone would put it about the season's; None with too few events."""
    drawn = funnel_plot_of(found)
    if drawn is None:
        return None
    points = [charts.TemperatureRate(line.found.presented, chart_rate(line.rate)) for line in found.fished if line.rate]
    fit = [charts.Fit(size, drawn.rate, within.low, within.high) for size, within in drawn.edge]
    return Figure(
        charts.temperature_scatter, points, {"title": drawn.title, "unit": "fish", "fit": fit, "from_zero": True}
    )


def practices_figure(practices: Sequence[Compared]) -> Figure | None:
    """Each practice on days alike: with it and without it, one above the other; None without any to compare."""
    rows = [
        charts.Pair(
            one.practice.name,
            gettext("%(days)s days") % {"days": gettext(side.days)},
            one.practice.practised,
            chart_rate(side.practised),
            one.practice.otherwise,
            chart_rate(side.otherwise),
        )
        for one in practices
        for side in one.sides
        if side.practised and side.otherwise
    ]
    return (
        Figure(charts.paired_dots, rows, {"title": gettext("Share dead by release, with each practice and without it")})
        if rows
        else None
    )


def chart_rate(rate: Clustered) -> charts.Rate:
    """A clustered rate as the charts take it; parts of a fish stay, and what only adding them up lost comes back."""
    return charts.Rate(round(rate.dead, 9), int(rate.n), rate.low, rate.high)
