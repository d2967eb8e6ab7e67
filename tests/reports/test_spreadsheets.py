"""Workbooks as spreadsheets have them: numbers that add up, texts that stay texts, paper, choices, and another program's reading."""

import io
import shutil
import subprocess
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import call_command
from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from weighin.events.models import Event
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value
from weighin.reports.files.event import event_file
from weighin.reports.files.teams import sign_in_file, teams_file, template_file
from weighin.reports.writers.xlsx_file import write_xlsx
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import enter_teams
from weighin.slips.queries.slips import current_slips
from weighin.workbooks.parsing.book import read_book
from weighin.workbooks.parsing.cells import as_text

SOFFICE = shutil.which("soffice")
LOOKS_LIKE = ("007", "1-2", "3/4", "9-07.5", "1e5", "=1+1", "+49 171 5", "-", "@home", "(5)", "$5", "15:02", ".5", "−3")


def opened(content: bytes) -> Any:
    return load_workbook(io.BytesIO(content))


def column(page: Worksheet, head: str) -> list[Any]:
    heads = [cell.value for cell in page[1]]
    return [row[heads.index(head)] for row in page.iter_rows(min_row=2) if row[0].value is not None]


def offered(page: Worksheet) -> dict[str, str]:
    """The choices of a sheet by the first cell that has them."""
    found = page.data_validations.dataValidation
    return {str(one.sqref).split(":")[0]: one.formula1.strip('"') for one in found if one.type == "list"}


@pytest.mark.django_db
def test_weights_money_and_counts_are_numbers_and_a_zero_at_the_end_comes_back() -> None:
    event = world.event(slips=[world.slip(boat="1", gross="9.40", tare="0.250"), world.slip(boat="2", gross="12")])
    content = event_file(event, "xlsx")
    book = opened(content)
    gross = column(book["Slips"], "gross")
    assert [cell.value for cell in gross] == [9.4, 12] and [cell.data_type for cell in gross] == ["n", "n"]
    assert [cell.number_format for cell in gross] == ["0.00", "0"]
    assert column(book["Slips"], "tare")[0].number_format == "0.000"
    assert all(isinstance(cell.value, int) for cell in column(book["Slips"], "fish"))
    fee = {row[0].value: row[1] for row in book["Event"].iter_rows(min_row=2)}["entry_fee"]
    assert fee.data_type == "n" and fee.number_format == "0.00"
    slips = read_book("event.xlsx", io.BytesIO(content))["slips"]
    head = list(slips.header)
    read = [[as_text(slips.cell(*row, head.index(name))) for name in ("gross", "tare")] for row in slips.rows]
    assert read[0] == ["9.40", "0.250"] and read[1][0] == "12"


@pytest.mark.django_db
def test_what_was_written_comes_in_again_letter_by_letter(tmp_path: Path) -> None:
    weights = ("9.40", "10.00", "0.5", "7.125", "12")
    event = world.event(
        "First", slips=[world.slip(boat=str(boat), gross=gross) for boat, gross in enumerate(weights, 1)], teams=5
    )
    file = tmp_path / "event.xlsx"
    content = event_file(event, "xlsx")
    Event.objects.filter(pk=event.pk).update(slug="aside", name="Aside")
    file.write_bytes(content)
    call_command("import_event", str(file), stdout=io.StringIO(), stderr=io.StringIO())
    again = Event.objects.exclude(pk=event.pk).get()
    assert [slip.gross for slip in current_slips(again)] == list(weights)


