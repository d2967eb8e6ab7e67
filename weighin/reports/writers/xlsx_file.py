"""Write sheets as an .xlsx workbook."""

import io
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext
from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

from weighin.reports.domain.sheet import Sheet, SheetColumn, Value, as_written

HEAD, ABOVE = Font(bold=True), Font(italic=True)
TEXT = "@"
LIKE_NUMBERS = tuple("0123456789+-=@.,($\N{MINUS SIGN}\t\r")
LONGEST_OF_TEXT = 255  # a spreadsheet shows no longer one in a cell of texts
LONGEST_LIST = 255  # nor takes it a longer list of choices
WIDEST = 60  # signs of a column; longer texts go on below
ON_A_LINE, LINE = 56, 15  # signs on a line of such a text, which breaks between words; points
MOST_LOOKED_AT = 100  # rows that say how wide a column is
PORTRAIT = 90  # signs on a line of a sheet of paper
ROOM = 5_000  # rows in which choices are offered


def write_xlsx(sheets: Sequence[Sheet], title: str = "", description: str = "") -> bytes:
    """A workbook with one sheet for each; figures are numbers, every other text is text and never a formula or a date."""
    book = Workbook(write_only=True)
    book.properties.title, book.properties.description = title or None, description or None
    titles: set[str] = set()
    for sheet in sheets:
        page = book.create_sheet(_title(sheet.title, titles))
        # The library's own tries each cell as a value first, which takes most of the time
        page._values_to_row = _placed
        head = len(sheet.above) + 1
        _lay_out(page, sheet, head, f"{title}: {sheet.title}" if title else sheet.title)
        _offer(page, sheet, head)
        first = [_Pen(page, column, ABOVE) for column in sheet.columns]
        heads = [_Pen(page, column, HEAD) for column in sheet.columns]
        pens = [_Pen(page, column) for column in sheet.columns]
        tall = [_Pen(page, column, below=True) for column in sheet.columns]
        for row in sheet.above:
            page.append([pen.cell(value) for pen, value in zip(first, row, strict=False)])
        page.append([pen.cell(str(pen.column.head)) for pen in heads])
        for number, row in enumerate(sheet.rows, start=head + 1):
            long = [value for value in row if isinstance(value, str) and (len(value) > WIDEST or "\n" in value)]
            if long:  # not every spreadsheet works out by itself how tall a row is
                page.row_dimensions[number].height = LINE * max(map(_lines, long))
            by = tall if long else pens
            page.append([None if value is None else pen.cell(value) for pen, value in zip(by, row, strict=True)])
        for sentence in (*sheet.before, *sheet.after):
            page.append([pens[0].sentence(str(sentence))])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _lay_out(page: Any, sheet: Sheet, head: int, title: str) -> None:
    """Widths, and how it prints: as wide as the paper, across where it is wide, the head again on every page."""
    across = 0.0
    looked_at = [*sheet.rows[:MOST_LOOKED_AT], *(row for row in sheet.above if len(row) == len(sheet.columns))]
    for position, column in enumerate(sheet.columns):
        longest = max(
            [
                len(str(column.head)),
                *(len(as_written(value)) for row in looked_at if (value := row[position]) is not None),
            ]
        )
        wide = min(WIDEST, max(8, longest + 2))
        page.column_dimensions[get_column_letter(position + 1)].width = wide
        across += wide
    page.freeze_panes = f"A{head + 1}"
    page.print_title_rows = f"{head}:{head}"
    page.page_setup.orientation = "landscape" if across > PORTRAIT else "portrait"
    page.sheet_properties.pageSetUpPr.fitToPage = True
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
    page.oddHeader.left.text = title.replace("&", "&&")
    page.oddFooter.right.text = gettext("page %(pagenumber)s of %(kept)s") % {"pagenumber": "&P", "kept": "&N"}


def _offer(page: Any, sheet: Sheet, head: int) -> None:
    """The choices and prompts of columns, and of single rows. A choice is offered, not forced: an import knows more words."""
    for position, column in enumerate(sheet.columns, start=1):
        letter = get_column_letter(position)
        _offered(page, f"{letter}{head + 1}:{letter}{head + max(ROOM, len(sheet.rows))}", column)
    for number, choices in sheet.choices.items():
        _offered(page, f"B{head + 1 + number}", SheetColumn("", choices=choices))


def _offered(page: Any, cells: str, column: SheetColumn) -> None:
    listed = ",".join(column.choices)
    found = DataValidation(allow_blank=True)
    if listed and len(listed) <= LONGEST_LIST:
        found.type, found.formula1 = "list", f'"{listed}"'
    elif not column.prompt:
        return
    if column.prompt:
        found.showInputMessage, found.promptTitle, found.prompt = True, str(column.head), str(column.prompt)
    found.add(cells)
    page.data_validations.append(found)


def _lines(text: str) -> int:
    """How many lines a text takes in a column of the widest kind."""
    return sum(1 + len(line) // ON_A_LINE for line in text.split("\n"))


def _title(wanted: str, taken: set[str]) -> str:
    """A sheet title of at most 31 characters without the signs that spreadsheets refuse, used once."""
    base = "".join(" " if sign in "[]:*?/\\" else sign for sign in wanted).strip("' ")[:31] or "Sheet"
    title, number = base, 1
    while title.casefold() in taken:
        number += 1
        title = f"{base[:27]} {number}"
    taken.add(title.casefold())
    return title


def _placed(cells: Iterable[Any], row: int) -> Iterator[Any]:
    for column, cell in enumerate(cells, 1):
        if cell is not None:
            cell.column, cell.row = column, row
            yield cell


class _Pen:
    """Writes the cells of one column: one cell a form, row after row, as a row is written at once and styles cost time."""

    def __init__(self, page: Any, column: SheetColumn, font: Font | None = None, below: bool = False):
        self.page, self.column, self.font, self.below = page, column, font, below
        self.cells: dict[tuple[str, str | None], Any] = {}

    def cell(self, value: Value) -> Any:
        if value is None or value == "":
            return None
        if isinstance(value, Decimal):
            decimals = -int(value.as_tuple().exponent)
            return self._written(float(value), f"0.{'0' * decimals}" if decimals > 0 else "0")
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            return self._written(value, "0.0%" if self.column.percent else "0.00" if isinstance(value, float) else "")
        text = as_written(value)
        # What looks like a number, a date or a formula must not become one when somebody opens the cell
        form = TEXT if text.startswith(LIKE_NUMBERS) and len(text) <= LONGEST_OF_TEXT else ""
        # Numbers stand right by themselves
        cell = self._written(text, form, "right" if self.column.figures else None)
        cell.data_type = "s"
        return cell

    def sentence(self, words: str) -> Any:
        """A text that runs on over the columns beside it."""
        cell = self._written(words, "")
        cell.data_type = "s"
        return cell

    def _written(self, value: Any, form: str, side: str | None = None) -> Any:
        cell = self.cells.get((form, side))
        if cell is None:
            cell = self.cells[form, side] = WriteOnlyCell(self.page)
            if form:
                cell.number_format = form
            if self.font is not None:
                cell.font = self.font
            if side or self.below:
                high = {"vertical": "top", "wrap_text": True} if self.below else {}
                cell.alignment = Alignment(horizontal=side, **high)
        cell.value = value
        return cell
