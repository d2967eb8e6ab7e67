"""A whole event, from the texts of its workbook to the JSON of `export_event`: the second reading.

Written from the contracts alone, without the product's code, so that a difference between the two finds a
mistake in one of them. Slow and plain on purpose. `read_event(sheets)` takes sheet name -> list of rows, each
row a dict of header -> cell text in the contract's own spelling; weights, money and points come back as
Fractions, rates as floats, and what was not recorded as None.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from typing import Any
from zoneinfo import ZoneInfo

from .amounts import fahrenheit, given, number, whole, yes
from .clock import Day, time_of_day
from .fish import care_row, mortality
from .money import give_points, pay
from .one_slip import Row, score
from .places import Team, list_order, place_teams
from .rule_sheet import read_rules

Sheets = Mapping[str, Sequence[Row]]


def keyed(sheets: Sheets, name: str) -> dict[str, str]:
    """A `key`, `value` sheet."""
    return {row["key"]: row.get("value", "") for row in sheets.get(name, [])}


def read_days(sheets: Sheets) -> dict[int, Day]:
    """As written: "Without it the days follow the first date." The lake's temperature "is the day's, else the
    event's"."""
    event = keyed(sheets, "Event")
    first = date.fromisoformat(event["date"])
    rows = {whole(row["day"]): row for row in sheets.get("Days", [])}
    days = {}
    for n in range(1, _or_default(event, "days", whole, 1) + 1):
        row = rows.get(n, {})
        days[n] = Day(
            number=n,
            date=_or_default(row, "date", date.fromisoformat, first + timedelta(days=n - 1)),
            start=_clock(row, event, "start_time", time(6)),
            due=_clock(row, event, "due_time", time(15)),
            zone=ZoneInfo(_or_default(event, "time_zone", str, "America/Chicago")),
            cancelled=_or_default(row, "status", str.strip, "fished") == "cancelled",
            lake=_or_default(row, "lake_temp", fahrenheit, _or_default(event, "lake_temp", fahrenheit, None)),
        )
    return days


def _or_default(row: Row, name: str, read: Any, default: Any) -> Any:
    return read(row[name]) if given(row.get(name)) else default


def _clock(day: Row, event: Row, name: str, default: time) -> time:
    for row in (day, event):
        if given(row.get(name)):
            clock = time_of_day(row[name])
            if clock is None:
                raise ValueError(f"not a time of day: {row[name]!r}")
            return clock
    return default


def due_time(sheets: Sheets, flight: str | None, day: Day) -> datetime:
    """As written: "A row for a day goes before one for every day; a team without a flight has the day's due
    time"."""
    if given(flight):
        rows = [row for row in sheets.get("Flights", []) if row["flight"].strip() == str(flight).strip()]
        own = [row for row in rows if given(row.get("day")) and whole(row["day"]) == day.number]
        every = [row for row in rows if not given(row.get("day"))]
        for row in own + every:
            return day.moment(row["due_time"])
    return day.ends


def current_slips(sheets: Sheets) -> list[Row]:
    """As written: "A slip that nothing replaces is current"; a void "takes the slip it replaces out; then the
    boat has no slip that day", so a void itself is never a slip of the day."""
    slips = sheets.get("Slips", [])
    replaced = {whole(row["replaces"]) for row in slips if given(row.get("replaces"))}
    return [
        row
        for row in slips
        if not (given(row.get("slip")) and whole(row["slip"]) in replaced)
        and not (given(row.get("void")) and yes(row["void"]))
    ]


def first_readings(sheets: Sheets) -> list[Row]:
    """As written: "of each boat and day ... the slip with the lowest number, what was corrected, voided or doubled
    later left aside". Rows without a number are taken as numbered after the others; a void is no reading."""
    slips = [row for row in sheets.get("Slips", []) if not (given(row.get("void")) and yes(row["void"]))]
    numbered = sorted((row for row in slips if given(row.get("slip"))), key=lambda row: whole(row["slip"]))
    first: dict[tuple[int, int], Row] = {}
    for row in [*numbered, *(row for row in slips if not given(row.get("slip")))]:
        first.setdefault((whole(row["day"]), whole(row["boat"])), row)
    return list(first.values())


def counting_slips(sheets: Sheets) -> tuple[list[Row], set[tuple[int, int]]]:
    """The current slips of days with one, and (day, boat) of which there are several: "neither slip counts"."""
    current = current_slips(sheets)
    many = Counter((whole(row["day"]), whole(row["boat"])) for row in current)
    doubled = {key for key, count in many.items() if count > 1}
    return [row for row in current if (whole(row["day"]), whole(row["boat"])) not in doubled], doubled


