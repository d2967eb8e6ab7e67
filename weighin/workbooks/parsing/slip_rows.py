"""Read the Slips sheet: every row by itself, then what only shows when rows are held against each other.

A row with a fault in it is held against the others too, as far as its number, boat and day can be read, so that
one fault does not hide another.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from weighin.events.domain.table import Table
from weighin.reports.domain.workbook_columns import SLIPS
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.rules.results import ENTERED, Team
from weighin.rules.tournament import DaySlip, fish_on
from weighin.slips.domain.values import SlipData, rules_slip
from weighin.slips.parsing import read_slip
from weighin.slips.queries.cut import refusal, stays_said
from weighin.workbooks.domain.faults import (
    BESIDE,
    REPLACED_ALREADY,
    REPLACES_ANOTHER_BOATS,
    REPLACES_IN_A_CIRCLE,
    REPLACES_NO_SLIP,
    REPLACES_WITHOUT_REASON,
    SECOND_CURRENT_SLIP,
    SLIP_NUMBER_TWICE,
    VOID_WITHOUT_SLIP,
)
from weighin.workbooks.domain.plan import EntryPlan
from weighin.workbooks.parsing.book import SheetRows
from weighin.workbooks.parsing.doubts import Doubts
from weighin.workbooks.parsing.rows import Report, Row, table_rows

CareTimes = Mapping[tuple[int, int], Mapping[str, datetime]]
MOST = 2_000_000_000


@dataclass
class SlipRow:
    """A row of Slips. ``slip`` is None when the row has a fault; ``doubts`` names what of the rest cannot be read."""

    row: Row
    number: int | None
    boat: int
    day: int
    replaces: int | None
    void: bool
    has_reason: bool
    slip: SlipData | None = None
    doubts: set[str] = field(default_factory=set)

    @property
    def is_sound(self) -> bool:
        return self.slip is not None


def read_slips(
    sheet: SheetRows | None,
    table: Table,
    care: CareTimes,
    unsure: Collection[str],
    doubts: Doubts,
    report: Report,
) -> tuple[list[SlipRow], bool]:
    """The rows of Slips, and whether they fit together; ``unsure`` names rule keys that could not be read.

    Faults are reported.
    """
    found = [_outline(doubts.leave_out(row, SLIPS)) for row in table_rows(sheet, SLIPS, report)]
    replaced = {slip.replaces for slip in found if slip.replaces is not None}
    for slip in found:
        current = not slip.void and (slip.number is None or slip.number not in replaced)
        unread = (*unsure, *slip.row.unreadable)
        try:
            read = read_slip(slip.row.text, table, care.get((slip.day, slip.boat)), current, unsure=unread)
            own = {"number": slip.number, "replaces": slip.replaces}
            slip.slip = None if slip.row.unreadable else SlipData(**vars(read), **own)
        except Faults as faults:
            slip.row.faults(faults.faults)
            slip.doubts.update(fault.field for fault in faults.faults if fault.field in ("boat", "day"))
        slip.row.text = {}
    before = len(report.found)
    _check_numbers(found, report)
    wrong = _check_replacements(found, report)
    _check_one_current([slip for slip in found if slip.row not in wrong], replaced, report)
    return found, len(report.found) == before


def _outline(row: Row) -> SlipRow:
    doubts = row.unreadable & {"slip", "boat", "day", "replaces", "void", "reason"}

    def whole(name: str) -> int | None:
        text = row.text.get(name)
        try:
            return values.whole(text, least=1, most=MOST) if text else None
        except Wrong as error:
            doubts.add(name)
            if name == "slip":  # the sheet's own number, which no reader of slips knows
                row.fault(error.at(name))
            return None

    try:
        void = values.yes_no(row.text.get("void") or "no")
    except ValueError:
        doubts.add("void")
        void = False
    slip = SlipRow(
        row, whole("slip"), whole("boat") or 0, whole("day") or 0, whole("replaces"), void, bool(row.text.get("reason"))
    )
    slip.doubts = doubts
    return slip


def _check_numbers(slips: list[SlipRow], report: Report) -> None:
    numbers: dict[int, Row] = {}
    for slip in slips:
        if slip.number is None:
            continue
        first = numbers.setdefault(slip.number, slip.row)
        if first is not slip.row:
            report.fault(
                slip.row.place("slip"),
                SLIP_NUMBER_TWICE.says(number=slip.number, place=first.place("slip")),
            )


def _check_replacements(slips: list[SlipRow], report: Report) -> set[Row]:
    """Report what is wrong with voids and with what rows replace; the rows of which it cannot be told what they replace."""
    by_number: dict[int, SlipRow] = {}
    for slip in slips:
        if slip.number is not None:
            by_number.setdefault(slip.number, slip)
    unnamed = any("slip" in slip.doubts for slip in slips)
    replaced: dict[int, Row] = {}
    wrong = set()
    for slip in slips:
        if "replaces" in slip.doubts:
            wrong.add(slip.row)
            continue
        if slip.replaces is None:
            if slip.void:
                said = VOID_WITHOUT_SLIP.says()
                slip.row.fault(Fault("void", said, ("replaces",)))
            continue
        if not slip.has_reason and "reason" not in slip.doubts:
            said = REPLACES_WITHOUT_REASON.says(replaces=slip.replaces)
            slip.row.fault(Fault("reason", said, ("replaces",)))
        fault = _replacement_fault(slip, by_number, replaced, unnamed)
        if fault is not None:
            slip.row.fault(fault)
            wrong.add(slip.row)
        if slip.replaces in by_number:
            replaced.setdefault(slip.replaces, slip.row)
    return wrong


def _replacement_fault(
    slip: SlipRow, by_number: Mapping[int, SlipRow], replaced: Mapping[int, Row], unnamed: bool
) -> Fault | None:
    assert slip.replaces is not None
    target = by_number.get(slip.replaces)
    if target is None:
        said = REPLACES_NO_SLIP.says(replaces=slip.replaces)
        return None if unnamed else Fault("replaces", said)
    if slip.replaces in replaced:
        first = replaced[slip.replaces].place("replaces")
        said = REPLACED_ALREADY.says(replaces=slip.replaces, place=first)
        return Fault("replaces", said)
    if target.boat != slip.boat and "boat" not in slip.doubts | target.doubts:
        said = REPLACES_ANOTHER_BOATS.says(replaces=slip.replaces, boat=target.boat, own=slip.boat)
        return Fault("replaces", said, ("boat",))
    if _goes_in_a_circle(slip, by_number):
        said = REPLACES_IN_A_CIRCLE.says(number=slip.number)
        return Fault("replaces", said)
    return None


def _goes_in_a_circle(slip: SlipRow, by_number: Mapping[int, SlipRow]) -> bool:
    seen = set()
    at: SlipRow | None = slip
    while at is not None and at.replaces is not None:
        if at.number in seen:
            return True
        seen.add(at.number)
        at = by_number.get(at.replaces)
        if at is slip:
            return True
    return False


def _check_one_current(slips: list[SlipRow], replaced: Collection[int | None], report: Report) -> None:
    current: dict[tuple[int, int], Row] = {}
    for slip in slips:
        if slip.void or slip.number in replaced or not slip.doubts.isdisjoint(("boat", "day", "void", "slip")):
            continue
        key = (slip.boat, slip.day)
        first = current.setdefault(key, slip.row)
        if first is not slip.row:
            report.fault(
                slip.row.place("boat"),
                SECOND_CURRENT_SLIP.says(boat=slip.boat, day=slip.day, place=first.place("boat")),
            )


def check_cut(entries: list[EntryPlan], slips: list[SlipRow], table: Table) -> None:
    """Report slips after a missed cut, and warn of those that stay although the line moved over them.

    Not while a slip up to the cut has a fault, since totals hang on it.
    """
    day = table.rules.cut_after_day
    replaced = {slip.replaces for slip in slips}
    current = [s for s in slips if not s.void and (s.number is None or s.number not in replaced)]
    if day is None or any(not slip.is_sound and (slip.day <= day or slip.doubts) for slip in slips):
        return
    teams = [Team(entry.boat, entry.name, entry.status) for entry in entries]
    through, first = (
        [DaySlip(s.boat, s.day, rules_slip(s.slip, table)) for s in found if s.day <= day]
        for found in (current, _first_readings(slips))
    )
    gone, stays = (
        {t.boat for t in teams if t.status == ENTERED} - fish_on(table.rules, teams, through, said)
        for said in (first, None)
    )
    for slip in current:
        if slip.day > day and slip.boat in gone:
            slip.row.fault(Fault("boat", refusal(slip.boat, day), ("day",)))
        elif slip.day > day and slip.boat in stays:
            slip.row.report.left_out.append(BESIDE.says(place=slip.row.place("boat"), said=stays_said(slip.boat, day)))


def _first_readings(slips: list[SlipRow]) -> list[SlipRow]:
    """Of each boat and day the row of the lowest number; rows without one are numbered after the others, in their order."""
    most = max((slip.number or 0 for slip in slips), default=0)
    found: dict[tuple[int, int], SlipRow] = {}
    for _, slip in sorted(enumerate(slips), key=lambda at: at[1].number or most + 1 + at[0]):
        if not slip.void:
            found.setdefault((slip.boat, slip.day), slip)
    return list(found.values())
