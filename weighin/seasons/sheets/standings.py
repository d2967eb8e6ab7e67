"""Season standings as sheets: a column an event."""

from collections.abc import Sequence
from decimal import Decimal

from django.utils.translation import gettext

from weighin.reports.domain.sheet import Sheet, SheetColumn, Value
from weighin.rules.points import SeasonRow
from weighin.rules.values import plain
from weighin.rules.weights import rounded
from weighin.seasons.pages.standings import MOST_BIG_FISH, big_fish
from weighin.seasons.pages.words import class_named, reach_word, weight_said
from weighin.seasons.queries.standings import SeasonStandings
from weighin.ui import figures


def lists(found: SeasonStandings) -> list[Sheet]:
    """Teams, anglers and each class that somebody is in, with points as numbers and the dropped events named."""
    return [
        _sheet(found, gettext("Teams"), gettext("Team"), found.teams),
        _sheet(found, gettext("Anglers"), gettext("Angler"), found.anglers),
        *(_sheet(found, class_named(name), gettext("Team"), rows) for name, rows in found.classes.items() if rows),
    ]


def every_list(found: SeasonStandings) -> Sheet:
    """All of ``lists`` in one, each row with the list it is of."""
    sheets = lists(found)
    columns = [SheetColumn(gettext("List")), *sheets[0].columns]
    columns[3] = SheetColumn(gettext("Name"))
    return Sheet(sheets[0].title, columns, [(sheet.title, *row) for sheet in sheets for row in sheet.rows])


def _sheet(found: SeasonStandings, title: str, who: str, rows: Sequence[SeasonRow]) -> Sheet:
    columns = [
        SheetColumn(gettext("Place"), True),
        SheetColumn(gettext("Tied")),
        SheetColumn(who),
        SheetColumn(gettext("Points"), True),
        *(SheetColumn(event.name, True) for event in found.events),
        SheetColumn(gettext("Dropped")),
        SheetColumn(gettext("Big fish, lb"), True),
        SheetColumn(gettext("Weight of all events, lb"), True),
        SheetColumn(gettext("Best possible"), True),
        SheetColumn(gettext("In reach of the title")),
    ]
    names = {event.slug: event.name for event in found.events}
    return Sheet(title, columns, [_cells(found, row, names) for row in rows])


def _cells(found: SeasonStandings, row: SeasonRow, names: dict[str, str]) -> Sequence[Value]:
    points = {one.event: one.points for one in (*row.counted, *row.dropped)}
    return (
        row.place,
        row.tied,
        row.team,
        row.points,
        *(points.get(event.slug) for event in found.events),
        ", ".join(names[one.event] for one in row.dropped),
        shown(row.big_fish),
        shown(row.total_weight),
        row.best_possible,
        row.in_reach,
    )


def shown(weight: Decimal | None) -> Decimal | None:
    """Pounds to two places, or more where the scale showed more."""
    return None if weight is None else weight if -int(weight.as_tuple().exponent) <= 6 else rounded(weight)


def printed(found: SeasonStandings, title: str, who: str, rows: Sequence[SeasonRow]) -> Sheet:
    """A list to print: events by their day, dropped points in brackets."""
    columns = [
        SheetColumn(gettext("Place"), True, 0.8),
        SheetColumn(who, width=2.6),
        SheetColumn(gettext("Points"), True, 0.9),
        *(SheetColumn(figures.short_day(event.date), True, 0.75) for event in found.events),
        SheetColumn(gettext("Big fish, lb"), True, 0.8),
        SheetColumn(gettext("In reach"), width=0.9),
    ]
    cells = [
        (
            gettext("%(place)s, tied") % {"place": row.place} if row.tied else str(row.place),
            row.team,
            plain(row.points),
            *(bracketed(row, event.slug) for event in found.events),
            weight_said(row.big_fish),
            reach_word(row.in_reach),
        )
        for row in rows
    ]
    return Sheet(title, columns, cells)


def big_fish_sheet(found: SeasonStandings) -> Sheet:
    """The largest fish of the season, one a team and event, the largest first."""
    columns = (
        SheetColumn(gettext("Weight, lb"), True, 0.6),
        SheetColumn(gettext("Team"), width=2),
        SheetColumn(gettext("Event"), width=2),
    )
    rows = [(Decimal(weight), team, event) for weight, team, event in big_fish(found)]
    said = gettext("Of each event the largest fish of each team; at most %(most)s are listed.") % {
        "most": MOST_BIG_FISH
    }
    return Sheet(gettext("Big fish of the year"), columns, rows, after=(said,))


def bracketed(row: SeasonRow, slug: str) -> str:
    """The points of an event, in brackets where they are dropped; empty where the team was not in it."""
    counted = next((one for one in row.counted if one.event == slug), None)
    dropped = next((one for one in row.dropped if one.event == slug), None)
    return plain(counted.points) if counted else f"({plain(dropped.points)})" if dropped else ""
