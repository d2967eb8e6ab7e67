"""Open an .xlsx safely and give its sheets as rows of cells with their places.

Refuses what is no plain workbook: too large, packed like a bomb, with macros, broken, or with document types
and entities in its XML.
"""

import re
import time
import warnings
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from operator import is_
from pathlib import Path
from typing import Any, BinaryIO

from openpyxl import load_workbook
from openpyxl.cell.read_only import EMPTY_CELL
from openpyxl.utils import get_column_letter

from weighin.rules.faults import Wrong
from weighin.rules.values import folded
from weighin.workbooks.domain.faults import (
    BOOK_BROKEN,
    BOOK_HAS_ENTITIES,
    BOOK_HAS_MACROS,
    BOOK_NOT_FOUND,
    BOOK_NOT_READABLE,
    BOOK_TEXT_TOO_LONG,
    BOOK_TOO_LARGE,
    MACROS_BY_NAME,
    NOT_A_WORKBOOK,
    SHEET_TWICE,
    TOO_MANY_CELLS,
    TOO_MANY_EMPTY_ROWS,
    TOO_MANY_ROWS,
    TOO_MANY_SHEETS,
    UNPACKS_TO_MORE_THAN_SAID,
    UNPACKS_TO_TOO_MUCH,
)

MOST_BYTES = 10 * 1024 * 1024
MOST_UNPACKED = 64 * 1024 * 1024
MOST_PARTS = 500
MOST_SHEETS = 50
MOST_ROWS = 20_000
MOST_COLUMNS = 100
MOST_EMPTY_ROWS = 100_000
# The longest text that a spreadsheet takes into one cell.
MOST_SIGNS = 32_767
# Tags, counted before anything reads them: 20,000 rows of 30 cells, their texts, and ten times the rest of a workbook.
MOST_TAGS = {"sheets": 3_000_000, "texts": 1_000_000, "rest": 40_000}
# Seconds of processor time for what the counts let through.
MOST_SECONDS = 20

_MERGED = re.compile(rb"<(?:\w+:)?mergeCell\s[^<>]*?ref\s*=\s*[\"']([A-Z]{1,3}[0-9]{1,7}:[A-Z]{1,3}[0-9]{1,7})[\"']")
_DECIMALS = re.compile(r"0\.(0{1,6})\Z")
_SHEET = re.compile(rb"<(?:\w+:)?sheet[\s/>]")


class BookRefused(Wrong):
    """The file cannot be read as an event workbook; the message says why and what to do."""


class Shown(float):
    """A number with the decimals that its cell is set to show: a scale that shows 9.40 is a hundredth's."""

    decimals: int


@dataclass(frozen=True)
class Cell:
    """A cell: its value as the spreadsheet keeps it, and its place such as ``Slips!G12``."""

    value: Any
    place: str
    uncached: bool = False


@dataclass(frozen=True)
class SheetRows:
    """A sheet: its title as written, its header values, and the rows under it that are not empty, with their numbers;
    ``merged`` are the ranges of cells made one, such as ``A1:B2``.

    Values stay as they were read; ``cell`` makes a cell of one when it is looked at, which keeps large sheets small.
    """

    title: str
    header: tuple[Any, ...]
    rows: tuple[tuple[int, tuple[Any, ...]], ...]
    uncached: frozenset[tuple[int, int]] = frozenset()
    merged: tuple[str, ...] = ()

    def place(self, row: int, column: int) -> str:
        """Where a cell stands; ``column`` counts from 0."""
        return f"{self.title}!{get_column_letter(column + 1)}{row}"

    def cell(self, row: int, values: tuple[Any, ...], column: int) -> Cell:
        """The cell of a row at ``column``, counted from 0; empty beyond the row's end."""
        value = values[column] if column < len(values) else None
        return Cell(value, self.place(row, column), value is None and (row, column + 1) in self.uncached)


