"""The standings drawn: who had the highest total as the day went on, and how the boats' weights lie apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, time
from decimal import Decimal
from statistics import median

from django.utils.safestring import SafeString
from django.utils.translation import gettext, ngettext

from weighin.rules.ranking import Ranked
from weighin.rules.weights import rounded, spoken
from weighin.standings.queries.days import days_of
from weighin.standings.queries.standings import Standings
from weighin.ui import charts, figures
from weighin.ui.charts import Drawings
from weighin.ui.places import written
from weighin.ui.templatetags.ui import weight

LEAST = 3  # boats of which a picture says more than the list


@dataclass(frozen=True)
class Weighing:
    """A boat's slip of the day: its moment by the event's clock, and the total that the team came to with it."""

    at: datetime
    team: str
    total: Decimal


@dataclass(frozen=True)
class Lead:
    """The highest totals of the day, each with its moment and team, and the drawing of them."""

    said: str
    drawings: Drawings
    changes: Sequence[tuple[str, str, str]]


@dataclass(frozen=True)
class Bags:
    """How the boats' weights, and the fish of each, lie apart; of each boat its number, fish, weight and average fish.

    ``rows`` are these as a table has them: cell by cell through a template 300 of them take a tenth of the page's time.
    """

    said: str
    drawings: Drawings
    boats: Sequence[tuple[int, int, str, str]]
    rows: SafeString


def lead_of(standings: Standings) -> Lead | None:
    """The last day that was begun; None before three boats of it are weighed, or where a slip of it has no time."""
    begun = [day for day in days_of(standings) if day.begun]
    if not begun:
        return None
    day = begun[-1]
    weighings = _weighings(standings, day.number)
    if weighings is None or len(weighings) < LEAST or weighings[0].at == weighings[-1].at:
        return None
    zone, unit = standings.table.calendar.zone, standings.event.weight_unit
    midnight = datetime.combine(day.date, time(), zone)

    def minute(moment: datetime) -> float:
        return (moment - midnight).total_seconds() / 60

    highest: list[Weighing] = []
    highest_points: list[tuple[float, float]] = []
    paid_points: list[tuple[float, float]] = []
    paid = standings.outcome.purse.places_paid
    totals: list[Decimal] = []
    for one in weighings:
        totals = sorted([*totals, one.total], reverse=True)
        if not highest or one.total > highest[-1].total:
            highest.append(one)
        _step(highest_points, minute(one.at), float(totals[0]))
        if 1 < paid <= len(totals):
            _step(paid_points, minute(one.at), float(totals[paid - 1]))
    lines = [charts.DayLine(gettext("highest"), weight(totals[0], unit), tuple(highest_points))]
    if len(paid_points) > 1:
        name = gettext("place %(place)s") % {"place": paid}
        lines.append(charts.DayLine(name, weight(totals[paid - 1], unit), tuple(paid_points), compared=True))
    said = _lead_said(highest, unit)
    changes = [(figures.clock(one.at), one.team, weight(one.total, unit)) for one in highest]
    drawings = charts.drawn(
        charts.over_the_day,
        [charts.Panel(_scale_unit(unit), tuple(lines))],
        title=said,
        description="; ".join(f"{at}: {team}, {total}" for at, team, total in changes) + ".",
    )
    return Lead(said, drawings, changes)


def bags_of(standings: Standings) -> Bags | None:
    """The boats with fish on the scale; None before there are three."""
    unit = standings.event.weight_unit
    rows = [row.result for row in standings.outcome.ranked if row.result.weighed and row.result.gross > 0]
    if len(rows) < LEAST:
        return None
    weighed = [row.gross for row in rows]
    each = [row.gross / row.weighed for row in rows]
    fish = sum(row.weighed for row in rows)
    said = gettext(
        "Half of the %(boats)s boats weighed %(half)s or more, the heaviest %(most)s. A fish weighed %(mean)s on average (%(fish)s fish)."
    ) % {
        "boats": len(rows),
        "half": spoken(_about(median(weighed), unit), unit),
        "most": spoken(max(weighed), unit),
        "mean": spoken(_about(sum(weighed, Decimal(0)) / fish, unit), unit),
        "fish": f"{fish:,}",
    }
    panels = [
        charts.Spread(words, _scale_unit(unit), tuple(map(float, values)), float(median(values)))
        for words, values in ((gettext("Boats"), weighed), (gettext("Average fish of each boat"), each))
    ]
    drawings = charts.drawn(charts.spreads, panels, title=said, description=_bags_described(weighed, each, unit))
    boats = [
        (row.team.boat, row.weighed, weight(row.gross, unit), weight(_about(of_each, unit), unit))
        for row, of_each in sorted(zip(rows, each, strict=True), key=lambda one: -one[0].gross)
    ]
    row = "<tr><th>{}</th><td>{}</td><td>{}</td><td>{}</td></tr>"
    return Bags(said, drawings, boats, SafeString("".join([written(row, *boat) for boat in boats])))


def _bags_described(weighed: Sequence[Decimal], each: Sequence[Decimal], unit: str) -> str:
    said = gettext("Boats from %(low)s to %(high)s; the average fish of a boat from %(least)s to %(most)s.")
    return said % {
        "low": spoken(min(weighed), unit),
        "high": spoken(max(weighed), unit),
        "least": spoken(_about(min(each), unit), unit),
        "most": spoken(_about(max(each), unit), unit),
    }


def _weighings(standings: Standings, day: int) -> list[Weighing] | None:
    """The slips that count of a day by their time; None where one of them has none."""
    zone = standings.table.calendar.zone
    found = []
    for row in standings.outcome.ranked:
        if row.place is None or all(of.day != day for of in row.result.days):
            continue
        slip = standings.slips[row.result.team.boat, day][0]
        if slip.weighed is None:
            return None
        found.append(Weighing(slip.weighed.astimezone(zone), row.result.team.name, _up_to(row, day)))
    return sorted(found, key=lambda one: one.at)


def _up_to(row: Ranked, day: int) -> Decimal:
    return sum((of.score.total for of in row.result.days if of.day <= day), Decimal(0))


def _lead_said(highest: Sequence[Weighing], unit: str) -> str:
    last = highest[-1]
    said = gettext("Highest total: %(team)s, %(total)s, weighed at %(at)s.") % {
        "team": last.team,
        "total": spoken(last.total, unit),
        "at": figures.clock(last.at),
    }
    changes = len(highest) - 1
    if not changes:
        return said
    return f"{said} " + ngettext("The lead changed once.", "The lead changed %(n)s times.", changes) % {"n": changes}


def _step(points: list[tuple[float, float]], minute: float, value: float) -> None:
    """A value holds until the next one comes; a level has its two ends alone, since a phone loads every point."""
    if len(points) > 1 and points[-1][1] == points[-2][1]:
        points.pop()
    if points:
        points.append((minute, points[-1][1]))
    if not points or points[-1][1] != value:
        points.append((minute, value))


def _about(value: Decimal, unit: str) -> Decimal:
    """A weight that was divided, to what a scale shows: a hundredth, of pounds and ounces a half ounce."""
    return rounded(value * 32, 0) / 32 if unit == "lb-oz" else rounded(value)


def _scale_unit(unit: str) -> str:
    """The unit of the scale under a drawing: pounds where weights are pounds and ounces."""
    return "lb" if unit == "lb-oz" else unit
