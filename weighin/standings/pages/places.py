"""Standings and official results as lists of places: what each cell of a team's row says."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from django.http import QueryDict
from django.template.loader import render_to_string
from django.utils.safestring import SafeString
from django.utils.translation import gettext, npgettext

from weighin.events.models import Event
from weighin.standings.models import OfficialResult
from weighin.standings.queries.standings import result_days, result_rows
from weighin.standings.tables import StandingRow, StandingsTable, fish_note
from weighin.ui.figures import SPACE, money
from weighin.ui.places import Cell, Column, Places, Row, place_said, written
from weighin.ui.templatetags.ui import taken_off, weight

FIRST = 30  # rows shown before the rest is folded
WHY = '<a class="why" href="?why={}#boat-{}" data-why="{}" data-lines="{}" aria-expanded="{}">{}</a>'


def live_places(
    table: StandingsTable, event: Event, query: QueryDict, days: Sequence[int], lines_at: str, empty: str
) -> Places:
    """The standings as they are, in the order of the ``table``; ``lines_at`` is the address of the lines of boat 0."""
    unit, labels = event.weight_unit, _labels()
    look = {"unit": unit, "days": days, "prize": "payout" in table.columns}
    columns = []
    for column in table.columns:
        asked = query.copy()
        asked[table.prefixed_order_by_field] = column.order_by_alias.next
        words = f"{column.header}, {unit}" if column.name == "total" else column.header
        label = str(column.header) if column.name == "payout" else labels.get(column.name, "")
        down = "descending" if column.order_by_alias.is_descending else "ascending"
        columns.append(
            Column(
                column.attrs["th"]["class"], words, label, f"?{asked.urlencode()}", down if column.is_ordered else ""
            )
        )
    names = [column.name for column in table.columns]
    rows = []
    for item in table.rows:
        row = item.record
        row.unpaid = row.unpaid and look["prize"]  # told where prizes are
        cells = team_cells(row, unit, days, event.club.currency, lines_at)
        lines = (
            render_to_string("standings/why.html", {"boat": row.boat, "lines": row.lines, "notes": row.notes, **look})
            if row.lines
            else ""
        )
        rows.append(Row([cells[name] for name in names], f"boat-{row.boat}", after=lines))
    return Places(
        caption=gettext("Standings, weights in %(unit)s") % {"unit": unit},
        columns=columns,
        rows=rows,
        empty=empty,
        first=FIRST,
        all_said=all_said(len(rows)),
    )


def official_places(event: Event, result: OfficialResult) -> Places:
    """The places of one version, as it fixed them."""
    days = result_days(result)
    rows = [frozen_row(order, row) for order, row in enumerate(result_rows(result))]
    unit, labels = event.weight_unit, _labels()
    heads = {
        "place": ("place", gettext("Place")),
        "boat": ("boat", gettext("Boat")),
        "team": ("team", gettext("Team")),
        "fish": ("fish", gettext("Fish")),
        **{f"day_{day}": ("num day", gettext("Day %(day)s") % {"day": day}) for day in days},
        "weighed": ("num weighed", gettext("Net weight")),
        "penalty": ("taken-off", gettext("Penalty")),
        "total": ("total", gettext("Total, %(unit)s") % {"unit": unit}),
        "big_fish": ("num big-fish", gettext("Big fish")),
        "payout": ("num prize", gettext("Prize")),
        "points": ("num points", gettext("Points")),
    }
    cells = [team_cells(row, unit, days, event.club.currency) for row in rows]
    return Places(
        caption=gettext("Official places"),
        columns=[Column(look, words, labels.get(name, "")) for name, (look, words) in heads.items()],
        rows=[Row([of[name] for name in heads]) for of in cells],
        empty=gettext("No team has a place."),
        first=FIRST,
        all_said=all_said(len(rows)),
    )


def all_said(teams: int) -> str:
    """What opens the rows that are folded."""
    return npgettext("rows that are folded", "%(n)s team", "All %(n)s teams", teams) % {"n": teams}


def _labels() -> Mapping[str, str]:
    """What is said before a figure where no head stands over it."""
    return {
        "boat": gettext("Boat"),
        "weighed": gettext("Net weight"),
        "penalty": gettext("Penalty"),
        "big_fish": gettext("Big fish"),
        "payout": gettext("Prize"),
        "points": gettext("Points"),
    }


def _short(days: Sequence[Mapping[str, Any]]) -> int:
    """The short fish of a frozen result: those that its days say cost something."""
    return sum(one["count"] for day in days for one in day["deductions"] if one["reason"] == "short_fish")


def frozen_row(order: int, row: Mapping[str, Any]) -> StandingRow:
    """A row of a frozen result as the list takes it."""
    return StandingRow(
        order=order,
        place=row["place"],
        tied=row["tied"],
        status=row["status_words"],
        boat=row["boat"],
        team=row["team"],
        level="",
        fish=row["fish"],
        fish_note=fish_note(row["fish"], row["dead"], _short(row["days"])),
        weighed=Decimal(row["gross"]),
        penalty=row["penalty"],
        total=row["total"],
        big_fish=row["big_fish"],
        payout=row["prize"],
        pot=row["pot"],
        bonus=row["bonus"],
        unpaid=False,
        points=row["points"],
        made_cut=None,
        has_slip=bool(row["days"]),
        lost=row["lost"],
        lost_said=row["lost_said"],
        days=[total or Decimal(0) for _, total in row["day_totals"]],
        days_weighed=frozenset(day for day, total in row["day_totals"] if total is not None),
    )


def team_cells(row: StandingRow, unit: str, days: Sequence[int], sign: str, lines_at: str = "") -> dict[str, Cell]:
    """What each column says of a team. A boat that is not weighed has no weights: blank, never 0.00."""
    return {
        "place": place_said(row.place, (gettext("tied") if row.tied else "") if row.place else row.status),
        "boat": str(row.boat),
        "team": written("{}{}", row.team, _notes(row, unit, days)),
        "fish": _fish(row),
        **{f"day_{day}": w for day, w in zip(days, _days(row, unit, days), strict=False)},
        "weighed": weight(row.weighed, unit) if row.has_slip else "",
        "penalty": _taken_off(row, unit, lines_at),
        "total": weight(row.total, unit) if row.has_slip else "",
        "big_fish": weight(row.big_fish, unit),
        "payout": _prize(row, sign),
        "points": str(row.points),
    }


def _fish(row: StandingRow) -> Cell:
    if not row.has_slip:
        return ""
    return written('{}, <span class="quiet">{}</span>', row.fish, row.fish_note) if row.fish_note else str(row.fish)


def _days(row: StandingRow, unit: str, days: Sequence[int]) -> list[str]:
    """The total of each day, blank where it has no slip."""
    return [weight(total, unit) if day in row.days_weighed else "" for day, total in zip(days, row.days, strict=False)]


def _notes(row: StandingRow, unit: str, days: Sequence[int]) -> Cell:
    missed = gettext("Missed the cut.") if row.made_cut is False and row.place else ""
    unpaid = gettext("Entry not paid: no prize.") if row.unpaid else ""
    words = " ".join(filter(None, (row.level, missed, unpaid)))
    by_day = ", ".join(
        gettext("day %(day)s %(weight)s") % {"day": day, "weight": w}
        for day, w in zip(days, _days(row, unit, days), strict=True)
        if w
    )
    day_line = written('<span class="small by-day">{}</span>', by_day) if by_day else ""
    return written('{}<span class="small">{}</span>', day_line, words) if words else day_line


def _taken_off(row: StandingRow, unit: str, lines_at: str) -> Cell:
    """What was taken off and added, and the way to the lines of the sum where there is something to explain."""
    parts: list[Cell] = []
    if row.penalty:
        parts.append(taken_off(row.penalty, unit))
    if row.lost_said:
        parts.append(written('<span class="label">{} {}</span>', taken_off(row.lost, unit), row.lost_said))
    if row.bonus:
        added = gettext("+ %(weight)s bonus") % {"weight": weight(row.bonus, unit)}
        parts.append(written('<span class="label">{}</span>', added))
    if not parts:
        return written('<span class="for-ears">{}</span>', gettext("no penalty")) if row.has_slip else ""
    if lines_at:
        parts.append(_why(row, lines_at))
    return SafeString(" ".join(written("{}", part) for part in parts))


def _why(row: StandingRow, lines_at: str) -> SafeString:
    opened, boat = bool(row.lines), str(row.boat)
    words = gettext("close") if opened else gettext("why")
    return written(WHY, boat, boat, boat, lines_at.replace("/0/", f"/{boat}/"), str(opened).lower(), words)


def _prize(row: StandingRow, sign: str) -> Cell:
    """The place's prize; beside it, apart, what the big fish pot pays."""
    place = money(row.payout) if row.payout else ""
    if not row.pot:
        return place
    pot = (gettext("+ %(amount)s big fish") % {"amount": money(row.pot)}).replace(" ", SPACE, 1)
    return written('{} <span class="label">{}</span>', place, pot)
