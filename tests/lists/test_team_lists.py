"""Lists of teams in the shapes that clubs keep: what is read of each, and what is said of what cannot be.

The expectations are the contract of the list; lists, clubs and people are invented.
"""

from decimal import Decimal
from typing import Any

import pytest
from lists.written import bytes_of

from weighin.roster.domain.team_list import Beside, Matching, TeamList, as_json
from weighin.roster.parsing.team_lists.reading import read_list
from weighin.workbooks.parsing.team_lists import ListRefused, open_list

BESIDE = Beside(Decimal("120"), Decimal("20"), ("A", "B"))
HEAD = "Boat,Team,Angler 1,Angler 2"


def read(
    content: str | bytes, beside: Beside = BESIDE, *, named: dict[str, str] | None = None, sheet: str = "", **said: Any
) -> TeamList:
    matching = Matching(named or {})
    content = content.encode() if isinstance(content, str) else content
    try:
        return read_list(open_list(content, "list", matching, sheet), beside, matching, **said)
    except ListRefused as refused:
        return TeamList(faults=[refused.fault])


def good(content: str | bytes, **said: Any) -> list[dict[str, Any]]:
    found = read(content, **said)
    assert not found.faults, [(one.row, one.column, one.message) for one in found.faults]
    rows: Any = as_json(found)["rows"]
    return list(rows)


def faults(content: str | bytes, *said: Any, **more: Any) -> list[tuple[int | None, str | None, str]]:
    return [(one.row, one.column, one.code) for one in read(content, *said, **more).faults]


def cell(heading: str, text: str, beside: Beside = BESIDE) -> TeamList:
    """A list of one good team with one more column."""
    return read(f"Team;Angler 1;{heading}\nAlders;Ann Alder;{text}\n", beside)


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_any_delimiter_and_encoding(delimiter: str, encoding: str) -> None:
    text = delimiter.join(["Boat", "Team", "Angler 1"]) + "\r\n" + delimiter.join(["3", "Zoë’s", "José Ñandú"]) + "\r\n"
    (row,) = good(text.encode(encoding))
    assert (row["boat"], row["team"], row["anglers"]) == (3, "Zoë’s", ["José Ñandú"])


def test_utf_16_big_end_first_and_every_script() -> None:
    names = ["Łucja Żak", "Ольга Ёлкина", "王小明", "محمد علي", "Νίκη Ωμέγα"]
    text = "Team\tAngler 1\n" + "".join(f"T{n}\t{name}\n" for n, name in enumerate(names))
    for content in (text.encode("utf-16-be"), text.encode("utf-16-le")):
        mark = b"\xfe\xff" if content[0] == 0 else b"\xff\xfe"
        assert [row["anglers"][0] for row in good(mark + content)] == names


def test_quotes_by_rfc_4180() -> None:
    rows = good('Team,Angler 1,Notes\r\n"Hook, Line","Ann ""Ace"" Alder","two\nlines"\r\nOther,Bob Birch,\r\n')
    assert rows[0]["team"] == "Hook, Line" and rows[0]["anglers"] == ['Ann "Ace" Alder']
    assert rows[0]["note"] == "two\nlines"
    assert [row["row"] for row in rows] == [2, 3], "records are counted, not lines"


@pytest.mark.parametrize(
    "content",
    [
        b"\xff\xfeT\x00e\x00a",
        b"Team,Angler 1\nA,\x81\x8d\n",
        "Team,Angler 1\nA,Ann".encode("utf-16-le"),
        b"\xd0\xcf\x11\xe0old",
        b"PK\x03\x04nothing",
        b"%PDF-1.7",
        b'Team,Angler 1\nA,"Ann Alder\nB,Bob\n',
    ],
)
def test_what_is_no_list_is_unreadable(content: bytes) -> None:
    assert faults(content) == [(None, None, "unreadable")]


def test_a_file_over_5_mb_and_a_list_over_5000_teams_are_too_large() -> None:
    assert faults(b" " * (5 * 1024 * 1024 + 1)) == [(None, None, "too_large")]
    assert faults("a,;|\t\n" * 60_000) == [(None, None, "too_large")]
    rows = "".join(f"{n},T{n},Angler {n},\n" for n in range(1, 5002))
    assert faults(f"{HEAD}\n{rows}") == [(None, None, "too_large")]


