"""Files: CSV, XLSX and PDF from one sheet, the workbook, and what a spreadsheet must not take for a formula."""

import csv
import io
from decimal import Decimal

import pytest
import world
from django.core.management import CommandError, call_command
from django.urls import reverse
from openpyxl import load_workbook
from pypdf import PdfReader

from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.reports.files.event import event_file
from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.xlsx_file import write_xlsx

RISKY = ["=1+1", "+1", "-1", "@SUM(A1)", "\tcell", '=HYPERLINK("x")']


def sheet(values: list[str]) -> Sheet:
    return Sheet(
        "Risky: [names]", (SheetColumn("Team"), SheetColumn("Total", True)), [[v, Decimal("-0.25")] for v in values]
    )


def test_csv_has_a_mark_and_no_formula() -> None:
    written = write_csv(sheet(RISKY))
    assert written.startswith(b"\xef\xbb\xbf")
    rows = list(csv.reader(io.StringIO(written.decode("utf-8-sig"))))
    assert rows[0] == ["Team", "Total"]
    assert [row[0] for row in rows[1:]] == [f"'{value}" for value in RISKY]
    assert {row[1] for row in rows[1:]} == {"-0.25"}


def test_xlsx_keeps_risky_texts_as_texts_and_figures_as_numbers() -> None:
    book = load_workbook(io.BytesIO(write_xlsx([sheet(RISKY), sheet([])])))
    assert len(book.sheetnames) == 2 and all(len(title) <= 31 for title in book.sheetnames)
    page = book.worksheets[0]
    for number, value in enumerate(RISKY, start=2):
        assert page.cell(number, 1).data_type == "s" and page.cell(number, 1).value == value
        assert page.cell(number, 2).value == -0.25 and page.cell(number, 2).number_format == "0.00"


@pytest.mark.django_db
def test_a_team_named_like_a_formula_survives_the_workbook() -> None:
    event = world.plain()
    event.entries.filter(boat=1).update(name="=1+1")
    book = load_workbook(io.BytesIO(event_file(event, "xlsx")))
    cells = [cell for row in book["Teams"].iter_rows() for cell in row if cell.value == "=1+1"]
    assert [cell.data_type for cell in cells] == ["s"]


@pytest.mark.django_db
@pytest.mark.parametrize("name", ["Łukasz & Żaneta", "Ægir Þórsson", "Nguyễn Văn A", "O’Neill <b>", "Ольга & Μαρία"])
def test_the_pdf_embeds_its_fonts_and_has_every_letter(name: str) -> None:
    sheets = world.plain_sheets()
    sheets["Teams"][0]["team"] = name
    reader = PdfReader(io.BytesIO(event_file(world.event_of(sheets), "pdf")))
    text = "\n".join(page.extract_text() for page in reader.pages)
    assert "■" not in text
    assert name.split()[0] in text
    assert reader.metadata is not None and reader.metadata.title == "Standings of Plain event, provisional"
    fonts = 0
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            found = font.get_object()
            descriptor = found.get("/FontDescriptor") or found["/DescendantFonts"][0].get_object()["/FontDescriptor"]
            assert "/FontFile2" in descriptor.get_object()
            fonts += 1
    assert fonts >= 2


@pytest.mark.django_db
def test_the_pdf_says_so_where_a_letter_stands_as_a_box() -> None:
    said = "A box stands for a letter that this file cannot show."
    for name, boxes in (("湖の大会", True), ("Đường Hồ Lớn\u00a0& Łódź", False)):
        event = world.event(f"{name} Open", [{"boat": "1", "team": name, "angler_1": "A"}], [world.slip(boat="1")])
        pages = PdfReader(io.BytesIO(event_file(event, "pdf"))).pages
        assert all((said in page.extract_text()) is boxes for page in pages), name


@pytest.mark.django_db
def test_the_pdf_says_the_figures_of_the_page() -> None:
    event = world.plain()
    text = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(event_file(event, "pdf"))).pages)
    assert "Day 1: 4 of 5 weighed" in text and "Team 2" in text and "page 1 of" in text and "300.00" in text


@pytest.mark.django_db
def test_downloads_and_their_names() -> None:
    event = world.plain()
    client = world.member(event.club, "club_reviewer")
    for form, start in (("json", b"{"), ("csv", b"\xef\xbb\xbf"), ("xlsx", b"PK"), ("pdf", b"%PDF")):
        answer = client.get(reverse("reports:event_file", args=[event.slug, form]))
        assert answer.content.startswith(start)
        assert f'filename="{event.slug}.{form}"' in answer["Content-Disposition"]
    assert client.get(f"/events/{event.slug}/files/doc").status_code == 404


@pytest.mark.django_db
def test_export_names_a_missing_event_and_an_unwritable_file(tmp_path) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(CommandError, match="There is no event nowhere"):
        call_command("export_event", "nowhere", format="json")
    event = world.plain()
    with pytest.raises(CommandError, match="cannot be written"):
        call_command("export_event", event.slug, format="json", out=tmp_path / "no" / "such.json")
