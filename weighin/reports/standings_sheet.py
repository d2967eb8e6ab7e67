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
            SheetColumn("Place", True, 1.15),
            SheetColumn("Boat", True, 0.6),
            SheetColumn("Team", width=2.2),
            SheetColumn("Fish", True, 0.6),
            SheetColumn("Dead", True, 0.72),
            SheetColumn(f"Weighed, {unit}", True, 1.05),
            SheetColumn("Taken off, and what for", width=2.6),
            SheetColumn(f"Bonus, {unit}", True, 0.85),
            SheetColumn(f"Total, {unit}", True, 0.95),
            SheetColumn(f"Big fish, {unit}", True, 0.95),
            SheetColumn("Prize", True, 1),
            SheetColumn("Big fish prize", True, 0.95),
            SheetColumn("Points", True, 0.75),
        ),
        rows=list(_rows(standings)),
    )


def _rows(standings: Standings) -> Iterator[list[Value]]:
    outcome, unit = standings.outcome, standings.event.weight_unit
    for row in outcome.ranked:
        result, boat = row.result, row.result.team.boat
        yield [
            _place(row),
            boat,
            result.team.name,
            result.fish,
            result.dead,
            _weight(result.gross, unit),
            "; ".join(_taken_off(standings, row)),
            _weight(result.bonus, unit) if result.bonus else None,
            _weight(result.total, unit),
            _weight(result.big_fish, unit),
            outcome.purse.prizes.get(boat),
            outcome.purse.pot_prizes.get(boat),
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
    several, unit = len(row.result.days) > 1, standings.event.weight_unit
    for day in row.result.days:
        start = f"day {day.day}: " if several else ""
        if day.score.lost:
            yield f"{start}{lost_in_words(day.score.lost)} ({_less(day.score.net, unit)})"
        for line in day.score.deductions:
            yield f"{start}{explain(line, standings.rules, day.score)} ({_less(line.amount, unit)})"


def _less(amount: Decimal, unit: str) -> str:
    return f"\N{MINUS SIGN}{weights.show(amount, unit)}"


def ties_in_words(standings: Standings) -> list[str]:
    """A sentence for each team whose total another team has too."""
    level = levels(standings.outcome.ranked)
    return [f"Boat {boat}, {standings.entries[boat].name}: {words}" for boat, words in level.items()]