def test_the_heading_row_is_the_first_with_two_headings_of_which_one_names_somebody() -> None:
    text = "Quill Lake Open 2026,,\nBoat,Paid,\nPhone only,Team,\n\nNo.,Crew,Angler\n7,Alders,Ann Alder\n"
    found = read(text)
    assert found.heading == 5 and found.unknown == ["Crew"] and not found.faults
    assert [one.row for one in found.skipped] == [1, 2, 3, 4]
    assert faults("Boat,Paid\n1,yes\n") == [(None, None, "no_headings")]
    assert faults("") == faults("\n\n") == [(None, None, "no_headings")]


def test_headings_of_the_map_count_too() -> None:
    text = "Hull,Crew\n7,Alders\n"
    assert faults(text) == [(None, None, "no_headings")]
    (row,) = good(text, named={"hull": "boat", "CREW": "anglers"})
    assert (row["boat"], row["anglers"], row["team"]) == (7, ["Alders"], "Alders")
    assert faults(f"{HEAD}\n1,A,Ann,\n", named={"Nowhere": "phone"}) == [(None, "Nowhere", "no_headings")]
    (row,) = good("Team,Name\nAlders,Ann and Bob\n", named={"Name": "angler_1"})
    assert row["anglers"] == ["Ann and Bob"]


def test_rows_that_are_no_teams_are_skipped_and_each_says_why() -> None:
    text = f"Alder Club\n{HEAD}\n1,A,Ann Alder,\n,,,\n\n{HEAD.upper()}\n2,B,Bob Birch,\nTOTAL,2,,\n,,Count ,2\n\n"
    found = read(text)
    assert [row.row for row in found.rows] == [3, 7] and not found.faults
    assert [(one.row, one.said.code) for one in found.skipped] == [
        (1, "list_skipped_above"), (4, "list_skipped_empty"), (5, "list_skipped_empty"), (6, "list_skipped_headings"),
        (8, "list_skipped_total"), (9, "list_skipped_total"),
    ]  # fmt: skip


def test_total_as_a_part_of_a_cell_skips_nothing() -> None:
    assert len(good(f"{HEAD}\n1,Total Loss,Ann Total,\n")) == 1


HEADINGS = {
    "boat": ["boat", "Boat No.", "BOAT NUMBER", "team no", "Team Number", "Team #", "No", "number", "#", " Boat # "],
    "team": ["Team", "team_name", "Team-Name:"],
    "angler_1": ["Angler 1", "ANGLER", "angler one", "First Angler", "Captain", "Boater", "Partner 1", "Angler #1"],
    "angler_2": ["Angler 2", "angler two", "Second angler", "Partner", "Partner 2", "Co-Angler", "Non-Boater"],
    "angler_3": ["Angler 3", "third angler"],
    "anglers": ["Anglers", "Names", "Name", "Team Members"],
    "phone": ["Phone", "Cell", "Mobile", "Tel.", "Telephone"],
    "emergency": ["Emergency", "Emergency Contact"],
    "email": ["Email", "E-mail", "e mail"],
    "paid": ["Paid?", "Fee", "Entry Fee"],
    "big_fish_pot": ["Big Fish", "Big-Fish Pot?", "Pot"],
    "flight": ["Flight"],
    "youth": ["Youth", "Junior"],
    "status": ["Status"],
    "note": ["Note", "Notes", "Comments"],
}


@pytest.mark.parametrize(("field", "heading"), [(field, one) for field, all_of in HEADINGS.items() for one in all_of])
def test_headings_as_clubs_write_them(field: str, heading: str) -> None:
    beside = "Angler 1" if field == "team" else "Team"
    found = read(f"{heading},{beside}\nx,y\n")
    assert found.columns[0].field == field and not found.unknown


def test_unknown_headings_are_named_and_left_out() -> None:
    found = read("Team,Shirt size,Angler 1,Hometown\nA,XL,Ann Alder,Quill\n")
    assert as_json(found)["unknown"] == ["Shirt size", "Hometown"] and not found.faults
    assert [one.code for one in read("Team,Angler 1,\nA,Ann Alder,more\n").warnings] == ["no_heading"]


