"""Sheets of texts to an .xlsx file, plainly or in the many ways the workbook contract allows, and back."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date, datetime, time
from pathlib import Path
from random import Random
from typing import Any

from openpyxl import Workbook, load_workbook

Sheets = Mapping[str, Sequence[Mapping[str, str]]]

# Every column of every sheet, in the order of the workbook contract
COLUMNS = {
    "Event": "key value",
    "Days": "day date start_time due_time lake_temp air_temp weather status note",
    "Flights": "flight day launch due_time",
    "Rules": "key value",
    "Teams": "boat team angler_1 angler_2 angler_3 youth flight paid big_fish_pot status lot note",
    "Slips": "slip day boat fish alive dead short gross tare big_fish big_fish_alive largest_weights "
    "black_crappie white_crappie other_species well_boat checked_in minutes_late excused_minutes bag_issued "
    "weighed bag_emptied released dead_at_release kept official extra_penalty extra_penalty_reason "
    "disqualified_reason note replaces reason void",
    "Check-ins": "day boat checked_in minutes_late excused_minutes whereabouts word told_at official note",
    "Fish care": "day boat pump_ok aeration livewell_gal ice_lb thermometer_ok launched first_fish "
    "livewell_temp livewell_do most_on_board culled catch_depth_ft deep_hooked barotrauma reflexes_absent reflexes_checked note",
    "Tanks": "day tank volume_gal time temp do ph total_ammonia salt_percent fish_lb note",
    "Holding": "group kind pen source species started hours held dead missing water_temp note",
}
# Columns of words, which stay text even where they look like numbers
WORDS = {
    "team",
    "angler_1",
    "angler_2",
    "angler_3",
    "note",
    "official",
    "reason",
    "extra_penalty_reason",
    "group",
}
WORDS |= {
    "word",
    "disqualified_reason",
    "weather",
    "source",
    "species",
    "pen",
    "tank",
    "largest_weights",
    "club",
    "water",
}


def write(sheets: Sheets, path: Path, rng: Random | None = None) -> None:
    """Write the file; without `rng` headers are the contract's own and every cell is text."""
    book(sheets, rng).save(path)


def book(sheets: Sheets, rng: Random | None = None) -> Workbook:
    """The workbook; `rng` chooses the spelling of headers, kinds of cells, order of columns and sheets."""
    made = Workbook()
    made.remove(made.worksheets[0])
    names = list(sheets)
    if rng:
        rng.shuffle(names)
    for name in names:
        sheet = made.create_sheet(_spelt(name, rng))
        columns = _columns(name, sheets[name], rng)
        sheet.append([_spelt(column, rng) for column in columns])
        for row in sheets[name]:
            label = row.get("key", "")
            cells = [row.get(column, "") for column in columns]
            sheet.append([_cell(text, label or column, rng) for text, column in zip(cells, columns, strict=True)])
            if label:
                sheet.cell(sheet.max_row, columns.index("key") + 1, _spelt(label, rng))
    return made


def read(path: Path) -> dict[str, list[dict[str, str]]]:
    """The sheets of a file as texts, under the contract's own names.

    Every column has to be the contract's; the one that explains the rules beside their values is left alone.
    """
    names = {_bare(name): name for name in COLUMNS}
    sheets: dict[str, list[dict[str, str]]] = {}
    for sheet in load_workbook(path, data_only=True):
        name = names[_bare(sheet.title)]
        columns = {_bare(column): column for column in COLUMNS[name].split()}
        header, *rows = sheet.iter_rows(values_only=True)
        labels = [label if label == "meaning" else columns[_bare(str(label))] for label in header]
        sheets[name] = [
            {label: _text(value) for label, value in zip(labels, row, strict=True) if value is not None} for row in rows
        ]
    return sheets


def _bare(name: str) -> str:
    return re.sub(r"[ _-]", "", name).lower()


def _text(value: Any) -> str:
    return value.isoformat() if isinstance(value, (date, time)) else str(value)


def _columns(name: str, rows: Sequence[Mapping[str, str]], rng: Random | None) -> list[str]:
    """All columns; with `rng` those in use and some empty ones, in any order."""
    columns = COLUMNS[name].split()
    if not rng or name in ("Event", "Rules"):
        return columns
    used = {column for row in rows for column in row}
    spare = rng.choice([0.0, 0.5])
    columns = [column for column in columns if column in used or rng.random() < spare]
    if rng.random() < 0.5:
        rng.shuffle(columns)
    return columns


def _spelt(name: str, rng: Random | None) -> str:
    """As written: "match without regard to case, spaces, hyphens or underscores"."""
    if not rng or rng.random() < 0.4:
        return name
    joint = rng.choice([" ", "_", "-", ""])
    case = rng.choice([str.lower, str.upper, str.title])
    return case(re.sub(r"[ _]", joint, name))


def _cell(text: str, column: str, rng: Random | None) -> Any:
    """A cell value: text, or the number, time, date or truth value that the text writes."""
    if text == "":
        return None
    if not rng or column in WORDS or rng.random() < 0.4:
        return text
    if re.fullmatch(r"\d+", text):
        return int(text)
    if re.fullmatch(r"\d*\.\d+", text):
        return float(text)
    if re.fullmatch(r"\d\d:\d\d(:\d\d)?", text):
        return time.fromisoformat(text)
    if re.fullmatch(r"\d{4}-\d\d-\d\d", text):
        return date.fromisoformat(text)
    if re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d", text):
        return datetime.fromisoformat(text)
    if text in ("true", "false"):
        return text == "true"
    return text
