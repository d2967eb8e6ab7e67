"""Read a care note from written values, as a row or a form gives them."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from weighin.care.models import CareNote
from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar
from weighin.records.domain.table import Table
from weighin.records.parsing.fields import MOST_FISH
from weighin.records.parsing.rows import Reader
from weighin.rules import values

MOST_DEPTH_FT = 500

NOTE_FIELDS = (
    "pump_ok", "aeration", "livewell_gal", "ice_lb", "thermometer_ok", "launched", "first_fish", "livewell_temp",
    "livewell_do", "most_on_board", "culled", "catch_depth_ft", "deep_hooked", "barotrauma", "reflexes_absent", "reflexes_checked", "note",
)  # fmt: skip


def read_note(
    written: Mapping[str, str | None], table: Table, slip_times: Mapping[str, datetime] | None = None
) -> dict[str, Any]:
    """A care note's values: ``boat``, ``day`` and the fields of ``CareNote``.

    ``slip_times`` may hold the ``checked_in``, ``weighed`` and ``released`` of the boat's slip that day, so that
    the order of times can be checked. Raises Faults with field names.
    """
    reader = Reader(written)
    calendar = table.calendar
    day = reader.day(calendar)
    if day in calendar.days and calendar.days[day].cancelled:
        reader.fault("day", f"day {day} was cancelled: it has no care notes")
    note: dict[str, Any] = {"boat": reader.boat(table), "day": day}
    for name in ("pump_ok", "thermometer_ok"):
        note[name] = reader.value(name, values.yes_no)
    note["aeration"] = reader.value("aeration", lambda text: values.choice(text, CareNote.Aeration.values), "")
    for name in ("livewell_gal", "ice_lb"):
        note[name] = reader.figure(name)
    note["livewell_do"] = reader.figure("livewell_do", most=60)
    note["catch_depth_ft"] = reader.figure("catch_depth_ft", most=MOST_DEPTH_FT)
    note["livewell_temp"] = reader.checked("livewell_temp", temperatures.water)
    for name in ("most_on_board", "culled", "deep_hooked", "barotrauma", "reflexes_absent", "reflexes_checked"):
        note[name] = reader.value(name, lambda text: values.whole(text, most=MOST_FISH))
    for name in ("launched", "first_fish"):
        note[name] = reader.value(name, lambda text: calendar.read(day, text)) if day in calendar.days else None
    note["note"] = reader.value("note", values.lines, "")
    if (note["reflexes_absent"] or 0) > (note["reflexes_checked"] or 0) and note["reflexes_absent"] is not None:
        reader.fault("reflexes_absent", "more reflexes are absent than were checked: count again", "reflexes_checked")
    _order(reader, note, slip_times or {}, calendar)
    reader.finish()
    return note


def _order(reader: "Reader", note: Mapping[str, Any], slip_times: Mapping[str, datetime], calendar: Calendar) -> None:
    known = {**slip_times, **{name: note[name] for name in ("launched", "first_fish") if note[name]}}
    pairs = (("launched", "first_fish"), ("first_fish", "checked_in"), ("launched", "checked_in"))
    for earlier, later in pairs:
        if earlier in known and later in known and known[earlier] > known[later]:
            wrong = later if later in ("launched", "first_fish") else earlier
            reader.fault(wrong, f"{later} is before {earlier}: correct one of the two times", earlier, later)
    end = known.get("released") or known.get("weighed")
    start = "first_fish" if note["first_fish"] else "launched"
    if end and start in known and known[start] > end and not reader.faults:
        reader.fault(start, f"{start} is after the fish were weighed or released: correct the time")
    unbound = end and start not in known and not reader.faults and note["day"] in calendar.days
    if unbound and end and end < calendar.start(note["day"]):
        said = "the fish were weighed or released before the day started: write when the boat launched"
        reader.fault("launched", said)