def test_two_columns_of_one_field_are_a_fault_of_the_second() -> None:
    assert faults("Team,Angler,Captain\nA,Ann Alder,Bob\n") == [(1, "Captain", "two_columns")]
    assert faults("Team,Angler 1,Names\nA,Ann Alder,Bob\n") == [(1, "Names", "two_columns")]
    assert faults("Team,Names,Angler 1\nA,Ann Alder,Bob\n") == [(1, "Angler 1", "two_columns")]
    (row,) = good("Team,Name,Partner\nA,Ann Alder,Bob Birch\n")
    assert row["anglers"] == ["Ann Alder", "Bob Birch"]


@pytest.mark.parametrize(
    ("text", "anglers"),
    [
        ("Ann Alder & Bob Birch", ["Ann Alder", "Bob Birch"]),
        ("Ann Alder and Bob Birch and Cy Cedar", ["Ann Alder", "Bob Birch", "Cy Cedar"]),
        ("Ann Alder / Bob Birch", ["Ann Alder", "Bob Birch"]),
        ("Ann Alder;Bob Birch", ["Ann Alder", "Bob Birch"]),
        ("Ann Alder\nBob Birch", ["Ann Alder", "Bob Birch"]),
        ("Ann Alder &\r\nBob Birch", ["Ann Alder", "Bob Birch"]),
        ("Alder, Ann", ["Alder, Ann"]),
        ("Sandy Anderson", ["Sandy Anderson"]),
        ("Ann/Bob Birch", ["Ann/Bob Birch"]),
        ("A&B Alder", ["A&B Alder"]),
    ],
)
def test_anglers_in_one_cell_are_split(text: str, anglers: list[str]) -> None:
    (row,) = good(f'Team,Anglers\nA,"{text}"\n')
    assert row["anglers"] == anglers
    (row,) = good(f'Team,Angler\nA,"{text}"\n'.replace("\r", "").replace("Alder &\n", "Alder & "))
    assert len(row["anglers"]) == 1, "one angler's own column is never split"


@pytest.mark.parametrize(
    "text", ["y", "Yes", "X", "TRUE", "1", "paid", "✓", "✔️", "☑", "120", "$120", "$ 120.00", "120 €"]
)
def test_paid(text: str) -> None:
    found = cell("Paid?", text)
    assert found.rows[0].paid and not found.faults


@pytest.mark.parametrize("text", ["", "n", "No", "FALSE", "0", "Unpaid", "$0.00"])
def test_not_paid(text: str) -> None:
    found = cell("Paid?", text)
    assert not found.rows[0].paid and not found.faults


@pytest.mark.parametrize("text", ["60", "$60.00", "120,00", "1,20", "-120", "+120", "maybe", "120 cash", "12.0.0"])
def test_another_amount_or_a_text_in_paid_is_a_fault(text: str) -> None:
    found = cell("Paid?", text)
    assert [(one.row, one.column, one.code) for one in found.faults] == [(2, "Paid?", "amount")]


def test_an_amount_that_differs_is_named_beside_the_fee_and_thousands_have_commas() -> None:
    assert "$60" in cell("Fee", "$60").faults[0].message and "120.00" in cell("Fee", "$60").faults[0].message
    large = Beside(Decimal("1200"), Decimal(0))
    assert cell("Fee", "$1,200.00", large).rows[0].paid
    assert cell("Fee", "1,2000", large).faults and cell("Fee", "12,00", large).faults


def test_with_a_fee_of_0_any_amount_but_0_is_a_fault() -> None:
    free = Beside(Decimal(0), Decimal(0))
    assert cell("Pot", "5", free).faults[0].code == "amount"
    assert not cell("Pot", "0", free).faults and not cell("Pot", "$0", free).faults
    assert cell("Pot", "yes", free).rows[0].big_fish_pot
    assert cell("Pot", "$20").rows[0].big_fish_pot


