"""A season's mortality summary as a file: JSON, the rows behind it as XLSX, or a document as PDF."""

import json
from collections.abc import Callable

from weighin.advice.pages.season_json import season_document
from weighin.clubs.models import Season
from weighin.mortality.queries.season import SeasonMortality, season_mortality
from weighin.reports.files.event import TYPES
from weighin.reports.sheets.season import season_sheets
from weighin.reports.writers.xlsx_file import write_xlsx

FORMS = ("json", "xlsx", "pdf")


def season_file(season: Season, form: str) -> tuple[bytes, str]:
    """The summary as ``json``, ``xlsx`` or ``pdf``, with its content type. Raises KeyError for another form."""
    return _WRITERS[form](season_mortality(season)), TYPES[form]


def _json(found: SeasonMortality) -> bytes:
    return (json.dumps(season_document(found), indent=1, ensure_ascii=False) + "\n").encode()


def _xlsx(found: SeasonMortality) -> bytes:
    return write_xlsx(season_sheets(found))


def _pdf(found: SeasonMortality) -> bytes:
    # reportlab is slow to load, and most processes never write a PDF.
    from weighin.reports.writers.pdf.season_pdf import season_pdf

    return season_pdf(found)


_WRITERS: dict[str, Callable[[SeasonMortality], bytes]] = {"json": _json, "xlsx": _xlsx, "pdf": _pdf}