@pytest.mark.django_db
def test_measured_figures_and_rules_are_numbers_with_every_digit(tmp_path: Path) -> None:
    sheets = world.plain_sheets(entry_fee="60")
    note = next(row for row in sheets["Fish care"] if row.get("boat"))
    note |= {"livewell_gal": "100.0", "ice_lb": "10", "livewell_do": "6.50"}
    content = event_file(world.event_of(sheets), "xlsx")
    book = opened(content)
    for head, shown in (("livewell_gal", (100, "0.0")), ("ice_lb", (10, "0")), ("livewell_do", (6.5, "0.00"))):
        assert shown in [(cell.value, cell.number_format) for cell in column(book["Fish care"], head)]
    rules = {row[0].value: row[1] for row in book["Rules"].iter_rows(min_row=2)}
    assert (rules["fish_limit"].value, rules["rounding"].value, rules["rounding"].number_format) == (5, 1, "0.00")
    assert rules["species"].data_type == "s" and rules["ties"].data_type == "s"
    head = {row[0].value: row[1] for row in book["Event"].iter_rows(min_row=2)}
    assert (head["entry_fee"].value, head["entry_fee"].number_format) == (60, "0.00")
    assert (
        head["season"].data_type == "s"
        and not [row for row in book["Holding"].iter_rows() if row[6].data_type == "s"][1:]
    )
    # And all of it comes in again as it was
    file = tmp_path / "event.xlsx"
    file.write_bytes(content)
    Event.objects.update(slug="aside", name="Aside")
    call_command("import_event", str(file), stdout=io.StringIO(), stderr=io.StringIO())
    again = opened(event_file(Event.objects.exclude(slug="aside").get(), "xlsx"))
    for page in book:
        assert [[cell.value for cell in row] for row in again[page.title]] == [
            [cell.value for cell in row] for row in page
        ]


@pytest.mark.django_db
def test_pounds_and_ounces_stay_text() -> None:
    event = world.event_of(world.plain_sheets(unit="lb-oz"))
    cells = [cell for cell in column(opened(event_file(event, "xlsx"))["Slips"], "gross") if cell.value is not None]
    assert cells and all(cell.data_type in "s" and cell.number_format == "@" for cell in cells if cell.value != 0)


def test_a_long_text_goes_on_below_and_a_sentence_runs_on_beside() -> None:
    words = "Nobody weighs a fish twice, whatever the tablet shows in the meantime. " * 2
    page = opened(
        write_xlsx([Sheet("Words", [SheetColumn("A"), SheetColumn("B")], [["a", words]], after=[words])])
    ).active
    assert page.row_dimensions[2].height == 45 and page.row_dimensions[3].height is None
    assert page["A2"].alignment.vertical == page["B2"].alignment.vertical == "top"
    assert page["B2"].alignment.wrap_text and not page["A3"].alignment.wrap_text and page["A3"].value == words
    assert page.column_dimensions["B"].width == 60 and page.column_dimensions["A"].width == 8


def test_texts_that_look_like_numbers_stay_texts() -> None:
    page = opened(write_xlsx([Sheet("Texts", [SheetColumn("Text", True)], [[text] for text in LOOKS_LIKE])])).active
    assert [(row[0].value, row[0].data_type, row[0].number_format) for row in page.iter_rows(min_row=2)] == [
        (text, "s", "@") for text in LOOKS_LIKE
    ]


@pytest.mark.django_db
def test_every_sheet_is_set_up_to_be_printed() -> None:
    event = world.plain("Fish & Chips")
    for content, wide, head_of_teams in (
        (event_file(event, "xlsx"), {"Slips", "Fish care", "Rules", "Check-ins"}, 1),
        (teams_file(event, "xlsx"), {"Teams", "Sign-in sheet"}, 1),
        (template_file(event), {"Teams"}, 3),
    ):
        for page in opened(content):
            head = head_of_teams if page.title == "Teams" else 1
            assert page.sheet_properties.pageSetUpPr.fitToPage and page.page_setup.fitToWidth == 1
            assert page.page_setup.fitToHeight == 0 and page.print_title_rows == f"${head}:${head}"
            assert page.oddFooter.right.text == "page &P of &N" and page.freeze_panes == f"A{head + 1}"
            across = sum(size.width for size in page.column_dimensions.values())
            assert (page.page_setup.orientation == "landscape") == (across > 90), page.title
            if page.title in wide:
                assert page.page_setup.orientation == "landscape", page.title
            for cell in page[head]:
                assert page.column_dimensions[cell.column_letter].width >= len(cell.value) + 2 and cell.font.bold
    assert opened(event_file(event, "xlsx"))["Slips"].oddHeader.left.text == "Fish && Chips: Slips"


