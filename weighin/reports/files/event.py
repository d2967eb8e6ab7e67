"""An event as a file: JSON, CSV, the workbook, or the standings as PDF."""

import io
import json
from collections.abc import Callable

from weighin.events.models import Event
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.reports.sheets.standings import standings_sheet
from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.event_workbook import write_event_workbook

TYPES = {
    "json": "application/json",
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "pdf": "application/pdf",
}


def event_file(event: Event, form: str, site: str = "") -> bytes:
    """The event as ``json``, ``csv``, ``xlsx`` or ``pdf``, whose codes lead to ``site``. Raises KeyError for another form."""
    return _pdf(event, site) if form == "pdf" else _WRITERS[form](event)


def _json(event: Event) -> bytes:
    return (json.dumps(event_document(whole_event(event)), indent=1, ensure_ascii=False) + "\n").encode()


def _csv(event: Event) -> bytes:
    return write_csv(standings_sheet(whole_event(event)))


def _xlsx(event: Event) -> bytes:
    out = io.BytesIO()
    write_event_workbook(event, out)
    return out.getvalue()


def _pdf(event: Event, site: str) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.standings_pdf import standings_pdf

    return standings_pdf(whole_event(event), site)


_WRITERS: dict[str, Callable[[Event], bytes]] = {"json": _json, "csv": _csv, "xlsx": _xlsx}
