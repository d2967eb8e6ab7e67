"""What hangs on keys of the Event sheet that could not be read, and is left out of the rows that follow."""

from collections.abc import Set
from datetime import datetime

from weighin.events.domain.calendar import read_clock
from weighin.reports.domain.workbook_columns import SheetSpec
from weighin.slips.domain.values import WEIGHTS
from weighin.workbooks.domain.faults import NOT_A_TIME_IN_WORKBOOK
from weighin.workbooks.parsing.rows import Report, Row

CLOCK_KEYS = frozenset({"date", "days", "start_time", "due_time", "time_zone"})
DAY_KEYS = frozenset({"start_time", "due_time"})
DATE_KEYS = frozenset({"date", "time_zone"})


class Doubts:
    """Leaves out of rows what cannot be judged: weights without a unit, moments without a date, a zone or a day."""

    def __init__(self, unsure: Set[str], report: Report):
        self.report = report
        self.weights = (*WEIGHTS, "largest_weights") if "weight_unit" in unsure else ()
        self.no_moment = not unsure.isdisjoint(DAY_KEYS)
        self.no_date = not unsure.isdisjoint(DATE_KEYS)

    def leave_out(self, row: Row, spec: SheetSpec) -> Row:
        """The row without what is in doubt; what is no time at all is reported all the same."""
        for name in self.weights:
            row.leave_out(name)
        for column in spec.columns:
            text = row.text.get(column.name)
            if (
                column.kind == "time"
                and text
                and (self.no_moment or self.no_date)
                and not self._stays(row, column.name)
            ):
                row.leave_out(column.name)
        return row

    def _stays(self, row: Row, name: str) -> bool:
        """Whether the written time can be held against others of its day."""
        text = row.text[name]
        try:
            if len(text) < 10:
                read_clock(text)
                return not self.no_moment
            datetime.fromisoformat(text)
        except ValueError:
            self.report.fault(row.place(name), NOT_A_TIME_IN_WORKBOOK.says(text=text[:40]))
        return False