def test_youth_status_flight_note_and_contacts() -> None:
    assert [cell("Youth", text).rows[0].youth for text in ("", "x", "n")] == [None, True, False]
    assert [cell("Status", text).rows[0].status for text in ("", "Withdrawn")] == ["entered", "withdrawn"]
    assert cell("Flight", " b ").rows[0].flight == "B"
    assert cell("E-mail", "a@example.org").rows[0].email == "a@example.org"
    for heading, text, code in (
        ("Youth", "maybe", "unknown_choice"),
        ("Status", "gone", "unknown_choice"),
        ("Flight", "C", "unknown_choice"),
        ("E-mail", "nobody", "email"),
        ("Boat", "twelve", "not_a_number"),
        ("Boat", "0", "not_a_number"),
        ("Boat", "-3", "not_a_number"),
        ("Boat", "12.5", "not_a_number"),
        ("Phone", "5" * 61, "unreadable"),
    ):
        assert [(one.column, one.code) for one in cell(heading, text).faults] == [(heading, code)], (heading, text)
    (row,) = good("Team,Angler 1,Phone\nA,Ann,\n")
    assert row["phone"] is row["email"] is row["flight"] is row["note"] is row["youth"] is row["boat"] is None


def test_excels_12_0_is_boat_12() -> None:
    assert cell("Boat", "12.0").rows[0].boat == 12
    (row,) = good(bytes_of([["Boat", "Team", "Angler 1", "Cell"], [12.0, "A", "Ann", 5550171234.0]]))
    assert (row["boat"], row["phone"]) == (12, "5550171234")


def test_outer_and_doubled_spaces_go() -> None:
    (row,) = good("Team,Angler 1\n  The   Alders , Ann\u00a0 Alder \n")
    assert (row["team"], row["anglers"]) == ("The Alders", ["Ann Alder"])


def test_a_team_without_a_name_is_called_by_its_anglers() -> None:
    text = "Team,Angler 1,Angler 2,Angler 3,Youth\n,Ann Alder,Bob Birch,,\n,Ada Alder,Ben Birch,,yes\n,A A,B B,C C,\n"
    found = read(text + ",Ann X Oak,Bob Oak,,\n,Cy Oak,Di Oak,,\n")
    assert not found.faults
    names = ["Alder & Birch", "Ada Alder & Ben Birch", "A & B & C", "Oak & Oak", "Cy & Di Oak"]
    assert [row.team for row in found.rows] == names
    assert [(one.row, one.code) for one in found.warnings] == [
        (2, "team_made"), (3, "team_made"), (3, "team_made_youth"), (4, "team_made"), (5, "team_made"), (6, "team_made"),
    ]  # fmt: skip


def test_names_that_the_list_or_the_event_has_are_not_made_again() -> None:
    text = "Team,Angler 1,Angler 2\n,Ann Alder,Bob Birch\nalder  & BIRCH,Cy Cedar,\n"
    assert [row["team"] for row in good(text)] == ["Ann Alder & Bob Birch", "alder & BIRCH"]
    there = Beside(Decimal(0), Decimal(0), teams={"alder & birch": "Alder & Birch"})
    assert [row["team"] for row in good("Team,Names\n,Ann Alder & Bob Birch\n", beside=there)] == [
        "Ann Alder & Bob Birch"
    ]


def test_what_stands_twice_is_a_fault_of_the_second_and_later_rows_and_names_the_first() -> None:
    text = f"{HEAD}\n1,A,Ann,\n1,B,Bob,\n1.0,a ,ANN,\n2,C,Cy,cy\n,D,,\n3,E,E1,E2\n"
    found = read(text)
    assert [(one.row, one.column, one.code) for one in found.faults] == [
        (3, "Boat", "duplicate_boat"), (4, "Angler 1", "duplicate_angler"), (4, "Boat", "duplicate_boat"),
        (4, "Team", "duplicate_team"), (5, "Angler 2", "duplicate_angler"), (6, "Angler 1", "missing"),
    ]  # fmt: skip
    assert all("row 2" in one.message for one in found.faults[:4])
    assert len(found.rows) == 6, "good rows stay"


def test_what_the_event_has_is_a_fault_too() -> None:
    there = Beside(
        Decimal(0), Decimal(0), boats={1: "Alders"}, teams={"alders": "Alders"}, people={"ann alder": "Alders"},
        season={"birches": ("birch es", "Birch es")},
    )  # fmt: skip
    found = read(f"{HEAD}\n1,alders,Ann  ALDER,\n2,Birches,Bob,\n", there)
    assert [(one.row, one.code) for one in found.faults] == [
        (2, "duplicate_angler"), (2, "duplicate_boat"), (2, "duplicate_team"), (3, "duplicate_team"),
    ]  # fmt: skip


