"""A season written down at once: an event on each line, its date, its name and its water."""

from dataclasses import dataclass
from datetime import date

from weighin.events.domain.calendar import check_date
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.schedule.domain.faults import (
    NO_LINES,
    ROW_NEEDS_DATE_AND_NAME,
    ROW_NOT_A_DATE,
    ROW_TOO_LONG,
    SEASON_ROW,
    TOO_MANY_LINES,
)
from weighin.ui.parsing import typed

MOST_EVENTS = 100
HEADS = frozenset({"date", "first day", "day"})


@dataclass(frozen=True)
class SeasonRow:
    """One event of the list; ``number`` is its line, ``water`` may be blank."""

    number: int
    date: date
    name: str
    water: str


def read_season(text: str) -> list[SeasonRow]:
    """The events of a list, in its order. Raises Faults of the field ``lines``, each naming its line."""
    rows: list[SeasonRow] = []
    faults: list[Fault] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        try:
            cells = _cells(line)
            if not rows and not faults and cells[0].casefold() in HEADS:
                continue
            rows.append(_row(number, cells))
        except Wrong as error:
            faults.append(of_row(number, error.at("")))
    found = len(rows) + len(faults)
    if not found:
        faults.append(NO_LINES.at("lines"))
    if found > MOST_EVENTS:
        faults = [TOO_MANY_LINES.at("lines", n=found, most=MOST_EVENTS)]
    if faults:
        raise Faults(faults)
    return rows


def of_row(number: int, fault: Fault) -> Fault:
    """A fault as that of a line of the list."""
    return SEASON_ROW.at("lines", row=number, wrong=fault.said)


def read_day(text: str) -> date:
    """A date as people write it in the United States: the month first. Raises Wrong.

    >>> [str(read_day(text)) for text in ("2026-06-20", "6/20/2026", "Sat, Jun 20, 2026", "June 20th 2026", "20 Jun 2026")]
    ['2026-06-20', '2026-06-20', '2026-06-20', '2026-06-20', '2026-06-20']
    """
    written = " ".join(text.split())
    try:
        found = date.fromisoformat(typed.day(written))
    except ValueError:
        raise ROW_NOT_A_DATE.wrong(written=written[:40]) from None
    check_date(found)
    return found


def _row(number: int, cells: list[str]) -> SeasonRow:
    if len(cells) < 2 or not cells[1]:
        raise ROW_NEEDS_DATE_AND_NAME.wrong()
    if len(cells) > 3:
        raise ROW_TOO_LONG.wrong(water=cells[2][:40])
    return SeasonRow(number, read_day(cells[0]), cells[1], cells[2] if len(cells) > 2 else "")


def _cells(line: str) -> list[str]:
    """The cells between tabs, semicolons or commas; a date may have commas of its own."""
    for mark in ("\t", ";"):
        if mark in line:
            return _trimmed(line.split(mark))
    cells = _trimmed(line.split(","))
    for parts in range(1, min(4, len(cells) + 1)):
        try:
            read_day(", ".join(cells[:parts]))
        except Wrong:
            continue
        return [", ".join(cells[:parts]), *cells[parts:]]
    return cells


def _trimmed(cells: list[str]) -> list[str]:
    found = [" ".join(cell.strip().strip('"').split()) for cell in cells]
    while len(found) > 1 and not found[-1]:
        found.pop()
    return found
