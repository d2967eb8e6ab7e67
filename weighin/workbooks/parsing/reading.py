"""Read a whole workbook: every sheet, every row, and what only shows when rows are held against each other."""

from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from weighin.care.parsing import read_note
from weighin.checkin.domain.arrival import arrivals_by_boat_and_day
from weighin.checkin.services.check_ins import CHECK_IN
from weighin.events.domain.table import Table
from weighin.holding.models import HoldingPen
from weighin.holding.services.pens import FINISHED_PEN
from weighin.records.parsing.reader import boat_and_day
from weighin.reports.domain.workbook_columns import (
    CHECK_INS,
    EVENT,
    FISH_CARE,
    FLIGHTS,
    HOLDING,
    RULES,
    SLIPS,
    TABLES,
    TANKS,
    TEAMS,
    SheetSpec,
)
from weighin.rules.faults import Faults
from weighin.rules.values import folded
from weighin.tanks.services.readings import TANK_READING
from weighin.workbooks.domain.faults import OTHER_SPECIES_IN_PENS, SECOND_CARE_NOTE, SHEET_UNKNOWN
from weighin.workbooks.domain.plan import Plan
from weighin.workbooks.parsing.book import SheetRows, open_book
from weighin.workbooks.parsing.doubts import CLOCK_KEYS, Doubts
from weighin.workbooks.parsing.entries import EveryBoat, read_entries
from weighin.workbooks.parsing.head import calendar_of, read_days, read_event, read_flights, read_rules
from weighin.workbooks.parsing.rows import Report, Row, table_rows
from weighin.workbooks.parsing.slip_rows import check_cut, read_slips

TEAMS_KEY = folded(TEAMS.title)
MOMENTS = {"launched", "first_fish"}


def read_workbook(path: Path, name: str = "") -> tuple[Plan | None, Report]:
    """Read an event workbook, called ``name`` in its faults. The plan is None when the report has any.

    Raises BookRefused when the file is no workbook at all.
    """
    book = open_book(path, name)
    report = Report()
    _name_unknown_sheets(book, report)
    plan = _read(book, report)
    return (None if report.found else plan), report


def _read(book: Mapping[str, SheetRows], report: Report) -> Plan:
    """The plan, which only holds when nothing is reported.

    What cannot be read on the first sheets stands in for itself, and nothing is said of the rest that hangs on it.
    """
    event, places, unsure = read_event(book.get(folded(EVENT.title)), report)
    days, day_rows = read_days(book.get("days"), event, unsure, report)
    flights = read_flights(book.get("flights"), event.days, report)
    before = len(report.found)
    calendar = calendar_of(event, days, day_rows, flights, places, unsure, report)
    clock_is_sound = len(report.found) == before and unsure.isdisjoint(CLOCK_KEYS)
    rules, unsure_rules = read_rules(book.get(folded(RULES)), event, unsure, report)
    named = {row.text["flight"] for row in table_rows(book.get("flights"), FLIGHTS, Report()) if row.text.get("flight")}
    entries, teams_are_sure = read_entries(book.get(TEAMS_KEY), named, report)
    plan = Plan(event, calendar, rules, days, [flight for flight, _ in flights], entries)
    boats = {entry.boat: entry.flight_name for entry in plan.entries}
    if TEAMS_KEY not in book:
        boats = EveryBoat()
    doubts = Doubts(unsure, report)
    bare = Table(calendar, rules, boats)
    plan.checkins = _read_all(
        book.get(folded(CHECK_INS.title)), CHECK_INS, doubts, report, lambda text: CHECK_IN.values(text, bare)
    )
    table = Table(calendar, rules, boats, arrivals_by_boat_and_day(plan.checkins))
    care: dict[tuple[int, int], dict[str, datetime]] = {}
    plan.notes = _read_notes(book.get(folded(FISH_CARE.title)), table, doubts, care, report)
    slips, fit = read_slips(book.get(folded(SLIPS.title)), table, care, unsure_rules, doubts, report)
    plan.slips = [row.slip for row in slips if row.slip is not None]
    if fit and clock_is_sound and teams_are_sure and not unsure_rules and "weight_unit" not in unsure:
        check_cut(plan.entries, slips, table)
    plan.tanks = _read_all(
        book.get(folded(TANKS.title)), TANKS, doubts, report, lambda text: TANK_READING.values(text, bare)
    )
    places_of_pens: list[str] = []
    plan.pens = _read_all(
        book.get(folded(HOLDING.title)),
        HOLDING,
        doubts,
        report,
        lambda text: FINISHED_PEN.values(text, bare),
        lambda row: places_of_pens.append(row.place("species")),
    )
    _check_species(plan.pens, places_of_pens, report)
    return plan


def _check_species(pens: list[dict[str, Any]], places: list[str], report: Report) -> None:
    """A reference group tells what pen and handling did only to fish of the kind that was held from the tournament."""
    held = {folded(pen["species"]) for pen in pens if pen["kind"] == HoldingPen.Kind.TOURNAMENT and pen["species"]}
    for pen, place in zip(pens, places, strict=True):
        if pen["kind"] == HoldingPen.Kind.REFERENCE and pen["species"] and held and folded(pen["species"]) not in held:
            said = OTHER_SPECIES_IN_PENS.says(species=pen["species"])
            report.fault(place, said)


def _name_unknown_sheets(book: Mapping[str, SheetRows], report: Report) -> None:
    known = {folded(EVENT.title), folded(RULES), *(folded(spec.title) for spec in TABLES)}
    for key, sheet in book.items():
        if key not in known:
            report.left_out.append(SHEET_UNKNOWN.says(title=sheet.title))


def _read_notes(
    sheet: SheetRows | None,
    table: Table,
    doubts: Doubts,
    care: dict[tuple[int, int], dict[str, datetime]],
    report: Report,
) -> list[dict[str, Any]]:
    """The sound notes. ``care`` is filled with the times of every note in which they can be read."""
    notes: list[dict[str, Any]] = []
    seen: dict[tuple[int, int], Row] = {}
    for row in table_rows(sheet, FISH_CARE, report):
        doubts.leave_out(row, FISH_CARE)
        key = boat_and_day(row.text)
        if key is not None and key in seen:
            first = seen[key].place("boat")
            report.fault(row.place("boat"), SECOND_CARE_NOTE.says(boat=key[0], day=key[1], place=first))
        elif key is not None:
            seen[key] = row
        wrong: set[str] = set()
        try:
            notes.append(read_note(row.text, table))
        except Faults as faults:
            row.faults(faults.faults)
            wrong = {name for fault in faults.faults for name in (fault.field, *fault.also)}
        if key is not None and seen[key] is row:
            boat, day = key
            care[day, boat] = {name: at for name in MOMENTS - wrong if (at := _moment(row, name, day, table))}
    return notes


def _moment(row: Row, name: str, day: int, table: Table) -> datetime | None:
    try:
        return table.calendar.read(day, row.text[name]) if row.text.get(name) else None
    except (ValueError, KeyError):
        return None


def _read_all(
    sheet: SheetRows | None,
    spec: SheetSpec,
    doubts: Doubts,
    report: Report,
    read: Callable[[Mapping[str, str | None]], dict[str, Any]],
    kept: Callable[[Row], None] = lambda row: None,
) -> list[dict[str, Any]]:
    found = []
    for row in table_rows(sheet, spec, report):
        doubts.leave_out(row, spec)
        try:
            found.append(read(row.text))
            kept(row)
        except Faults as faults:
            row.faults(faults.faults)
    return found
