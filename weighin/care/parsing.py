"""Read a care note from written values, as a row or a form gives them."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from weighin.care.domain import faults
from weighin.care.domain.fields import NOTE
from weighin.events.domain.table import Table
from weighin.records.parsing.reader import Reader
from weighin.rules.faults import FieldName
from weighin.slips.domain.faults import TIMES_OUT_OF_ORDER

IN_ORDER = (("launched", "first_fish"), ("first_fish", "checked_in"), ("launched", "checked_in"))


def read_note(
    written: Mapping[str, str | None], table: Table, slip_times: Mapping[str, datetime] | None = None
) -> dict[str, Any]:
    """A care note's values: ``boat``, ``day`` and the fields of ``CareNote``.

    ``slip_times`` may hold the ``checked_in``, ``weighed`` and ``released`` of the boat's slip that day, so that
    the order of times can be checked. Raises Faults with field names.
    """
    reader = Reader(NOTE, written, table, needed=("day", "boat"))
    reader.read()
    check_note(reader, slip_times or {})
    return reader.finish()


def check_note(reader: Reader, slip_times: Mapping[str, datetime]) -> None:
    """Name what is wrong with a note's counts and times beside each other, and beside those of the boat's slip."""
    absent = reader["reflexes_absent"]
    if absent is not None and absent > (reader["reflexes_checked"] or 0):
        reader.fault("reflexes_absent", faults.MORE_ABSENT_THAN_CHECKED, "reflexes_checked")
    known = {**slip_times, **{name: reader[name] for name in ("launched", "first_fish") if reader[name]}}
    for earlier, later in IN_ORDER:
        if earlier in known and later in known and known[earlier] > known[later]:
            wrong = later if later in ("launched", "first_fish") else earlier
            said = {"later": FieldName(later), "earlier": FieldName(earlier)}
            reader.fault(wrong, TIMES_OUT_OF_ORDER, earlier, later, **said)
    end = known.get("released") or known.get("weighed")
    start = "first_fish" if reader["first_fish"] else "launched"
    if end and start in known and known[start] > end and not reader.faults:
        reader.fault(start, faults.AFTER_THE_WEIGHING, field=FieldName(start))
    if end and start not in known and not reader.faults and end < reader.context.calendar.start(reader["day"]):
        reader.fault("launched", faults.LAUNCH_MISSING)
