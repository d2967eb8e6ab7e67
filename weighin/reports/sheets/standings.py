"""The standings as one sheet, for CSV, XLSX and PDF alike."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext

from weighin.reports.domain.sheet import Sheet, SheetColumn, Value
from weighin.reports.queries.event_json import WholeEvent
from weighin.rules import weights
from weighin.rules.ranking import Ranked
from weighin.rules.words.scores import explain, lost_in_words
from weighin.standings.queries.days import days_of, stage_of, statuses_said
from weighin.standings.queries.document import stands
from weighin.standings.queries.ledger_lines import levels
from weighin.standings.queries.standings import Standings, official_results
from weighin.standings.tables import day_columns


@dataclass(frozen=True)
class State:
    """Whether the standings are official, in words with the day after which they stand; and the head over a prize."""

    official: bool
    words: str
    stage: str

    @property
    def prizes(self) -> tuple[str, str]:
        """The heads over a prize, and over one of the big fish pot."""
        if self.official:
            return gettext("Prize"), gettext("Big fish prize")
        return gettext("Prize if it ended now"), gettext("Big fish prize if it ended now")


def state_of(whole: WholeEvent) -> State:
    """``provisional``, ``official, version 2, after day 1 of 2``."""
    official = next(iter(official_results(whole.event)), None)
    if official is not None and stands(official, whole.standings, whole.ledger):
        parts = [gettext("official"), gettext("version %(version)s") % {"version": official.version}, official.stage]
        return State(True, ", ".join(filter(None, parts)), official.stage)
    stage = stage_of(days_of(whole.standings))
    return State(False, ", ".join(filter(None, (gettext("provisional"), stage))), stage)


def standings_sheet(whole: WholeEvent, state: State | None = None) -> Sheet:
    """One row a team in the order of the list: place, counts, weights, what was taken off and why, prize, points.

    An event of several days has a column for each. A boat that is not weighed has no weights: blank, never 0.
    """
    standings = whole.standings
    unit = whole.event.weight_unit
    state = state or state_of(whole)
    days, (prize, pot_prize) = day_columns(standings), state.prizes
    return Sheet(
        title=gettext("Standings, %(name)s, %(words)s") % {"name": whole.event.name, "words": state.words},
        columns=(
            SheetColumn(gettext("Place"), True, 1.15),
            SheetColumn(gettext("Boat"), True, 0.6),
            SheetColumn(gettext("Team"), width=2.2),
            SheetColumn(gettext("Fish"), True, 0.6),
            SheetColumn(gettext("Dead"), True, 0.72),
            *(SheetColumn(gettext("Day %(day)s, %(unit)s") % {"day": day, "unit": unit}, True, 0.8) for day in days),
            SheetColumn(gettext("Net weight, %(unit)s") % {"unit": unit}, True, 1.05),
            SheetColumn(gettext("Penalty, and what for"), width=2.6),
            SheetColumn(gettext("Bonus, %(unit)s") % {"unit": unit}, True, 0.85),
            SheetColumn(
                (gettext("Total %(stage)s, %(unit)s") if state.stage else gettext("Total, %(unit)s"))
                % {"stage": state.stage, "unit": unit},
                True,
                0.95,
            ),
            SheetColumn(gettext("Big fish, %(unit)s") % {"unit": unit}, True, 0.95),
            SheetColumn(prize, True, 1),
            SheetColumn(pot_prize, True, 0.95),
            SheetColumn(gettext("Points"), True, 0.75),
        ),
        rows=list(_rows(standings)),
    )


def _rows(standings: Standings) -> Iterator[list[Value]]:
    outcome, unit = standings.outcome, standings.event.weight_unit
    statuses, days = statuses_said(standings), day_columns(standings)
    for row in outcome.ranked:
        result, boat = row.result, row.result.team.boat
        yield [
            statuses[boat]
            if row.place is None
            else gettext("%(place)s tied") % {"place": row.place}
            if row.tied
            else row.place,
            boat,
            result.team.name,
            result.fish if result.days else None,
            result.dead if result.days else None,
            *(_weight(result.totals.get(day), unit) for day in days),
            _weight(result.gross, unit) if result.days else None,
            "; ".join(_taken_off(standings, row)),
            _weight(result.bonus, unit) if result.bonus else None,
            _weight(result.total, unit) if result.days else None,
            _weight(result.big_fish, unit),
            outcome.purse.prizes.get(boat),
            outcome.purse.pot_prizes.get(boat),
            outcome.points[boat],
        ]


def _weight(value: Decimal | None, unit: str) -> Value:
    """A figure where the unit has decimals; pounds and ounces stay text."""
    if value is None:
        return None
    shown = weights.show(value, unit)
    return shown if unit == "lb-oz" else Decimal(shown)


def _taken_off(standings: Standings, row: Ranked) -> Iterator[str]:
    several, unit = bool(day_columns(standings)), standings.event.weight_unit
    for day in row.result.days:
        start = gettext("day %(day)s:") % {"day": day.day} + " " if several else ""
        if day.score.lost:
            yield f"{start}{lost_in_words(day.score.lost)} ({_less(day.score.net, unit)})"
        for line in day.score.deductions:
            yield f"{start}{explain(line, standings.rules, day.score)} ({_less(line.amount, unit)})"


def _less(amount: Decimal, unit: str) -> str:
    return f"\N{MINUS SIGN}{weights.show(amount, unit)}"


def ties_in_words(standings: Standings) -> list[str]:
    """A sentence for each team whose total another team has too."""
    level = levels(standings.outcome.ranked)
    return [
        gettext("Boat %(boat)s, %(name)s: %(words)s")
        % {"boat": boat, "name": standings.entries[boat].name, "words": words}
        for boat, words in level.items()
    ]
