"""Rows of a sheet as text by column name, with the place of every value, and the faults found on the way."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from weighin.operations.workbook import cells
from weighin.operations.workbook.book import Cell, SheetRows
from weighin.reports.workbook_columns import SheetSpec
from weighin.rules.faults import Fault
from weighin.rules.values import folded

_READERS: dict[str, Callable[[Cell], str]] = {
    "plain": cells.as_text,
    "time": cells.as_time,
    "date": cells.as_date,
    "words": cells.as_words,
}


@dataclass
class Report:
    """What was found in a workbook: faults and warnings, each with its place, in the order they were met."""

    faults: list[tuple[str, str]] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)

    def fault(self, place: str, message: str) -> None:
        if (place, message) not in self.faults[-50:]:
            self.faults.append((place, message))


@dataclass
class Row:
    """One row: its text by column, the place of each column, and which columns could not be read."""

    text: dict[str, str]
    places: dict[str, str]
    unreadable: set[str]
    report: Report

    def fault(self, found: Fault) -> None:
        """Report a fault of a field at its cell; other cells that play a part are named with it."""
        if found.field in self.unreadable:
            return
        place = self.places.get(found.field) or next(iter(self.places.values()))
        others = [self.places[name] for name in found.also if name in self.places and self.places[name] != place]
        seen = f" (see also {', '.join(dict.fromkeys(others))})" if others else ""
        self.report.fault(place, found.message + seen)

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
        except ValueError as error:
            self.report.fault(self.place(name), str(error))
            return None

    def place(self, column: str) -> str:
        """Where a column's cell of this row stands."""
        return self.places.get(column) or next(iter(self.places.values()))


def table_rows(sheet: SheetRows | None, spec: SheetSpec, report: Report) -> Iterator[Row]:
    """The rows of a sheet that has a header row. Missing required columns and cells are reported here."""
    if sheet is None:
        return
    columns = _columns(sheet, spec, report)
    missing = [c.name for c in spec.columns if c.required and c.name not in columns]
    if not sheet.header and sheet.rows:
        report.fault(
            f"{sheet.title}!A1", f"row 1 must name the columns: {', '.join(c.name for c in spec.columns[:6])}, ..."
        )
        return
    if sheet.rows:
        for name in missing:
            report.fault(f"{sheet.title}!A1", f"the column {name} is missing: add it to the header row")
    if missing:
        return
    for cells_of_row in sheet.rows:
        row = _row(cells_of_row, columns, spec, report, sheet)
        if row is not None:
            yield row


def key_rows(sheet: SheetRows | None, known: Iterable[str], report: Report) -> dict[str, tuple[Cell, str]]:
    """The values of a key-and-value sheet by key, with the place of each value. Unknown keys become warnings."""
    if sheet is None:
        return {}
    head = [folded(str(cell.value or "")) for cell in sheet.header[:2]]
    if head != ["key", "value"]:
        report.fault(f"{sheet.title}!A1", "row 1 must be the header: key in A1, value in B1")
        return {}
    names = {folded(name): name for name in known}
    found: dict[str, tuple[Cell, str]] = {}
    for row in sheet.rows:
        key = folded(str(row[0].value if row[0].value is not None else ""))
        value = row[1] if len(row) > 1 else Cell(None, row[0].place)
        if key not in names:
            report.warnings.append(
                f"{row[0].place}: the key '{str(row[0].value or '')[:40]}' is not known and was left out"
            )
        elif names[key] in found:
            report.fault(
                row[0].place, f"{names[key]} stands twice (see also {found[names[key]][1]}): keep one of the two rows"
            )
        else:
            found[names[key]] = (value, value.place)
    return found


def read_cell(cell: Cell, kind: str, report: Report) -> str | None:
    """A cell as text, or None after reporting why it cannot be read."""
    try:
        return _READERS[kind](cell)
    except ValueError as error:
        report.fault(cell.place, str(error))
        return None


def _columns(sheet: SheetRows, spec: SheetSpec, report: Report) -> dict[str, int]:
    known = {folded(column.name): column.name for column in spec.columns}
    columns: dict[str, int] = {}
    for position, cell in enumerate(sheet.header):
        title = folded(str(cell.value)) if cell.value is not None else ""
        if not title:
            continue
        name = known.get(title)
        if name is None:
            report.warnings.append(f"{cell.place}: the column '{str(cell.value)[:40]}' is not known and was left out")
        elif name in columns:
            report.fault(cell.place, f"the column {name} stands twice: keep one of the two")
        else:
            columns[name] = position
    return columns


def _row(
    found: tuple[Cell, ...], columns: dict[str, int], spec: SheetSpec, report: Report, sheet: SheetRows
) -> Row | None:
    number = found[0].place.rpartition("!")[2].lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    empty = Cell(None, "")
    used = {name: found[at] if at < len(found) else empty for name, at in columns.items()}
    if all(cell.value in (None, "") and not cell.uncached for cell in used.values()):
        return None
    row = Row({}, {}, set(), report)
    for column in spec.columns:
        if column.name not in columns:
            continue
        cell = used[column.name]
        row.places[column.name] = cell.place or sheet.place(columns[column.name] + 1, int(number))
        try:
            row.text[column.name] = _READERS[column.kind](cell)
        except ValueError as error:
            report.fault(row.places[column.name], str(error))
            row.unreadable.add(column.name)
    for column in spec.columns:
        if column.required and column.name not in row.unreadable and not row.text.get(column.name):
            report.fault(row.places[column.name], f"{column.name} is missing: write it")
            row.unreadable.add(column.name)
    return row