def test_namesakes_in_two_teams_are_a_warning_when_they_are_said_to_be_two() -> None:
    text = f"{HEAD}\n1,A,Ann Alder,\n2,B,ann  alder,\n3,C,Cy,Cy\n"
    found = read(text, namesakes=True)
    assert [(one.row, one.code) for one in found.faults] == [(4, "duplicate_angler")]
    assert [(one.row, one.column, one.code) for one in found.warnings] == [(3, "Angler 1", "duplicate_angler")]


def test_more_than_three_anglers() -> None:
    assert faults("Team,Anglers\nA,a & b & c & d\n") == [(2, "Anglers", "too_many")]
    assert faults("Team,Names,Partner,Angler 3\nA,a & b,c,d\n") == [(2, "Angler 3", "too_many")]


def test_a_fault_of_a_column_that_is_not_there_stands_at_the_anglers() -> None:
    assert faults("Boat,Team,Partner\n1,A,\n") == [(2, "Partner", "missing")]
    assert faults("Boat,Names\n1,Ann Alder\n2,Ann Alder\n3,Ann Alder\n")[-1] == (4, "Names", "duplicate_team")
    assert faults("Boat,Team\n1,A\n") == [(2, None, "missing")]


def test_merged_cells() -> None:
    head = ["Boat", "Team", "Angler 1", "Angler 2"]
    title = [["Quill Open", None, None, None], ["2026", None, None, None]]
    rows = [*title, head, [1, "A", "Ann", "Bob"], [2, "B", "Cy", None]]
    found = read(bytes_of(rows, "A1:D2"))
    assert not found.faults and len(found.rows) == 2, "a title over two rows hides nothing"
    found = read(bytes_of(rows, "C4:D4"))
    assert not found.faults and found.rows[0].anglers == ("Ann",), "it counts for its first cell"
    assert faults(bytes_of(rows, "B4:B5"))[0] == (4, "Team", "merged")
    assert "rows 4 to 5" in read(bytes_of(rows, "B4:B5")).faults[0].message
    assert (3, "Boat", "merged") in faults(bytes_of(rows, "A3:A4"))


def test_the_first_sheet_with_headings_or_the_one_that_is_named() -> None:
    content = bytes_of([["Team", "Angler"], ["A", "Ann"]], before="Cover")
    assert good(content)[0]["team"] == "A"
    assert good(content, sheet="teams")[0]["team"] == "A"
    assert faults(content, sheet="Cover") == [(None, None, "no_headings")]
    assert faults(content, sheet="Nowhere") == [(None, None, "unreadable")]


def test_a_formula_without_its_value_and_an_error_are_said_with_their_cells() -> None:
    found = faults(bytes_of([["Team", "Angler", "Phone"], ["A", "Ann", "=B9"], ["B", "Bob", "#N/A"]]))
    assert found == [(2, "Phone", "unreadable"), (3, "Phone", "unreadable")]


def test_rows_of_a_workbook_keep_their_numbers_and_empty_ones_are_listed() -> None:
    found = read(bytes_of([[], ["Team", "Angler"], [], ["A", "Ann"], ["", ""], ["B", "Bob"]]))
    assert [row.row for row in found.rows] == [4, 6]
    assert [one.row for one in found.skipped] == [1, 3, 5]


def test_a_text_that_was_guarded_from_formulas_is_read_as_it_was() -> None:
    (row,) = good("Team,Angler 1,Phone\n'=Ace,Ann,'+1 555 0171\n")
    assert (row["team"], row["phone"]) == ("=Ace", "+1 555 0171")


def test_a_signs_nobody_sees_and_words_of_two_scripts_are_said() -> None:
    assert faults("Team,Angler 1\nA\u202eB,Ann\n") == [(2, "Team", "unreadable")]
    assert faults("Team,Angler 1\nA,Аnn Alder\n") == [(2, "Angler 1", "unreadable")]
