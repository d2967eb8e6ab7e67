"""A season's standings as a file."""

import json
from collections.abc import Callable

from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.xlsx_file import write_xlsx
from weighin.seasons.queries.document import standings_document
from weighin.seasons.queries.standings import SeasonStandings
from weighin.seasons.sheets.standings import every_list, lists

FORMS = ("json", "csv", "xlsx", "pdf")


def standings_file(found: SeasonStandings, form: str) -> bytes:
    """The standings as one of ``FORMS``. Raises KeyError for another form."""
    return _WRITERS[form](found)


def _json(found: SeasonStandings) -> bytes:
    return (json.dumps(standings_document(found), indent=1, ensure_ascii=False) + "\n").encode()


def _csv(found: SeasonStandings) -> bytes:
    return write_csv(every_list(found))


def _xlsx(found: SeasonStandings) -> bytes:
    return write_xlsx(lists(found))


def _pdf(found: SeasonStandings) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.seasons.writers.standings_pdf import standings_pdf

    return standings_pdf(found)


_WRITERS: dict[str, Callable[[SeasonStandings], bytes]] = {"json": _json, "csv": _csv, "xlsx": _xlsx, "pdf": _pdf}
