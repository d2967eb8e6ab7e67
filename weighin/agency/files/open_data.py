"""An open data export as one ZIP: the CSV files and their description after the W3C's CSV on the Web.

Tabular Data model and Metadata Vocabulary: W3C Recommendations of 17 December 2015.
"""

import csv
import io
import json
import zipfile
from collections.abc import Sequence
from typing import Any

from weighin.agency.files.open_data_tables import FEWEST, Column, Table, Value, tables
from weighin.agency.services.open_practices import FEWEST_WELLS, practice_rows
from weighin.clubs.models import Season
from weighin.mortality.queries.season import SeasonEvent, season_mortality

DESCRIPTION = "csv-metadata.json"
TYPE = "application/zip"
FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # of every file in the ZIP, so that the same data are the same bytes
NOTES = (
    "Counts of fish dead by release are the least that died: fish that died on the water or after release are not in them.",
    "Fish of one livewell live or die together: take livewells as clusters within an event, events as clusters within a season.",
    "These are observations, not experiments; days differ in more than is written down here.",
    f"What fewer than {FEWEST} boats stand behind is left blank and marked as suppressed; blank elsewhere means not recorded.",
    "livewells.csv says of a boat only what published results say: fish that died after the table stand in events.csv alone.",
    "Care practices are pooled over a finished season and fixed at its first export; until then practices.csv has no rows. "
    "Livewells that changed sides over the days, or of which nothing was recorded, are in neither.",
    f"A practice is blank where a side has fewer than {FEWEST_WELLS} livewells, or where sums would tell on which side one stood.",
)


def season_open_data(season: Season, only: int | None = None) -> bytes:
    """The season's events as a ZIP, or only the one with this id."""
    found = season_mortality(season)
    events = [line for line in found.events if only in (None, line.event.pk)]
    # Of one event alone practices are never given out: its boats are too few
    practices = practice_rows(found) if only is None else []
    return open_data(events, f"{season.club.name}, {season.name}", practices)


def open_data(events: Sequence[SeasonEvent], title: str, practices: Sequence[Sequence[Value]] = ()) -> bytes:
    """The ZIP of events, oldest first."""
    found = tables(events, practices)
    files = {DESCRIPTION: (json.dumps(description(found, title), indent=1, ensure_ascii=False) + "\n").encode()}
    files |= {table.file: _csv(table) for table in found}
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            packed.writestr(zipfile.ZipInfo(name, FIRST_DAY), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def description(found: Sequence[Table], title: str) -> dict[str, Any]:
    """The metadata of the tables."""
    return {
        "@context": ["http://www.w3.org/ns/csvw", {"@language": "en"}],
        "dc:title": f"Fish brought to the scales and fish that died: {title}",
        "dc:description": " ".join(NOTES),
        "dialect": {"encoding": "utf-8", "delimiter": ",", "header": True},
        "tables": [_table(table) for table in found],
    }


def _table(table: Table) -> dict[str, Any]:
    schema: dict[str, Any] = {
        "columns": [_column(column) for column in table.columns],
        "primaryKey": list(table.key),
    }
    if table.of_events:
        reference = {"resource": "events.csv", "columnReference": ["event_no"]}
        schema["foreignKeys"] = [{"columnReference": ["event_no"], "reference": reference}]
    return {"url": table.file, "dc:title": table.title, "tableSchema": schema}


def _column(column: Column) -> dict[str, Any]:
    return {
        "name": column.name,
        "titles": column.name,
        "datatype": column.datatype,
        "required": column.required,
        "dc:description": column.meaning,
    }


def _csv(table: Table) -> bytes:
    """RFC 4180 in UTF-8 without a byte-order mark, which the description names."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([column.name for column in table.columns])
    writer.writerows([_cell(value) for value in row] for row in table.rows)
    return out.getvalue().encode()


def _cell(value: Value) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)
