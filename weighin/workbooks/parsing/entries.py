"""Read the Teams sheet."""

from collections.abc import Set

from weighin.reports.domain.workbook_columns import TEAMS
from weighin.rules import values
from weighin.rules.look_alikes import folded_name, look_of, name_line
from weighin.rules.results import ROSTER_STATUSES
from weighin.workbooks.domain.faults import (
    ANGLER_AT_TWO_PLACES,
    BOAT_TWICE,
    FLIGHT_NOT_ON_SHEET,
    NO_FLIGHTS_ON_SHEET,
    NO_TEAMS_SHEET,
    TEAM_READS_ALIKE,
)
from weighin.workbooks.domain.plan import EntryPlan
from weighin.workbooks.parsing.book import SheetRows
from weighin.workbooks.parsing.rows import Report, Row, table_rows

ANGLERS = ("angler_1", "angler_2", "angler_3")


class EveryBoat(dict[int, str]):
    """The boats while there is no Teams sheet, which is said once: nothing is said of any of them."""

    def __contains__(self, boat: object) -> bool:
        return True


def read_entries(sheet: SheetRows | None, flights: Set[str], report: Report) -> tuple[list[EntryPlan], bool]:
    """The teams, and whether it is sure which boats fish and when they are due.

    A boat or an angler that stands twice is reported with both places.
    """
    if sheet is None:
        report.fault(
            f"{TEAMS.title}!A1",
            NO_TEAMS_SHEET.says(),
        )
        return [], False
    known_flights = {values.folded(name): name for name in flights}
    entries: list[EntryPlan] = []
    sure = True
    boats: dict[int, Row] = {}
    teams: dict[str, Row] = {}
    people: dict[str, str] = {}
    for row in table_rows(sheet, TEAMS, report):
        boat = row.value("boat", lambda text: values.whole(text, least=1, most=2_000_000_000))
        entry = EntryPlan(
            boat=boat or 0,
            name=row.value("team", name_line) or "",
            anglers=tuple(row.value(name, name_line) or "" for name in ANGLERS),
            youth=row.value("youth", values.yes_no),
            flight_name=row.value("flight", lambda text: _flight(text, known_flights)) or "",
            paid=bool(row.value("paid", values.yes_no)),
            big_fish_pot=bool(row.value("big_fish_pot", values.yes_no)),
            status=row.value("status", lambda text: values.choice(text, ROSTER_STATUSES)) or "entered",
            lot=row.value("lot", lambda text: values.whole(text, most=2_000_000_000)),
            note=row.value("note", values.lines) or "",
        )
        _check_anglers(entry, row, people, report)
        first = teams.setdefault(look_of(entry.name), row)
        if entry.name and first is not row:
            same = TEAM_READS_ALIKE.says(name=entry.name, place=first.place("team"))
            report.fault(row.place("team"), same)
        sure = sure and row.unreadable.isdisjoint(("boat", "status", "flight")) and boat not in boats
        if boat is None:
            continue
        if boat in boats:
            report.fault(
                row.place("boat"),
                BOAT_TWICE.says(boat=boat, place=boats[boat].place("boat")),
            )
            continue
        boats[boat] = row
        entries.append(entry)
    return entries, sure


def _check_anglers(entry: EntryPlan, row: Row, people: dict[str, str], report: Report) -> None:
    for column, name in zip(ANGLERS, entry.anglers, strict=True):
        folded = folded_name(name)
        if not folded:
            continue
        if folded in people:
            report.fault(row.place(column), ANGLER_AT_TWO_PLACES.says(name=name, place=people[folded]))
        else:
            people[folded] = row.place(column)


def _flight(text: str, known: dict[str, str]) -> str:
    name = known.get(values.folded(text))
    if name is None:
        listed = ", ".join(sorted(known.values())) or NO_FLIGHTS_ON_SHEET.says()
        raise FLIGHT_NOT_ON_SHEET.wrong(text=text[:40], listed=listed)
    return name
