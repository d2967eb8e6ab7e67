"""Ten lists in the shapes that clubs keep, each whole: nothing of it wrong, nothing missing. Clubs and people are invented."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from lists.written import bytes_of

from weighin.roster.domain.team_list import Beside, Matching, TeamList
from weighin.roster.parsing.team_lists.reading import read_list
from weighin.workbooks.parsing.team_lists import open_list

BESIDE = Beside(Decimal("120"), Decimal("20"), ("First", "Second"))
PEOPLE = [
    (1, "Slack Line", "Ann Alder", "Bob Birch"),
    (2, "Alder & Birch", "Ada Alder", "Ben Birch"),
    (12, "O’Dell & Søn", "Zoë O’Dell", "Åge Søn"),
]


def desk_sheet() -> bytes:
    """Kept in a spreadsheet under a title, with a sum below and a blank row between."""
    rows = [["Quill Lake Open, June 20"], [], ["#", "Team Name", "Angler 1", "Angler 2", "Paid?"]]
    rows += [[boat, *names, paid] for (boat, *names), paid in zip(PEOPLE, (120, "x", None), strict=True)]
    return bytes_of([*rows[:4], [], *rows[4:], ["Total", 3, None, None, 120]], "A1:E1")


def saved_in_europe() -> bytes:
    """Semicolons in Windows-1252, as a spreadsheet saves where the comma is a decimal mark."""
    rows = ["Boat No.;Team;First Angler;Second angler;Entry Fee"]
    rows += [
        f"{boat};{team};{one};{two};{paid}"
        for (boat, team, one, two), paid in zip(PEOPLE, ("$120.00", "paid", "no"), strict=True)
    ]
    return "\r\n".join(rows).encode("cp1252")


def unicode_text() -> bytes:
    """Tabs in UTF-16, as 'Unicode text'."""
    rows = [["Team #", "Team", "Boater", "Non-Boater", "Fee"]]
    rows += [[f"{boat}.0", *names, paid] for (boat, *names), paid in zip(PEOPLE, ("1", "TRUE", "0"), strict=True)]
    return "\r\n".join("\t".join(row) for row in rows).encode("utf-16")


def from_a_form() -> bytes:
    """What a form on the web collects: a time stamp, one field for both names, headings with signs."""
    rows = ['"Timestamp","Team Name:","Team Members","Boat #","PAID"']
    rows += [
        f'"6/{boat}/2026 8:00","{team}","{one} and {two}","{boat}","{paid}"'
        for (boat, team, one, two), paid in zip(PEOPLE, ("Yes", "Y", "N"), strict=True)
    ]
    return "\n".join(rows).encode("utf-8-sig")


def printed_by_pages() -> bytes:
    """Two pages below each other, each with its headings and its count."""
    head = "no|team|captain|partner|paid\n"
    rows = [f"{boat}|{'|'.join(names)}|{paid}\n" for (boat, *names), paid in zip(PEOPLE, ("✓", "✔", ""), strict=True)]
    pages = f"Page 1\n{head}{rows[0]}Count|1|||\n\n{head.upper()}{''.join(rows[1:])}Sum|2|||\n\n"
    return pages.encode()


def names_below_each_other() -> bytes:
    """One cell with a line for each angler, and the last column of nobody's use."""
    rows = [["Boat", "Team", "Names", "Paid", "Shirts"]]
    rows += [
        [boat, team, f"{one}\n{two}", paid, "L"]
        for (boat, team, one, two), paid in zip(PEOPLE, (True, "paid", False), strict=True)
    ]
    return bytes_of(rows)


def behind_a_cover() -> bytes:
    """A workbook whose first sheet says who made it."""
    rows = [["team number", "TEAM", "Partner 1", "Partner 2", "entry_fee"]]
    rows += [[float(boat), *names, paid] for (boat, *names), paid in zip(PEOPLE, (120.0, 1, 0), strict=True)]
    return bytes_of(rows, before="Cover")


def quoted_everywhere() -> bytes:
    rows = [["Boat", "Team", "Name", "Paid", "Notes"]]
    rows += [
        [str(boat), team, f"{one} & {two}", paid, 'said "maybe",\nthen yes']
        for (boat, team, one, two), paid in zip(PEOPLE, ("$ 120", "X", "unpaid"), strict=True)
    ]
    return "\r\n".join(",".join(f'"{cell}"'.replace('"maybe"', '""maybe""') for cell in row) for row in rows).encode()


def spaced_out() -> bytes:
    """Typed by hand, with spaces anywhere."""
    rows = ["  BOAT ,  team  name , Angler One,  Angler-Two , Paid ?"]
    rows += [
        f" {boat} ,  {team.replace(' ', '  ')} , {one}\u00a0,   {two}  , {paid} "
        for (boat, team, one, two), paid in zip(PEOPLE, ("yes", "120", " "), strict=True)
    ]
    return "\n\n".join(rows).encode()


def pasted() -> bytes:
    """Cells copied out of a spreadsheet, without an end of the last line."""
    rows = [["Boat Number", "Team", "Anglers", "Fee?"]]
    rows += [
        [str(boat), team, f"{one} / {two}", paid]
        for (boat, team, one, two), paid in zip(PEOPLE, ("120.00 $", "y", "false"), strict=True)
    ]
    return "\n".join("\t".join(row) for row in rows).encode()


LISTS = (
    desk_sheet, saved_in_europe, unicode_text, from_a_form, printed_by_pages, names_below_each_other, behind_a_cover,
    quoted_everywhere, spaced_out, pasted,
)  # fmt: skip


@pytest.mark.parametrize("written", LISTS)
def test_nothing_is_wrong_and_nothing_missing(written: Callable[[], bytes]) -> None:
    found: TeamList = read_list(open_list(written(), "list", Matching()), BESIDE)
    assert not found.faults, [(one.row, one.column, one.message) for one in found.faults]
    assert not found.warnings
    read: list[Any] = [(row.boat, row.team, *row.anglers) for row in found.rows]
    assert read == PEOPLE
    assert [row.paid for row in found.rows] == [True, True, False]
