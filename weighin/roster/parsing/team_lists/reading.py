"""A list of teams, from its texts to teams, all faults at once."""

from collections.abc import Mapping, Sequence

from weighin.roster.domain.list_faults import (
    HEADING_NOT_THERE,
    MERGED_ROWS,
    NO_HEADING,
    NO_HEADINGS,
    SKIPPED_ABOVE,
    SKIPPED_EMPTY,
    SKIPPED_HEADINGS,
    SKIPPED_TOTAL,
    TOO_MANY_LINES,
    TWO_COLUMNS,
)
from weighin.roster.domain.team_list import MOST_ROWS, Beside, Column, Grid, ListFault, Matching, Skipped, TeamList
from weighin.roster.parsing.team_lists.cells import one_line
from weighin.roster.parsing.team_lists.headings import Headings, find_headings, key_of
from weighin.roster.parsing.team_lists.rows import RowReader
from weighin.rules.faults import Said
from weighin.rules.look_alikes import look_of

SUMS = frozenset({"total", "totals", "count", "sum"})
Rows = list[tuple[int, Sequence[str]]]


def read_list(grid: Grid, beside: Beside, matching: Matching | None = None, namesakes: bool = False) -> TeamList:
    """What a list says, with every fault; it is good when there are none. With ``namesakes`` two teams may have anglers
    of one name, which is a warning then."""
    matching = matching or Matching()
    headings = find_headings(grid.rows, matching)
    found = TeamList()
    if headings is None:
        found.faults.append(ListFault(None, None, "no_headings", NO_HEADINGS.says()))
        return found
    number, words = grid.rows[headings.place]
    found.heading = number
    found.columns = _columns(headings, words)
    columns = _one_column_a_field(headings, words, number, found)
    found.faults += _not_there(matching, words)
    found.faults += _merged(grid, number, words)
    rows = _rows_to_read(grid, headings, found)
    found.warnings += _without_heading(rows, words)
    if len(rows) > MOST_ROWS:
        said = TOO_MANY_LINES.says(n=len(rows), most=f"{MOST_ROWS:,}")
        found.faults.append(ListFault(None, None, "too_large", said))
        return found
    at = columns.get("team")
    given = {look_of(one_line(cells[at])) for _, cells in rows if at is not None and at < len(cells)} - {""}
    reader = RowReader(columns, words, beside, grid.wrong, namesakes, given)
    found.rows = [reader.read(row, cells) for row, cells in rows]
    found.faults += reader.faults
    found.warnings += reader.warnings
    return found


def _columns(headings: Headings, words: Sequence[str]) -> tuple[Column, ...]:
    return tuple(Column(index, word.strip(), headings.fields.get(index, "")) for index, word in enumerate(words))


def _one_column_a_field(headings: Headings, words: Sequence[str], number: int, found: TeamList) -> Mapping[str, int]:
    """The first column of each field; a second one, or all names in one column beside a first angler's, is a fault."""
    columns: dict[str, int] = {}
    for index, field in headings.fields.items():
        clash = field if field in columns else {"anglers": "angler_1", "angler_1": "anglers"}.get(field, "")
        if clash in columns:
            said = TWO_COLUMNS.says(first=one_line(words[columns[clash]]), second=one_line(words[index]))
            found.faults.append(ListFault(number, words[index].strip(), "two_columns", said))
        else:
            columns[field] = index
    return columns


def _not_there(matching: Matching, words: Sequence[str]) -> list[ListFault]:
    keys = set(map(key_of, words))
    return [
        ListFault(None, heading, "no_headings", HEADING_NOT_THERE.says(heading=heading))
        for heading in matching.named
        if key_of(heading) not in keys
    ]


def _merged(grid: Grid, heading: int, words: Sequence[str]) -> list[ListFault]:
    """Cells that are one over several rows: whose row would the value be? Above the headings nothing is read."""
    return [
        ListFault(
            merge.first_row,
            words[merge.first_column].strip() if merge.first_column < len(words) else None,
            "merged",
            MERGED_ROWS.says(first=merge.first_row, last=merge.last_row),
        )
        for merge in grid.merged
        if merge.last_row > merge.first_row and merge.last_row >= heading
    ]


def _rows_to_read(grid: Grid, headings: Headings, found: TeamList) -> Rows:
    """The rows under the headings that are teams; the others are noted as skipped."""
    rows: Rows = []
    keys = _keys(grid.rows[headings.place][1])
    before = 0
    for place, (number, cells) in enumerate(grid.rows):
        found.skipped += [Skipped(empty, SKIPPED_EMPTY.says()) for empty in range(before + 1, number)]
        before = number
        if place == headings.place:
            continue
        why = SKIPPED_ABOVE.says() if place < headings.place else _why_skipped(cells, keys)
        if why is None:
            rows.append((number, cells))
        else:
            found.skipped.append(Skipped(number, why))
    return rows


def _why_skipped(cells: Sequence[str], headings: list[str]) -> Said | None:
    total = next((one_line(cell) for cell in cells if key_of(cell) in SUMS), None)
    if total is not None:
        return SKIPPED_TOTAL.says(text=total)
    return SKIPPED_HEADINGS.says() if _keys(cells) == headings else None


def _keys(cells: Sequence[str]) -> list[str]:
    keys = [key_of(cell) for cell in cells]
    while keys and not keys[-1]:
        keys.pop()
    return keys


def _without_heading(rows: Rows, words: Sequence[str]) -> list[ListFault]:
    filled: dict[int, int] = {}
    for _, cells in rows:
        for index, cell in enumerate(cells):
            if cell.strip() and not (index < len(words) and words[index].strip()):
                filled[index] = filled.get(index, 0) + 1
    return [
        ListFault(None, None, "no_heading", NO_HEADING.says(column=index + 1, n=n))
        for index, n in sorted(filled.items())
    ]
