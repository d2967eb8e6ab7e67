"""Write an event as the workbook it can be brought in from again, to the last digit."""

from pathlib import Path
from typing import BinaryIO

from weighin.events.models import Event
from weighin.reports.sheets.event_workbook import event_sheets
from weighin.reports.writers.xlsx_file import write_xlsx
from weighin.standings.queries.standings import official_results


def write_event_workbook(event: Event, to: Path | BinaryIO) -> None:
    """Write the event's workbook to a path or an open file: every sheet of the import contract, every rule key."""
    official = official_results(event)[:1]
    said = (
        f"Official version {official[0].version} stands {official[0].stage}." if official and official[0].stage else ""
    )
    content = write_xlsx(event_sheets(event), event.name, said)
    if isinstance(to, Path):
        to.write_bytes(content)
    else:
        to.write(content)
