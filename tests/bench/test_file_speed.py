"""What files of 300 teams and an import of 20,000 rows cost beside the libraries that write and read the same cells."""

import io
from collections.abc import Callable
from pathlib import Path
from time import process_time

import openpyxl
import pytest
import world
from reportlab.lib.pagesizes import landscape, letter
from reportlab.platypus import SimpleDocTemplate, Table

from bench.alone import cost
from bench.floor import best
from bench.large_event import write_large_event
from bench.measured import Measured
from weighin.reports.domain.sheet import as_written
from weighin.reports.files.event import event_file
from weighin.reports.queries.event_json import whole_event
from weighin.reports.sheets.standings import standings_sheet
from weighin.reports.writers.pdf.standings_pdf import standings_pdf

pytestmark = pytest.mark.bench
IMPORT = """
import django; django.setup()
from pathlib import Path
from time import process_time
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import keep_event
begun = process_time()
plan, report = read_workbook(Path({file!r}))
read = process_time()
keep_event(plan, "bench")
print(read - begun, process_time() - read)
"""


@pytest.mark.django_db
def test_a_workbook_and_a_pdf_of_300_teams(measured: Measured) -> None:
    event = world.large(300)
    workbook = event_file(event, "xlsx")
    sheets = [(sheet.title, list(sheet.values)) for sheet in openpyxl.load_workbook(io.BytesIO(workbook))]

    def bare_workbook() -> None:
        book = openpyxl.Workbook(write_only=True)
        for title, rows in sheets:
            sheet = book.create_sheet(title)
            for row in rows:
                sheet.append(row)
        book.save(io.BytesIO())

    whole = whole_event(event)
    sheet = standings_sheet(whole)
    cells = [[str(c.head) for c in sheet.columns], *([as_written(value) for value in row] for row in sheet.rows)]

    def bare_pdf() -> None:
        SimpleDocTemplate(io.BytesIO(), pagesize=landscape(letter)).build([Table(cells, repeatRows=1)])

    same_cells = "{} writing the same cells"
    measured(
        "Workbook of an event of 300 teams, from the database",
        *(best(lambda: event_file(event, "xlsx")), "ms", best(bare_workbook), same_cells.format("openpyxl")),
        at_most=2,
    )
    measured(
        "Standings of 300 teams as PDF, worked out",
        *(best(lambda: standings_pdf(whole)), "ms", best(bare_pdf), same_cells.format("reportlab")),
        at_most=2,
    )


def test_an_import_of_20_000_rows(tmp_path: Path, measured: Measured) -> None:
    file = tmp_path / "event.xlsx"
    rows = write_large_event(file, "Twenty thousand", 950, 10)
    assert 19_900 < rows < 20_000  # the most that an import takes

    def cells() -> None:
        book = openpyxl.load_workbook(file, read_only=True)
        for sheet in book:
            for _ in sheet.iter_rows(values_only=True):
                pass
        book.close()

    cost(tmp_path, "manage.py", "migrate", "-v0")
    _, memory, said = cost(tmp_path, "-c", IMPORT.format(file=str(file)))
    read, kept = map(float, said.split())
    least = _once(cells)
    measured("Import of 20,000 rows: read and checked", read, "s", least, "openpyxl reading them", at_most=2.5)
    measured("Import of 20,000 rows: kept", kept, "s", least, "openpyxl reading them", at_most=1.5)
    measured("Import of 20,000 rows: memory", memory, "MB", at_most=300)


def _once(act: Callable[[], None]) -> float:
    begun = process_time()
    act()
    return process_time() - begun
