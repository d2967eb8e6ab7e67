"""Read a whole workbook: every sheet, every row, and what only shows when rows are held against each other."""

from collections.abc import Callable, Mapping, Set
from datetime import datetime
from pathlib import Path
from typing import Any

from weighin.fishcare.reading import read_note, read_pen, read_tank
from weighin.operations.workbook.book import SheetRows, open_book
from weighin.operations.workbook.entries import read_entries
from weighin.operations.workbook.head import calendar_of, read_days, read_event, read_flights, read_rules
from weighin.operations.workbook.plan import EntryPlan, Plan
from weighin.operations.workbook.rows import Report, Row, table_rows
from weighin.reports.workbook_columns import EVENT, FISH_CARE, FLIGHTS, HOLDING, RULES, SLIPS, TABLES, TANKS, TEAMS
from weighin.rules.faults import Fault, Faults
from weighin.rules.ranking import kept_by_cut
from weighin.rules.results import ENTERED, Team
from weighin.rules.tournament import DaySlip, team_results
from weighin.rules.values import folded
from weighin.scale.cut import refusal
from weighin.scale.reading import SlipValues, Table, read_slip, rules_slip

Progress = Callable[[str, int, int], None]


def read_workbook(path: Path, progress: Progress | None = None) -> tuple[Plan | None, Report]:
    """Read an event workbook. The plan is None when the report has faults.

    ``progress`` is called with a word, how many rows are done, and how many there are.
    Raises BookRefused when the file is no workbook at all.
    """
    book = open_book(path)
    report = Report()
    _name_unknown_sheets(book, report)
    plan = _read(book, report, progress or (lambda word, done, of: None))
    return (None if report.faults else plan), report


def _read(book: Mapping[str, SheetRows], report: Report, progress: Progress) -> Plan | None:
    event, places = read_event(book.get(folded(EVENT.title)), report)
    if event is None:
        return None
    days, day_rows = read_days(book.get("days"), event, report)
    flights = read_flights(book.get("flights"), event.days, report)
    before = len(report.faults)
    calendar = calendar_of(event, days, day_rows, flights, places, report)
    clock_is_sound = len(report.faults) == before
    rules, rules_known = read_rules(book.get(folded(RULES)), event.weight_unit, report)
    named = {row.text["flight"] for row in table_rows(book.get("flights"), FLIGHTS, Report()) if row.text.get("flight")}
    entries = read_entries(book.get(folded(TEAMS.title)), named, report)
    plan = Plan(event, calendar, rules, days, [flight for flight, _ in flights], [entry for entry, _ in entries])
    if not clock_is_sound:
        return None
    table = Table(calendar, rules, {entry.boat: entry.flight_name for entry in plan.entries})
    plan.notes = _read_notes(book.get(folded(FISH_CARE.title)), table, report)
    before = len(report.faults)
    slips, unsound = _read_slips(book.get(folded(SLIPS.title)), table, plan.notes, rules_known, report, progress)
    plan.slips = [slip for slip, _ in slips]
    _check_replacements(slips, unsound, report)
    if rules_known and len(report.faults) == before:
        _check_cut(plan.entries, slips, table)
    plan.tanks = _read_all(book.get(folded(TANKS.title)), TANKS, report, lambda text: read_tank(text, calendar))
    plan.pens = _read_all(book.get(folded(HOLDING.title)), HOLDING, report, lambda text: read_pen(text, calendar))
    return plan


def _name_unknown_sheets(book: Mapping[str, SheetRows], report: Report) -> None:
    known = {folded(EVENT.title), folded(RULES), *(folded(spec.title) for spec in TABLES)}
    for key, sheet in book.items():
        if key not in known:
            report.warnings.append(f"{sheet.title}!A1: the sheet '{sheet.title}' is not known and was left out")


def _read_slips(
    sheet: SheetRows | None,
    table: Table,
    notes: list[dict[str, Any]],
    rules_known: bool,
    report: Report,
    progress: Progress,
) -> tuple[list[tuple[SlipValues, Row]], set[str]]:
    """The sound slips with their rows, and the written numbers of those that are not."""
    care: dict[tuple[int, int], dict[str, datetime]] = {
        (note["day"], note["boat"]): {name: note[name] for name in ("launched", "first_fish") if note[name]}
        for note in notes
    }
    rows = list(table_rows(sheet, SLIPS, report))
    replaced = {row.text["replaces"] for row in rows if row.text.get("replaces")}
    slips: list[tuple[SlipValues, Row]] = []
    unsound: set[str] = set()
    numbers: dict[int, Row] = {}
    for done, row in enumerate(rows, start=1):
        if done % 500 == 0:
            progress("slips", done, len(rows))
        try:
            key = (int(row.text.get("day") or 0), int(row.text.get("boat") or 0))
        except ValueError:
            key = (0, 0)
        try:
            slip = read_slip(row.text, table, care.get(key), rules_known, _is_current(row, replaced))
        except Faults as faults:
            row.faults(faults.faults)
            unsound.add(row.text.get("slip", ""))
            continue
        if slip.number is not None:
            if slip.number in numbers:
                first = numbers[slip.number].place("slip")
                report.fault(
                    row.place("slip"),
                    f"slip number {slip.number} is used twice (see also {first}): give one of them another number",
                )
                continue
            numbers[slip.number] = row
        if slip.replaces is not None and not slip.reason and "reason" not in row.unreadable:
            row.fault(
                Fault("reason", f"a slip that replaces slip {slip.replaces} needs a reason: write it", ("replaces",))
            )
        if slip.void and slip.replaces is None:
            row.fault(
                Fault("void", "a void must name the slip it takes out: write its number under replaces", ("replaces",))
            )
        row.text = {}
        slips.append((slip, row))
    return slips, unsound