def read_teams(sheets: Sheets, rules: Mapping[str, Any], days: Mapping[int, Day]) -> list[Team]:
    """The teams with the scores of their current slips, days in order."""
    unit = keyed(sheets, "Event")["weight_unit"]
    _, doubled = counting_slips(sheets)
    current, first = current_slips(sheets), first_readings(sheets)
    teams = []
    for row in sheets["Teams"]:
        team = Team(
            boat=whole(row["boat"]),
            name=row["team"].strip(),
            roster_status=_or_default(row, "status", str.strip, "entered"),
            paid=_or_default(row, "paid", yes, False),
            in_pot=_or_default(row, "big_fish_pot", yes, False),
            lot=_or_default(row, "lot", whole, None),
        )

        def scored(slip: Row, flight: str | None = row.get("flight")) -> Any:
            day = days[whole(slip["day"])]
            return score(slip, rules, unit, day, due_time(sheets, flight, day), check_ins(sheets, slip))

        for slip in sorted(current, key=lambda s: whole(s["day"])):
            if whole(slip["boat"]) == team.boat and (whole(slip["day"]), team.boat) in doubled:
                team.doubled.setdefault(whole(slip["day"]), []).append(scored(slip))
            elif whole(slip["boat"]) == team.boat:
                team.scores.append(scored(slip))
        team.first = [
            scored(slip)
            for slip in first
            if whole(slip["boat"]) == team.boat and not days[whole(slip["day"])].cancelled
        ]
        teams.append(team)
    return teams


def check_ins(sheets: Sheets, slip: Row) -> list[Row]:
    """The check-ins of the slip's boat and day, in the order they were written."""
    mine = (whole(slip["day"]), whole(slip["boat"]))
    return [row for row in sheets.get("Check-ins", []) if (whole(row["day"]), whole(row["boat"])) == mine]


def read_event(sheets: Sheets) -> dict[str, Any]:
    """The structure of `export_event` as the workbook contract says, without slug, status and ledger head."""
    event = keyed(sheets, "Event")
    unit = event["weight_unit"]
    rules = read_rules(keyed(sheets, "Rules"), unit)
    days = read_days(sheets)
    teams = read_teams(sheets, rules, days)
    place_teams(teams, rules, [n for n, day in days.items() if not day.cancelled])
    purse = pay(
        teams,
        rules,
        _or_default(event, "entry_fee", number, Fraction(0)),
        _or_default(event, "added_money", number, Fraction(0)),
    )
    give_points(teams, rules, unit)
    slips, doubled = counting_slips(sheets)
    return {
        "event": {
            "name": event["event"].strip(),
            "club": event["club"].strip(),
            "season": event["season"].strip(),
            "water": event["water"].strip(),
            "date": event["date"],
            "days": len(days),
            "weight_unit": unit,
        },
        "standings": [_standing(team) for team in list_order(teams)],
        "purse": purse,
        "fish_care": _care(sheets, slips, doubled, days, rules),
        # "waiting is the number of boats and days left out so"
        "mortality": mortality(slips, sheets.get("Holding", [])) | {"waiting": len(doubled)},
        "ledger": {"length": len(sheets.get("Slips", []))},
    }


def _standing(team: Team) -> dict[str, Any]:
    return {
        "place": team.place,
        "tied": team.tied,
        "boat": team.boat,
        "team": team.name,
        "status": team.status,
        "fish": team.fish,
        "alive": team.alive,
        "dead": team.dead,
        "weighed": team.weighed,
        "gross": team.gross,
        "penalty": team.penalty,
        "bonus": team.bonus,
        "total": team.total,
        "big_fish": team.big_fish,
        "payout": team.payout,
        "big_fish_payout": team.big_fish_payout,
        "points": team.points,
        # "days in order, only those with a current slip"; "day gross is net"
        "days": [
            {
                "day": s.day,
                "lost": s.lost,
                "fish": s.fish,
                "weighed": s.weighed,
                "gross": s.net,
                "bonus": s.bonus,
                "total": s.total,
                "big_fish": s.big_fish,
                "deductions": s.deductions,
            }
            for s in team.scores
        ],
    }


def _care(
    sheets: Sheets,
    slips: Sequence[Row],
    doubled: set[tuple[int, int]],
    days: Mapping[int, Day],
    rules: Mapping[str, Any],
) -> list[dict[str, Any]]:
    """As written: "fish_care by day, then boat"."""

    def by_day_and_boat(rows: Sequence[Row]) -> dict[tuple[int, int], Row]:
        return {(whole(row["day"]), whole(row["boat"])): row for row in rows}

    weighed, noted = by_day_and_boat(slips), by_day_and_boat(sheets.get("Fish care", []))
    return [
        care_row(days[day], boat, weighed.get((day, boat)), noted.get((day, boat)), rules)
        for day, boat in sorted(weighed.keys() | noted.keys() | doubled)
    ]
