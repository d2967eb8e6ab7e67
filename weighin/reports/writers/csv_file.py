"""Write a sheet as CSV (RFC 4180) with a byte-order mark, so that spreadsheets read its letters rightly."""

import csv
import io

from weighin.events.domain.rehearsal_mark import MARK
from weighin.reports.domain.sheet import Sheet, as_written, is_risky


def write_csv(sheet: Sheet) -> bytes:
    """The sheet's head and rows; above them the title of a rehearsal's. Texts that a spreadsheet would take for a formula get an apostrophe in front."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    if MARK in sheet.title.split():
        writer.writerow([sheet.title])
    writer.writerow([column.head for column in sheet.columns])
    for row in sheet.rows:
        writer.writerow([f"'{as_written(value)}" if is_risky(value) else as_written(value) for value in row])
    return out.getvalue().encode("utf-8-sig")
