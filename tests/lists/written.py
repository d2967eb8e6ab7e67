"""Lists written for tests."""

import io
from collections.abc import Sequence
from typing import Any

from openpyxl import Workbook


def bytes_of(rows: Sequence[Sequence[Any]], *merged: str, title: str = "Teams", before: str = "") -> bytes:
    """A workbook with a sheet of these rows, behind one named ``before`` without headings."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    if before:
        sheet.title = before
        sheet.append(["Notes", "nothing here"])
        sheet = book.create_sheet()
    sheet.title = title
    for row in rows:
        sheet.append(list(row))
    for one in merged:
        sheet.merge_cells(one)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
