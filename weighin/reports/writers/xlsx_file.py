"""Write sheets as an .xlsx workbook."""

import io
from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter

from weighin.reports.domain.sheet import Sheet, SheetColumn, Value, as_written

HEAD = Font(bold=True)


def write_xlsx(sheets: Sequence[Sheet]) -> bytes:
    """A workbook with one sheet for each; figures are numbers, every other text is text and never a formula."""
    book = Workbook(write_only=True)
    titles: set[str] = set()
    for sheet in sheets:
        page = book.create_sheet(_title(sheet.title, titles))
        page.freeze_panes = "A2"
        for position, column in enumerate(sheet.columns, start=1):
            longest = max([len(str(column.head)), *(len(as_written(row[position - 1])) for row in sheet.rows)])
            page.column_dimensions[get_column_letter(position)].width = min(60, max(8, longest + 2))
        page.append([_cell(page, str(column.head), column, HEAD) for column in sheet.columns])
        for row in sheet.rows:
            page.append([_cell(page, value, column) for value, column in zip(row, sheet.columns, strict=True)])
        for sentence in (*sheet.before, *sheet.after):
            page.append([_cell(page, sentence, sheet.columns[0])])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _title(wanted: str, taken: set[str]) -> str:
    """A sheet title of at most 31 characters without the signs that spreadsheets refuse, used once."""
    base = "".join(" " if sign in "[]:*?/\\" else sign for sign in wanted).strip("' ")[:31] or "Sheet"
    title, number = base, 1
    while title.casefold() in taken:
        number += 1
        title = f"{base[:27]} {number}"
    taken.add(title.casefold())
    return title


def _cell(page: Any, value: Value, column: SheetColumn, font: Font | None = None) -> Any:
    if value is None or value == "":
        return None
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        cell = WriteOnlyCell(page, value)
        if column.percent:
            cell.number_format = "0.0%"
        elif isinstance(value, float):
            cell.number_format = "0.00"
    elif isinstance(value, Decimal):
        cell = WriteOnlyCell(page, float(value))
        decimals = -int(value.as_tuple().exponent)
        cell.number_format = f"0.{'0' * decimals}" if decimals > 0 else "0"
    else:
        cell = WriteOnlyCell(page, as_written(value))
        cell.data_type = "s"
    if font is not None:
        cell.font = font
    if column.figures:
        cell.alignment = Alignment(horizontal="right")
    return cell
