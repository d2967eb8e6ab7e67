"""The standings as one sheet, for CSV, XLSX and PDF alike."""

from collections.abc import Iterator
from decimal import Decimal

from weighin.reports.event_json import WholeEvent
from weighin.reports.sheet import Sheet, SheetColumn, Value
from weighin.rules import weights
from weighin.rules.ranking import Ranked
from weighin.rules.words import explain, lost_in_words, status_in_words
from weighin.standings.explaining import levels
from weighin.standings.queries import Standings


def standings_sheet(whole: WholeEvent) -> Sheet:
    """One row a team in the order of the list: place, counts, weights, what was taken off and why, prize, points."""
    standings = whole.standings
    unit = whole.event.weight_unit
    return Sheet(
        title=f"Standings, {whole.event.name}",
        columns=(
            SheetColumn("Place", True, 0.75),
            SheetColumn("Boat", True, 0.6),
            SheetColumn("Team", width=2.6),
            SheetColumn("Fish", True, 0.6),
            SheetColumn("Dead", True, 0.72),
            SheetColumn(f"Weighed, {unit}", True, 1.05),
            SheetColumn("Taken off, and what for", width=2.9),
            SheetColumn(f"Total, {unit}", True, 1),
            SheetColumn(f"Big fish, {unit}", True, 0.95),
            SheetColumn("Prize", True, 1),
            SheetColumn("Points", True, 0.75),
        ),
        rows=list(_rows(standings)),
    )


def _rows(standings: Standings) -> Iterator[list[Value]]:
    outcome, unit = standings.outcome, standings.event.weight_unit
    for row in outcome.ranked:
        result, boat = row.result, row.result.team.boat
        prize = outcome.purse.prizes.get(boat, Decimal(0)) + outcome.purse.pot_prizes.get(boat, Decimal(0))
        yield [
            _place(row),
            boat,
            result.team.name,
            result.fish,
            result.dead,
            _weight(result.gross, unit),
            "; ".join(_taken_off(standings, row)),
            _weight(result.total, unit),
            _weight(result.big_fish, unit),
            prize.quantize(Decimal("0.01")) if prize else None,
            outcome.points[boat],
        ]


def _place(row: Ranked) -> str | int:
    if row.place is None:
        return status_in_words(row.result.status)
    return f"{row.place} tied" if row.tied else row.place


def _weight(value: Decimal | None, unit: str) -> Value:
    """A figure where the unit has decimals; pounds and ounces stay text."""
    if value is None:
        return None
    shown = weights.show(value, unit)
    return shown if unit == "lb-oz" else Decimal(shown)


def _taken_off(standings: Standings, row: Ranked) -> Iterator[str]:
    several = len(row.result.days) > 1
    for day in row.result.days:
        start = f"day {day.day}: " if several else ""
        if day.score.lost:
            yield f"{start}{lost_in_words(day.score.lost)}"
        for line in day.score.deductions:
            yield f"{start}{explain(line, standings.rules, day.score)}"


def ties_in_words(standings: Standings) -> list[str]:
    """A sentence for each team whose total another team has too."""
    level = levels(standings.outcome.ranked)
    return [f"Boat {boat}, {standings.entries[boat].name}: {words}" for boat, words in level.items()]