def _is_current(row: Row, replaced: Set[str]) -> bool:
    """Whether a row's slip counts: nothing replaces it and it is no void."""
    void = row.text.get("void", "").casefold() in ("yes", "y", "true", "1")
    return not void and (row.text.get("slip") or None) not in replaced


def _check_replacements(slips: list[tuple[SlipValues, Row]], unsound: Set[str], report: Report) -> None:
    by_number: dict[int | None, tuple[SlipValues, Row]] = {
        slip.number: (slip, row) for slip, row in slips if slip.number is not None
    }
    replaced: dict[int, Row] = {}
    for slip, row in slips:
        if slip.replaces is None:
            continue
        target = by_number.get(slip.replaces)
        if target is None and str(slip.replaces) in unsound:
            continue
        if target is None:
            row.fault(Fault("replaces", f"there is no slip {slip.replaces} in this workbook: correct the number"))
        elif slip.replaces in replaced:
            first = replaced[slip.replaces].place("replaces")
            report.fault(
                row.place("replaces"),
                f"slip {slip.replaces} is already replaced (see also {first}): replace the later slip instead",
            )
        elif target[0].boat != slip.boat:
            row.fault(
                Fault(
                    "replaces",
                    f"slip {slip.replaces} is boat {target[0].boat}'s, not boat {slip.boat}'s: correct one of the two",
                    ("boat",),
                )
            )
        elif _goes_in_a_circle(slip, by_number):
            row.fault(
                Fault(
                    "replaces", f"slip {slip.number} comes round to itself through what it replaces: correct the number"
                )
            )
        if target is not None:
            replaced.setdefault(slip.replaces, row)
    _check_one_current(slips, set(replaced), report)


def _goes_in_a_circle(slip: SlipValues, by_number: Mapping[int | None, tuple[SlipValues, Row]]) -> bool:
    seen = set()
    at: SlipValues | None = slip
    while at is not None and at.replaces is not None:
        if at.number in seen:
            return True
        seen.add(at.number)
        at = by_number[at.replaces][0] if at.replaces in by_number else None
        if at is slip:
            return True
    return False


def _check_one_current(slips: list[tuple[SlipValues, Row]], replaced: set[int], report: Report) -> None:
    current: dict[tuple[int, int], Row] = {}
    for slip, row in slips:
        if slip.void or slip.number in replaced:
            continue
        key = (slip.boat, slip.day)
        if key in current:
            first = current[key].place("boat")
            report.fault(
                row.place("boat"),
                f"boat {slip.boat} already has a current slip on day {slip.day} (see also {first}): "
                "let one replace the other, with a reason",
            )
        else:
            current[key] = row


def _check_cut(entries: list[EntryPlan], slips: list[tuple[SlipValues, Row]], table: Table) -> None:
    day = table.rules.cut_after_day
    if day is None:
        return
    replaced = {slip.replaces for slip, _ in slips}
    current = [(s, r) for s, r in slips if not s.void and (s.number is None or s.number not in replaced)]
    teams = [Team(entry.boat, entry.name, entry.status) for entry in entries]
    through = [DaySlip(s.boat, s.day, rules_slip(s, table)) for s, _ in current if s.day <= day]
    kept = kept_by_cut(table.rules, team_results(table.rules, teams, through))
    entered = {team.boat for team in teams if team.status == ENTERED}
    for slip, row in current:
        if kept is not None and slip.day > day and slip.boat in entered - kept:
            row.fault(Fault("boat", refusal(slip.boat, day), ("day",)))


def _read_notes(sheet: SheetRows | None, table: Table, report: Report) -> list[dict[str, Any]]:
    notes: list[dict[str, Any]] = []
    seen: dict[tuple[int, int], Row] = {}
    for row in table_rows(sheet, FISH_CARE, report):
        try:
            note = read_note(row.text, table)
        except Faults as faults:
            row.faults(faults.faults)
            continue
        key = (note["day"], note["boat"])
        if key in seen:
            first = seen[key].place("boat")
            report.fault(
                row.place("boat"), f"boat {key[1]} already has a note on day {key[0]} (see also {first}): keep one row"
            )
            continue
        seen[key] = row
        notes.append(note)
    return notes


def _read_all(
    sheet: SheetRows | None, spec: Any, report: Report, read: Callable[[Mapping[str, str | None]], dict[str, Any]]
) -> list[dict[str, Any]]:
    found = []
    for row in table_rows(sheet, spec, report):
        try:
            found.append(read(row.text))
        except Faults as faults:
            row.faults(faults.faults)
    return found