def open_book(path: Path, name: str = "") -> dict[str, SheetRows]:
    """The sheets of a workbook by folded title. Raises BookRefused with one clear sentence, which calls it ``name``."""
    name = name or path.name
    if path.suffix.lower() != ".xlsx":
        with_macros = path.suffix.lower() in (".xlsm", ".xltm")
        raise BookRefused((MACROS_BY_NAME if with_macros else NOT_A_WORKBOOK).says(name=name))
    try:
        size = path.stat().st_size
    except OSError:
        raise BookRefused(BOOK_NOT_FOUND.says(name=name)) from None
    if size > MOST_BYTES:
        raise BookRefused(BOOK_TOO_LARGE.says(name=name))
    try:
        with path.open("rb") as file:
            return read_book(name, file)
    except OSError:
        raise BookRefused(BOOK_NOT_READABLE.says(name=name)) from None


def read_book(name: str, file: BinaryIO) -> dict[str, SheetRows]:
    """The sheets of an open workbook by folded title, as ``open_book``."""
    try:
        with warnings.catch_warnings():
            # What openpyxl warns of is named again as a fault, with its cell.
            warnings.simplefilter("ignore")
            return _read(name, file, _check_parts(name, file))
    except BookRefused:
        raise
    except OSError:
        raise BookRefused(BOOK_NOT_READABLE.says(name=name)) from None
    except Exception:
        # openpyxl meets a broken file with whatever its parser happens to raise; none of it helps the user.
        raise BookRefused(BOOK_BROKEN.says(name=name)) from None


@dataclass
class _Parts:
    """What a look at the archive found: whether some sheet holds formulas, and the merged ranges by the sheet's part."""

    formulas: bool = False
    merged: dict[str, dict[str, None]] = field(default_factory=dict)


def _check_parts(name: str, file: BinaryIO) -> _Parts:
    """Look at the archive before anything unpacks it."""
    found = _Parts()
    left = {**MOST_TAGS, "sheet": MOST_SHEETS}
    with zipfile.ZipFile(file) as archive:
        parts = archive.infolist()
        unpacked = sum(part.file_size for part in parts)
        if len(parts) > MOST_PARTS or unpacked > MOST_UNPACKED:
            raise BookRefused(UNPACKS_TO_TOO_MUCH.says(name=name))
        for part in parts:
            low = part.filename.lower()
            if "vbaproject" in low or (low.endswith(".bin") and "macro" in low):
                raise BookRefused(BOOK_HAS_MACROS.says(name=name))
            if not low.endswith((".xml", ".rels")):
                continue
            _check_xml(name, archive, part, left, found)
    return found


def _check_xml(name: str, archive: zipfile.ZipFile, part: zipfile.ZipInfo, left: dict[str, int], found: _Parts) -> None:
    """Read one part in pieces: refuse document types and macros, and notice formulas and merged cells. Honest about its size.

    What the part has of tags and sheets is taken off ``left``.
    """
    low = part.filename.lower()
    sheet = low.startswith("xl/worksheets/") and low.endswith(".xml")
    kind = "sheets" if sheet else "texts" if low == "xl/sharedstrings.xml" else "rest"
    read, before = 0, b""
    with archive.open(part) as stream:
        while piece := stream.read(1 << 20):
            read += len(piece)
            if read > part.file_size or read > MOST_UNPACKED:
                raise BookRefused(UNPACKS_TO_MORE_THAN_SAID.says(name=name))
            text = (before + piece).replace(b"\x00", b"")
            left[kind] -= piece.count(b"<")
            if kind == "rest":
                left["sheet"] -= len(_SHEET.findall(text)) - len(_SHEET.findall(before.replace(b"\x00", b"")))
            if left["sheet"] < 0:
                raise BookRefused(TOO_MANY_SHEETS.says(name=name, most=MOST_SHEETS))
            if left[kind] < 0:
                raise BookRefused((TOO_MANY_CELLS if sheet else UNPACKS_TO_TOO_MUCH).says(name=name))
            if b"<!DOCTYPE" in text or b"<!ENTITY" in text or b"<!doctype" in text:
                raise BookRefused(BOOK_HAS_ENTITIES.says(name=name))
            if b"macroEnabled" in text:
                raise BookRefused(BOOK_HAS_MACROS.says(name=name))
            if sheet:
                found.formulas = found.formulas or b"<f>" in text or b"<f " in text or b":f>" in text
                merged = dict.fromkeys(ref.decode() for ref in _MERGED.findall(text))
                found.merged.setdefault(part.filename, {}).update(merged)
            before = piece[-64:]