@pytest.mark.django_db
def test_files_to_write_in_offer_their_choices() -> None:
    event = world.plain()
    book = opened(event_file(event, "xlsx"))
    keys = {book["Event"][f"A{cell[1:]}"].value: found for cell, found in offered(book["Event"]).items()}
    assert keys == {"weight_unit": "lb,lb-oz,kg", "handling": "hold_release,immediate_release,harvest"}
    rules = {book["Rules"][f"A{cell[1:]}"].value: found for cell, found in offered(book["Rules"]).items()}
    assert rules["dead_fish"] == "penalty,not_weighed,both" and rules["late_reduces_big_fish"] == "yes,no"
    teams = {book["Teams"][f"{cell[:-1]}1"].value: found for cell, found in offered(book["Teams"]).items()}
    assert teams["status"] == "entered,withdrawn,absent,disqualified" and teams["paid"] == "yes,no"
    care = {book["Fish care"][f"{cell[:-1]}1"].value: found for cell, found in offered(book["Fish care"]).items()}
    assert care["pump_ok"] == "yes,no" and "oxygen" in care["aeration"]
    sign_in = opened(sign_in_file(event, "xlsx")).active
    assert set(offered(sign_in).values()) == {"yes,no"} and len(offered(sign_in)) == 3


def contents(content: bytes, folder: Path, name: str) -> None:
    """Have another program open a workbook and write it anew; then compare every cell."""
    file = folder / f"{name}.xlsx"
    file.write_bytes(content)
    out = folder / "again"
    done = subprocess.run(
        [str(SOFFICE), f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to", "xlsx",
         "--outdir", str(out), str(file)],
        capture_output=True, timeout=240, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    ours, theirs = load_workbook(file), load_workbook(out / file.name)
    assert ours.sheetnames == theirs.sheetnames
    for page in ours:
        other = theirs[page.title]
        cells = {cell.coordinate: cell for row in page.iter_rows() for cell in row if cell.value is not None}
        others = {cell.coordinate: cell for row in other.iter_rows() for cell in row if cell.value is not None}
        assert {at: cell.value for at, cell in others.items()} == {at: cell.value for at, cell in cells.items()}
        for at, cell in cells.items():
            assert others[at].data_type == cell.data_type, f"{page.title}!{at}"
            assert others[at].number_format == cell.number_format, f"{page.title}!{at}"
        assert other.page_setup.orientation == page.page_setup.orientation
        assert other.print_title_rows == page.print_title_rows
        assert set(offered(other).values()) == set(offered(page).values())


@pytest.mark.skipif(SOFFICE is None, reason="LibreOffice is not installed: apt install libreoffice-calc-nogui")
@pytest.mark.django_db
def test_libreoffice_reads_every_cell_as_it_was_written(tmp_path: Path) -> None:
    event = world.plain()
    Entry.objects.filter(event=event, boat=1).update(name="=HYPERLINK(A1)", note="two\nlines")
    enter_teams(
        event, [EntryValues(77, "Nguyễn & Ольга", ("Ann Alder", "Μαρία"))], "mara", [ContactValues("007 5", "+1 5", "")]
    )
    rows: list[list[Value]] = [[text, Decimal("1234.50"), 7, 0.25, date(2026, 3, 7), True] for text in LOOKS_LIKE]
    heads = [SheetColumn("Text"), SheetColumn("Money, $", True), SheetColumn("Fish", True)]
    heads += [SheetColumn("Rate", True, percent=True), SheetColumn("Day"), SheetColumn("Paid", choices=("yes", "no"))]
    contents(event_file(event, "xlsx"), tmp_path, "event")
    contents(teams_file(event, "xlsx", contacts=True), tmp_path, "teams")
    contents(template_file(event), tmp_path, "template")
    contents(write_xlsx([Sheet("Everything", heads, rows, after=["A sentence."])]), tmp_path, "sheet")
