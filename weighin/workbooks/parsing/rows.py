"""Rows of a sheet as text by column name, with the place of every value, and the faults found on the way."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from weighin.reports.domain.workbook_columns import SheetSpec
from weighin.rules.faults import Fault, Listed, Said, Wrong
from weighin.rules.values import folded
from weighin.workbooks.domain.faults import (
    CELL_MISSING,
    COLUMN_MISSING,
    COLUMN_TWICE,
    COLUMN_UNKNOWN,
    KEY_TWICE,
    KEY_UNKNOWN,
    NO_COLUMNS,
    NO_KEY_HEADER,
    SEE_ALSO,
)
from weighin.workbooks.parsing import cells
from weighin.workbooks.parsing.book import Cell, SheetRows

_READERS: dict[str, Callable[[Cell], str]] = {
    "plain": cells.as_text,
    "time": cells.as_time,
    "date": cells.as_date,
    "words": cells.as_words,
}


@dataclass
class Report:
    """What was found in a workbook: faults and warnings, each with its place, in the order they were met."""

    found: list[tuple[str, Said]] = field(default_factory=list)
    left_out: list[Said] = field(default_factory=list)

    def fault(self, place: str, said: Said) -> None:
        if (place, said) not in self.found[-50:]:
            self.found.append((place, said))

    @property
    def faults(self) -> list[tuple[str, str]]:
        """Place and sentence of each fault, in the reader's language."""
        return [(place, said.shown()) for place, said in self.found]

    @property
    def warnings(self) -> list[str]:
        return [said.shown() for said in self.left_out]


class Row:
    """One row: its text by column, where its cells stand, and which columns could not be read."""

    __slots__ = ("columns", "number", "report", "sheet", "text", "unreadable")

    def __init__(self, sheet: SheetRows, number: int, columns: Mapping[str, int], report: Report):
        self.sheet = sheet
        self.number = number
        self.columns = columns
        self.report = report
        self.text: dict[str, str] = {}
        self.unreadable: set[str] = set()

    def fault(self, found: Fault) -> None:
        """Report a fault of a field at its cell; other cells that play a part are named with it."""
        if found.field in self.unreadable:
            return
        place = self.place(found.field)
        others = dict.fromkeys(self.place(name) for name in found.also if name in self.columns)
        others.pop(place, None)
        self.report.fault(
            place, SEE_ALSO.says(wrong=found.said, places=Listed(tuple(others))) if others else found.said
        )

    def leave_out(self, column: str) -> None:
        """Take a column's text for unreadable: nothing is said of it any more, nor of what hangs on it."""
        self.text.pop(column, None)
        self.unreadable.add(column)

    def faults(self, found: Iterable[Fault]) -> None:
        for fault in found:
            self.fault(fault)

    def value(self, name: str, read: Callable[[str], Any]) -> Any:
        """The column's text read by ``read``; None when it is empty, or after reporting why it cannot be read."""
        text = self.text.get(name, "")
        if not text or name in self.unreadable:
            return None
        try:
            return read(text)
        except Wrong as error:
            self.report.fault(self.place(name), error.said)
            self.unreadable.add(name)
            return None

    def place(self, column: str) -> str:
        """Where a column's cell of this row stands; the row's first known cell for a column the sheet lacks."""
        at = self.columns.get(column)
        return self.sheet.place(self.number, min(self.columns.values()) if at is None else at)


def table_rows(sheet: SheetRows | None, spec: SheetSpec, report: Report) -> Iterator[Row]:
    """The rows of a sheet that has a header row. Missing required columns and cells are reported here."""
    if sheet is None:
        return
    columns = _columns(sheet, spec, report)
    missing = [c.name for c in spec.columns if c.required and c.name not in columns]
    if not sheet.header and sheet.rows:
        report.fault(f"{sheet.title}!A1", NO_COLUMNS.says(columns=", ".join(c.name for c in spec.columns[:6])))
        return
    if sheet.rows:
        for name in missing:
            report.fault(f"{sheet.title}!A1", COLUMN_MISSING.says(name=name))
    if not columns:
        return
    for number, values in sheet.rows:
        row = _row(sheet, number, values, columns, spec, report)
        if row is not None:
            row.unreadable.update(missing)
            yield row


def key_rows(sheet: SheetRows | None, known: Iterable[str], report: Report) -> dict[str, Cell]:
    """The value cells of a key-and-value sheet by key. Unknown keys become warnings."""
    if sheet is None:
        return {}
    head = [folded(str(value or "")) for value in sheet.header[:2]]
    if head != ["key", "value"]:
        report.fault(f"{sheet.title}!A1", NO_KEY_HEADER.says())
        return {}
    names = {folded(name): name for name in known}
    found: dict[str, Cell] = {}
    for number, values in sheet.rows:
        key, value = sheet.cell(number, values, 0), sheet.cell(number, values, 1)
        name = names.get(folded(str(key.value if key.value is not None else "")))
        if name is None:
            report.left_out.append(KEY_UNKNOWN.says(place=key.place, value=str(key.value or "")[:40]))
        elif name in found:
            report.fault(key.place, KEY_TWICE.says(name=name, place=found[name].place))
        else:
            found[name] = value
    return found


def read_cell(cell: Cell, kind: str, report: Report) -> str | None:
    """A cell as text, or None after reporting why it cannot be read."""
    try:
        return _READERS[kind](cell)
    except Wrong as error:
        report.fault(cell.place, error.said)
        return None


def _columns(sheet: SheetRows, spec: SheetSpec, report: Report) -> dict[str, int]:
    known = {folded(column.name): column.name for column in spec.columns}
    columns: dict[str, int] = {}
    for position, value in enumerate(sheet.header):
        title = folded(str(value)) if value is not None else ""
        if not title:
            continue
        name, place = known.get(title), sheet.place(1, position)
        if name is None:
            report.left_out.append(COLUMN_UNKNOWN.says(place=place, value=str(value)[:40]))
        elif name in columns:
            report.fault(place, COLUMN_TWICE.says(name=name))
        else:
            columns[name] = position
    return columns


def _row(
    sheet: SheetRows, number: int, values: tuple[Any, ...], columns: dict[str, int], spec: SheetSpec, report: Report
) -> Row | None:
    used = {name: sheet.cell(number, values, at) for name, at in columns.items()}
    if all(cell.value in (None, "") and not cell.uncached for cell in used.values()):
        return None
    row = Row(sheet, number, columns, report)
    for column in spec.columns:
        if column.name not in columns:
            continue
        try:
            row.text[column.name] = _READERS[column.kind](used[column.name])
        except Wrong as error:
            report.fault(row.place(column.name), error.said)
            row.unreadable.add(column.name)
    for column in spec.columns:
        if column.required and column.name not in row.unreadable and not row.text.get(column.name):
            report.fault(row.place(column.name), CELL_MISSING.says(name=column.name))
            row.unreadable.add(column.name)
    return row
