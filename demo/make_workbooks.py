#!/usr/bin/env python3
"""Write the demo's event workbooks again: the same seeds, the same bytes.

    python demo/make_workbooks.py [FOLDER]

Writes into the folder this script is in unless another is named.
"""

import io
import sys
import zipfile
from datetime import datetime
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))
from demo.scenario.book import Book  # noqa: E402
from demo.scenario.neighbours import neighbours  # noqa: E402
from demo.scenario.season import season  # noqa: E402

MADE = datetime(2026, 1, 1)
SHEETS = {
    "Event": "key value",
    "Days": "day date start_time due_time lake_temp air_temp weather status note",
    "Flights": "flight day launch due_time",
    "Rules": "key value",
    "Teams": "boat team angler_1 angler_2 angler_3 youth flight paid big_fish_pot status lot note",
    "Slips": "slip day boat fish alive dead short gross tare big_fish big_fish_alive largest_weights black_crappie white_crappie "
    "other_species well_boat checked_in minutes_late excused_minutes bag_issued weighed bag_emptied released dead_at_release kept "
    "official extra_penalty extra_penalty_reason disqualified_reason note replaces reason void",
    "Fish care": "day boat pump_ok aeration livewell_gal ice_lb thermometer_ok launched first_fish livewell_temp livewell_do "
    "most_on_board culled catch_depth_ft deep_hooked barotrauma reflexes_absent reflexes_checked note",
    "Tanks": "day tank volume_gal time temp do ph total_ammonia salt_percent fish_lb note",
    "Holding": "group kind pen source species started hours held dead missing water_temp note",
}
EVENT_KEYS = (
    "club season event water date days weight_unit start_time due_time time_zone handling elevation_ft lake_temp entry_fee "
    "added_money permit note"
).split()
WEIGHTS = {"gross", "tare", "big_fish", "extra_penalty"}
WIDEST = 44


def main() -> int:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else HERE
    folder.mkdir(parents=True, exist_ok=True)
    for book in books():
        (folder / book.file).write_bytes(workbook_bytes(book))
        print(f"{book.file}: {len(book.teams)} teams, {len(book.slips)} slips")
    return 0


def books() -> list[Book]:
    """Every event of the demo."""
    return [*season(), *neighbours()]


def sheets(book: Book) -> dict[str, list[list[Any]]]:
    """The cells of every sheet that has something to say, header row first."""
    tables = {
        "Days": book.days, "Flights": book.flights, "Teams": book.teams, "Slips": book.slips,
        "Fish care": book.care, "Tanks": book.tanks, "Holding": book.holding,
    }  # fmt: skip
    cells: dict[str, list[list[Any]]] = {}
    for title, columns in SHEETS.items():
        names = columns.split()
        if title in ("Event", "Rules"):
            written = _in_order(book.event) if title == "Event" else book.rules
            cells[title] = [names, *([key, value] for key, value in written.items())]
        elif tables[title]:
            rows = tables[title]
            unknown = {key for row in rows for key in row} - set(names)
            if unknown:
                raise KeyError(f"{book.file}, {title}: no column for {sorted(unknown)}")
            used = [name for name in names if any(row.get(name) is not None for row in rows)]
            cells[title] = [used, *([row.get(name) for name in used] for row in rows)]
    return cells


def _in_order(event: dict[str, Any]) -> dict[str, Any]:
    """The event's keys in the order of the contract."""
    return {key: event[key] for key in sorted(event, key=EVENT_KEYS.index)}


def workbook_bytes(book: Book) -> bytes:
    """The workbook as a file's bytes, alike whenever it is written."""
    workbook = Workbook()
    workbook.remove(workbook.active)
    for title, rows in sheets(book).items():
        _write(workbook.create_sheet(title), rows, kilograms=book.scale.unit == "kg")
    workbook.properties.creator = book.event["club"]
    workbook.properties.created = workbook.properties.modified = MADE
    written = io.BytesIO()
    workbook.save(written)
    return _settled(written.getvalue())


def _write(sheet: Any, rows: list[list[Any]], kilograms: bool) -> None:
    header = rows[0]
    for row in rows:
        sheet.append(row)
    for cell in sheet[1]:
        cell.font = Font(bold=True)
        cell.fill = PatternFill("solid", fgColor="FFDDE7E3")
    sheet.freeze_panes = "D2" if sheet.title == "Slips" else "A2"
    for number, name in enumerate(header, start=1):
        longest = max(len(str(row[number - 1])) for row in rows if row[number - 1] is not None)
        sheet.column_dimensions[get_column_letter(number)].width = min(WIDEST, longest + 3)
        for (cell,) in sheet.iter_rows(min_row=2, min_col=number, max_col=number):
            if isinstance(cell.value, str):
                # As text, so that a spreadsheet does not turn 9-07 or 06:30 into a date or a time.
                cell.number_format = "@"
                if len(cell.value) > WIDEST:
                    cell.alignment = Alignment(wrap_text=True, vertical="top")
            elif name in WEIGHTS:
                cell.number_format = "0.000" if kilograms else "0.00"


def _settled(content: bytes) -> bytes:
    """The same archive with one date on every member and without the moment of saving."""
    settled = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(settled, "w", zipfile.ZIP_DEFLATED) as new:
        for name in sorted(old.namelist(), key=lambda name: (name != "[Content_Types].xml", name)):
            member = zipfile.ZipInfo(name, date_time=MADE.timetuple()[:6])
            member.compress_type = zipfile.ZIP_DEFLATED
            member.create_system = 0
            body = old.read(name)
            if name == "docProps/core.xml":
                saved = body.partition(b"<dcterms:modified")[2].partition(b">")[2].partition(b"<")[0]
                body = body.replace(saved, MADE.strftime("%Y-%m-%dT%H:%M:%SZ").encode())
            new.writestr(member, body)
    return settled.getvalue()


if __name__ == "__main__":
    sys.exit(main())
