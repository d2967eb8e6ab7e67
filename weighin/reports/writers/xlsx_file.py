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
        page.append([_Pen(page, column, HEAD).cell(str(column.head)) for column in sheet.columns])
        pens = [_Pen(page, column) for column in sheet.columns]
        for row in sheet.rows:
            page.append([pen.cell(value) for pen, value in zip(pens, row, strict=True)])
        for sentence in (*sheet.before, *sheet.after):
            page.append([pens[0].cell(sentence)])
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


class _Pen:
    """Writes the cells of one column: one cell a form of number, row after row, as a row is written at once and styles cost time."""

    def __init__(self, page: Any, column: SheetColumn, font: Font | None = None):
        self.page, self.column, self.font = page, column, font
        self.cells: dict[str, Any] = {}

    def cell(self, value: Value) -> Any:
        if value is None or value == "":
            return None
        if isinstance(value, Decimal):
            decimals = -int(value.as_tuple().exponent)
            return self._written(float(value), f"0.{'0' * decimals}" if decimals > 0 else "0")
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            form = "0.0%" if self.column.percent else "0.00" if isinstance(value, float) else "General"
            return self._written(value, form)
        cell = self._written(as_written(value))
        cell.data_type = "s"
        return cell

    def _written(self, value: Any, form: str = "") -> Any:
        cell = self.cells.get(form)
        if cell is None:
            cell = self.cells[form] = WriteOnlyCell(self.page)
            if form:
                cell.number_format = form
            if self.font is not None:
                cell.font = self.font
            if self.column.figures:
                cell.alignment = Alignment(horizontal="right")
        cell.value = value
        return cell
