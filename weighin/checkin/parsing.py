"""Read one check-in from written values, as a workbook row, a form or a message gives them."""

from collections.abc import Mapping
from typing import Any

from weighin.checkin.models import CheckIn
from weighin.records.domain.table import Table
from weighin.records.parsing.fields import FieldReader
from weighin.rules import values
from weighin.rules.faults import Faults

TIMES = ("checked_in", "told_at")
TEXTS = ("word", "official", "note", "reason")


def read_checkin(written: Mapping[str, str | None], table: Table, whole: bool = True) -> dict[str, Any]:
    """A check-in's values: ``boat``, ``day``, ``void`` and the fields of ``CheckIn``. Raises Faults with field names.

    ``whole`` as in ``read_slip``. A cancelled day is like any other: a boat that was out when it was called off must
    be accounted for.
    """
    reader = FieldReader(written, table, current=False)
    void = bool(reader.value("void", values.yes_no, False))
    boat, day = reader.boat("boat", required=True), reader.day()
    found: dict[str, Any] = {"boat": boat, "day": day, "void": void}
    for name in TIMES:
        found[name] = reader.value(name, lambda text: table.calendar.read(day, text)) if day else None
    found["minutes_late"] = reader.value("minutes_late", lambda text: values.whole(text, most=2880))
    reader.value("excused_minutes", lambda text: values.decimal(text, least=0, most=2880))
    found["excused_minutes"] = reader.written.get("excused_minutes", "")
    choices = CheckIn.Whereabouts.values
    found["whereabouts"] = reader.value("whereabouts", lambda text: values.choice(text, choices), "")
    for name in TEXTS:
        found[name] = reader.value(name, values.lines, "")
    if whole and not void and not reader.faults:
        if found["checked_in"] is not None and found["minutes_late"] is not None:
            reader.fault("minutes_late", "both checked_in and minutes_late are given: keep one of them")
        reader.no_excuse_beside_minutes(found["minutes_late"], found["excused_minutes"])
        said = ("checked_in", "minutes_late", "excused_minutes", "whereabouts", "word")
        if all(found[name] in (None, "") for name in said):
            reader.fault("checked_in", f"this says nothing of boat {boat}: write {', '.join(said[:-1])} or {said[-1]}")
    if reader.faults:
        raise Faults(reader.faults)
    return found
