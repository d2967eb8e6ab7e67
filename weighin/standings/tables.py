"""The ledger of standings: one row a team, sortable, each total with the way to the lines that made it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

import django_tables2 as tables
from django.utils.translation import gettext, gettext_lazy

from weighin.rules.ranking import Ranked
from weighin.rules.words.scores import days_lost_said, status_in_words
from weighin.standings.queries.days import statuses_said
from weighin.standings.queries.ledger_lines import LedgerLine, Prizes, levels
from weighin.standings.queries.standings import Standings, angler_names
from weighin.ui.tables import RuledTable, ordered_by


@dataclass
class StandingRow:
    """A team's row in the words and figures the page shows."""

    order: int
    place: int | None
    tied: bool
    status: str
    boat: int
    team: str
    level: str
    fish: int
    fish_note: str
    weighed: Decimal
    penalty: Decimal
    total: Decimal
    big_fish: Decimal | None
    payout: Decimal
    pot: Decimal
    bonus: Decimal
    unpaid: bool
    points: Decimal
    made_cut: bool | None
    has_slip: bool
    lost: Decimal
    lost_said: str
    days: list[Decimal]
    days_weighed: frozenset[int]
    lines: Sequence[LedgerLine] = ()
    notes: Sequence[str] = ()


MOST_DAY_COLUMNS = 4  # more days than fit beside the total stand in the team's own cell


def standings_table(rows: list[StandingRow], days: Sequence[int], prizes: Prizes | None) -> "StandingsTable":
    """The table with a column for each of ``days`` of an event of several, and the ``prizes`` if any."""
    columns = [
        (
            f"day_{day}",
            tables.Column(
                gettext("Day %(day)s") % {"day": day}, accessor=f"days__{place}", attrs={"th": {"class": "num day"}}
            ),
        )
        for place, day in enumerate(days)
    ]
    order = list(StandingsTable.Meta.sequence)
    order[4:4] = [name for name, _ in columns]
    table = StandingsTable(rows, extra_columns=columns, sequence=order, exclude=() if prizes else ("payout",))
    if prizes:
        table.columns["payout"].column.verbose_name = prizes.label
    return table


class StandingsTable(RuledTable):
    """Standings as a ledger; the default order is the order of the list."""

    place = tables.Column(verbose_name=gettext_lazy("Place"), order_by="order", attrs={"th": {"class": "place"}})
    boat = tables.Column(verbose_name=gettext_lazy("Boat"), attrs={"th": {"class": "boat"}})
    team = tables.Column(verbose_name=gettext_lazy("Team"), attrs={"th": {"class": "team"}})
    fish = tables.Column(verbose_name=gettext_lazy("Fish"), attrs={"th": {"class": "fish"}})
    weighed = tables.Column(verbose_name=gettext_lazy("Net weight"), attrs={"th": {"class": "num weighed"}})
    penalty = tables.Column(verbose_name=gettext_lazy("Penalty"), attrs={"th": {"class": "taken-off"}})
    total = tables.Column(verbose_name=gettext_lazy("Total"), attrs={"th": {"class": "total"}})
    big_fish = tables.Column(
        verbose_name=gettext_lazy("Big fish"), empty_values=(), attrs={"th": {"class": "num big-fish"}}
    )
    payout = tables.Column(verbose_name=gettext_lazy("Prize"), attrs={"th": {"class": "num prize"}})

    look = "ledger"
    stacks = False

    class Meta:
        sequence = ("place", "boat", "team", "fish", "weighed", "penalty", "total", "big_fish", "payout")
        order_by_field = "sort"
        empty_text = gettext_lazy("No team is entered yet. Places appear with the first slip.")

    order_big_fish = ordered_by(lambda row: row.big_fish or Decimal(-1))


def standing_rows(standings: Standings, search: str = "", by_angler: bool = False) -> list[StandingRow]:
    """The rows of the list in its order; ``search`` keeps those whose team or boat holds the words.

    ``by_angler`` looks in the anglers' names too: only for readers who may see these.
    """
    ranked = standings.outcome.ranked
    level, statuses = levels(ranked), statuses_said(standings)
    rows = [_row(standings, number, row, level, statuses) for number, row in enumerate(ranked)]
    wanted = search.strip().casefold()
    if wanted:
        anglers = angler_names(standings.event) if by_angler else {}
        rows = [
            row
            for row in rows
            if wanted == str(row.boat) or wanted in f"{row.team}\n{anglers.get(row.boat, '')}".casefold()
        ]
    return rows


def _row(
    standings: Standings, order: int, row: Ranked, level: Mapping[int, str], statuses: Mapping[int, str]
) -> StandingRow:
    result, boat = row.result, row.result.team.boat
    purse = standings.outcome.purse
    pot = purse.pot_prizes.get(boat, Decimal(0))
    lost = [day for day in result.days if day.score.lost]
    return StandingRow(
        order=order,
        place=row.place,
        tied=row.tied,
        status=statuses.get(boat, status_in_words(result.status)),
        boat=boat,
        team=result.team.name,
        level=level.get(boat, ""),
        fish=result.fish,
        fish_note=fish_note(result.fish, result.dead, sum(day.slip.short for day in result.days)),
        weighed=result.gross,
        penalty=result.penalty,
        total=result.total,
        big_fish=result.big_fish,
        payout=purse.prizes.get(boat, Decimal(0)),
        pot=pot,
        bonus=result.bonus,
        unpaid=row.place is not None and not result.team.paid and purse.purse > 0,
        points=standings.outcome.points[boat],
        made_cut=row.made_cut,
        has_slip=bool(result.days),
        lost=sum((day.score.net for day in lost), Decimal(0)),
        lost_said=days_lost_said([day.day for day in lost]),
        days=[result.total_of(day) for day in day_columns(standings)],
        days_weighed=frozenset(day.day for day in result.days),
    )


def day_columns(standings: Standings) -> list[int]:
    """The days that have a column: those fished of an event of several."""
    days = standings.table.calendar.fished
    return days if len(days) > 1 else []


def fish_note(fish: int, dead: int, short: int) -> str:
    """What is said beside the number of fish."""
    if fish == 0:
        return ""
    notes = [gettext("%(dead)s dead") % {"dead": dead} if dead else gettext("all alive")]
    if short:
        notes.append(gettext("%(short)s short") % {"short": short})
    return ", ".join(notes)


def is_order(text: str) -> bool:
    """Whether the table offers to be put in this order, as its links ask for it."""
    return text.removeprefix("-") in StandingsTable.base_columns
