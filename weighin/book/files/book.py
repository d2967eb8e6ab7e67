"""The season book as a file: one PDF, or a ZIP with the files of its chapters."""

import io
import json
import zipfile
from collections.abc import Mapping, Sequence
from typing import Any

from django.utils.translation import gettext, gettext_lazy

from weighin.advice.pages.season_json import season_document
from weighin.agency.files.catch import catch_file
from weighin.agency.pages.layouts import LAYOUTS, report_lines
from weighin.agency.queries.catch import CatchFigures
from weighin.book.queries.book import SeasonBook
from weighin.book.sheets.seasons import seasons_document, seasons_sheet
from weighin.reports.domain.sheet import Sheet, as_written
from weighin.reports.files.event import TYPES as FILE_TYPES
from weighin.reports.sheets.season import events_sheet, practices_sheet, season_sheets
from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.xlsx_file import write_xlsx
from weighin.seasons.files.standings import standings_file
from weighin.seasons.pages.standings import big_fish
from weighin.seasons.sheets.standings import big_fish_sheet
from weighin.ui.figures import FILED, written_as

TYPES = {"pdf": FILE_TYPES["pdf"], "zip": "application/zip"}
LAYOUT = LAYOUTS[0]
WHAT = {
    "season-book": gettext_lazy("the book: everything below on paper, with contents"),
    "standings": gettext_lazy("teams, anglers and classes with their points; it has the anglers’ names"),
    "big-fish": gettext_lazy("the largest fish of the season"),
    "mortality": gettext_lazy("fish that died: the events, and in the workbook the rows behind every figure"),
    "mortality-by-season": gettext_lazy("this season beside the ones before it, and what changed"),
    "care-practices": gettext_lazy("boats that kept to a care practice beside those that did not"),
    "catch-report": gettext_lazy("what an agency asks for, added up over the season"),
}


def book_file(book: SeasonBook, form: str) -> bytes:
    """The book as ``pdf`` or ``zip``. Raises KeyError for another form."""
    return {"pdf": _pdf, "zip": _zip}[form](book)


def book_folder(book: SeasonBook) -> dict[str, bytes]:
    """Every file of the folder by its name; before the season's first slip all but the catch report."""
    mortality, biggest = season_document(book.mortality), big_fish(book.standings)
    care = {key: mortality[key] for key in ("practices", "advice")}
    fish = [{"weight_lb": weight, "team": team, "event": event} for weight, team, event in biggest]
    files = {
        "season-book.pdf": _pdf(book),
        **{f"standings.{form}": standings_file(book.standings, form) for form in ("csv", "xlsx", "json")},
        **_chapter("big-fish", [big_fish_sheet(book.standings)], fish),
        **_chapter("mortality", [events_sheet(book.mortality)], mortality),
        "mortality.xlsx": write_xlsx(season_sheets(book.mortality)),
        **_chapter("mortality-by-season", [seasons_sheet(book.seasons)], seasons_document(book.seasons)),
        **_chapter("care-practices", [practices_sheet(book.practices)], care),
        **(_catch(book.catch) if book.catch else {}),
    }
    return {"contents.txt": _contents(book, files), **files}


def _chapter(name: str, sheets: Sequence[Sheet], document: Any) -> dict[str, bytes]:
    return {
        f"{name}.csv": write_csv(sheets[0]),
        f"{name}.xlsx": write_xlsx(sheets),
        f"{name}.json": (json.dumps(document, indent=1, ensure_ascii=False) + "\n").encode(),
    }


def _catch(figures: CatchFigures) -> dict[str, bytes]:
    with written_as(FILED):
        lines = [
            {"what": what, "figure": value if isinstance(value, int) else as_written(value)}
            for what, value in report_lines(figures, LAYOUT)
        ]
    return {
        **{f"catch-report.{form}": catch_file(figures, LAYOUT, form) for form in ("csv", "xlsx")},
        "catch-report.json": (json.dumps({"lines": lines}, indent=1, ensure_ascii=False) + "\n").encode(),
    }


def _contents(book: SeasonBook, files: Mapping[str, bytes]) -> bytes:
    """What each file holds, a line a chapter."""
    forms: dict[str, list[str]] = {}
    for file in files:
        name, _, form = file.rpartition(".")
        forms.setdefault(name, []).append(f".{form}")
    head = gettext("%(club)s, season %(season)s. For members: there are anglers’ names in it.") % {
        "club": book.season.club.name,
        "season": book.season.name,
    }
    lines = [f"{name} ({', '.join(sorted(set(forms[name])))}): {WHAT[name]}" for name in forms]
    return "\r\n".join([head, "", *lines, ""]).encode("utf-8-sig")


def _pdf(book: SeasonBook) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.book.writers.book_pdf import book_pdf

    return book_pdf(book)


def _zip(book: SeasonBook) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in book_folder(book).items():
            packed.writestr(name, content)
    return out.getvalue()
