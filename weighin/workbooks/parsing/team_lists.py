"""Open a list of teams: a workbook's sheet, or text, by what the file is and not by what it is called."""

import io
from collections.abc import Mapping, Sequence

from openpyxl.utils import range_boundaries

from weighin.roster.domain.list_faults import NO_SUCH_SHEET, TOO_LARGE_A_FILE, TOO_MANY_RECORDS
from weighin.roster.domain.team_list import MOST_BYTES, Grid, ListFault, Matching, Merge
from weighin.roster.parsing.team_lists.headings import find_headings
from weighin.roster.parsing.team_lists.text import grid_of, text_of
from weighin.rules.faults import Listed, Said, Wrong
from weighin.rules.values import folded
from weighin.workbooks.domain.faults import (
    BOOK_TOO_LARGE,
    TOO_MANY_CELLS,
    TOO_MANY_EMPTY_ROWS,
    TOO_MANY_ROWS,
    TOO_MANY_SHEETS,
    UNPACKS_TO_MORE_THAN_SAID,
    UNPACKS_TO_TOO_MUCH,
)
from weighin.workbooks.parsing.book import BookRefused, SheetRows, read_book
from weighin.workbooks.parsing.cells import as_words

MOST_MERGES = 10_000
ARCHIVE = b"PK\x03\x04"
TOO_LARGE = frozenset(
    sentence.code
    for sentence in (
        TOO_MANY_RECORDS,
        BOOK_TOO_LARGE,
        TOO_MANY_CELLS,
        TOO_MANY_EMPTY_ROWS,
        TOO_MANY_ROWS,
        TOO_MANY_SHEETS,
        UNPACKS_TO_MORE_THAN_SAID,
        UNPACKS_TO_TOO_MUCH,
    )
)


class ListRefused(Exception):
    """The file is no list that can be read; ``fault`` says why."""

    def __init__(self, code: str, said: Said):
        super().__init__(code)
        self.fault = ListFault(None, None, code, said)


def open_list(content: bytes, name: str, matching: Matching, sheet: str = "") -> Grid:
    """The list in a file: of a workbook its first sheet that has a heading row, or the ``sheet`` that is named.

    Raises ListRefused.
    """
    if len(content) > MOST_BYTES:
        raise ListRefused("too_large", TOO_LARGE_A_FILE.says())
    try:
        if content.startswith(ARCHIVE):
            return _of_book(read_book(name, io.BytesIO(content)), matching, sheet)
        return grid_of(text_of(content), matching)
    except BookRefused as refused:
        raise ListRefused("too_large" if refused.code in TOO_LARGE else "unreadable", refused.said) from None
    except Wrong as wrong:
        raise ListRefused("too_large" if wrong.code in TOO_LARGE else "unreadable", wrong.said) from None


def _of_book(book: Mapping[str, SheetRows], matching: Matching, sheet: str) -> Grid:
    if sheet:
        if folded(sheet) not in book:
            raise NO_SUCH_SHEET.wrong(sheet=sheet[:40], choices=Listed(tuple(one.title for one in book.values())))
        return _grid(book[folded(sheet)])
    grids = [_grid(one) for one in book.values()]
    with_headings = (grid for grid in grids if find_headings(grid.rows, matching))
    return next(with_headings, grids[0] if grids else Grid([]))


def _grid(sheet: SheetRows) -> Grid:
    wrong: dict[tuple[int, int], Said] = {}
    if len(sheet.merged) > MOST_MERGES:
        raise ListRefused("too_large", TOO_MANY_CELLS.says(name=sheet.title))
    merged = tuple(_merge(one) for one in sheet.merged)
    # A formula without its value may stand behind the last value of its row
    last: dict[int, int] = {}
    for row, column in sheet.uncached:
        last[row] = max(last.get(row, 0), column)
    inside = _inside(merged)
    rows: list[tuple[int, Sequence[str]]] = []
    for number, values in [(1, sheet.header), *sheet.rows] if sheet.header else sheet.rows:
        texts = []
        for index in range(max(len(values), last.get(number, 0))):
            text = ""
            if (number, index) not in inside:
                try:
                    text = as_words(sheet.cell(number, values, index))
                except Wrong as error:
                    wrong[number, index] = error.said
            texts.append(text)
        rows.append((number, texts))
    return Grid(rows, wrong, merged, sheet.title)


def _merge(reference: str) -> Merge:
    first_column, first_row, last_column, last_row = range_boundaries(reference)
    return Merge(first_row, first_column - 1, last_row, last_column - 1)


def _inside(merged: Sequence[Merge]) -> frozenset[tuple[int, int]]:
    """Cells of a merge but its first, in the rows and columns that are read."""
    return frozenset(
        (row, column)
        for one in merged
        for row in range(one.first_row, min(one.last_row, one.first_row + 20) + 1)
        for column in range(one.first_column, min(one.last_column, 99) + 1)
        if (row, column) != (one.first_row, one.first_column)
    )