def _read(name: str, file: BinaryIO, parts: _Parts) -> dict[str, SheetRows]:
    file.seek(0)
    values = load_workbook(file, read_only=True, data_only=True, keep_links=False)
    uncached: dict[str, set[tuple[int, int]]] = {}
    if parts.formulas:
        file.seek(0)
        uncached = _formula_cells(load_workbook(file, read_only=True, data_only=False, keep_links=False))
    sheets: dict[str, SheetRows] = {}
    left = _Left(name)
    for sheet in values.worksheets:
        sheet.reset_dimensions()
        formula_cells = uncached.get(sheet.title, set())
        written = list(_rows(sheet, formula_cells, left))
        key = folded(sheet.title)
        if key in sheets:
            raise BookRefused(SHEET_TWICE.says(name=name, title=sheet.title))
        header = written.pop(0)[1] if written and written[0][0] == 1 else ()
        sheets[key] = SheetRows(sheet.title, header, tuple(written), frozenset(formula_cells), _merged(sheet, parts))
    values.close()
    return sheets


def _merged(sheet: Any, parts: _Parts) -> tuple[str, ...]:
    return tuple(parts.merged.get(str(sheet._worksheet_path).lstrip("/"), ()))


class _Left:
    """What a workbook may still have of rows, empty rows and processor time, all its sheets together."""

    def __init__(self, name: str) -> None:
        self.name, self.rows, self.empty = name, MOST_ROWS, MOST_EMPTY_ROWS
        self.until = time.thread_time() + MOST_SECONDS

    def take(self, title: str, filled: bool) -> None:
        """One row more. Raises BookRefused where it is one too many."""
        self.rows -= filled
        self.empty -= not filled
        if self.rows < 0:
            raise BookRefused(TOO_MANY_ROWS.says(name=self.name, most=f"{MOST_ROWS:,}"))
        if self.empty < 0:
            raise BookRefused(TOO_MANY_EMPTY_ROWS.says(name=self.name, title=title))
        if time.thread_time() > self.until:
            raise BookRefused(TOO_MANY_CELLS.says(name=self.name))


def _rows(sheet: Any, uncached: set[tuple[int, int]], left: _Left) -> Iterator[tuple[int, tuple[Any, ...]]]:
    with_formulas = {row for row, _ in uncached}
    # A row that the file leaves out, which a harmful file has by the ten thousand, is not looked at cell by cell
    left_out = (EMPTY_CELL,) * MOST_COLUMNS
    for number, cells in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS), start=1):
        if all(map(is_, cells, left_out)):
            row: tuple[Any, ...] = ()
        else:
            row = tuple(_value(cell) if cell.data_type == "n" else cell.value for cell in cells)
        blank = row.count(None) == len(row) or all(value in (None, "") for value in row)
        filled = not blank or number in with_formulas
        left.take(sheet.title, filled)
        if filled:
            if any(isinstance(value, str) and len(value) > MOST_SIGNS for value in row):
                raise BookRefused(BOOK_TEXT_TOO_LONG.says(name=left.name, title=sheet.title, row=number))
            yield number, _trimmed(row)


def _value(cell: Any) -> Any:
    """A cell's value; a number that is set to show decimals as such."""
    if cell.value is None or not cell.has_style:
        return cell.value
    decimals = _DECIMALS.match(cell.number_format)
    if decimals is None:
        return cell.value
    shown = Shown(cell.value)
    shown.decimals = len(decimals[1])
    return shown


def _trimmed(row: tuple[Any, ...]) -> tuple[Any, ...]:
    """A row without the empty cells at its end."""
    end = len(row)
    while end and row[end - 1] is None:
        end -= 1
    return row[:end]


def _formula_cells(book: Any) -> dict[str, set[tuple[int, int]]]:
    found: dict[str, set[tuple[int, int]]] = {}
    for sheet in book.worksheets:
        sheet.reset_dimensions()
        cells = set()
        for number, row in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS, values_only=True), start=1):
            if number > MOST_EMPTY_ROWS + MOST_ROWS:
                break
            for column, value in enumerate(row, start=1):
                if (isinstance(value, str) and value.startswith("=")) or type(value).__name__ in (
                    "ArrayFormula",
                    "DataTableFormula",
                ):
                    cells.add((number, column))
        found[sheet.title] = cells
    book.close()
    return found
