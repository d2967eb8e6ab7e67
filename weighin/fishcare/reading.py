"""Read care notes, tank readings and holding pens from written values, as a row or a form gives them."""

from collections.abc import Callable, Mapping
from datetime import date, datetime
from functools import partial
from typing import Any

from weighin.events import temperatures
from weighin.events.calendar import Calendar, read_clock
from weighin.fishcare.models import CareNote, HoldingPen
from weighin.rules import values
from weighin.rules.faults import Fault, Faults
from weighin.scale.reading import MOST_FISH, Table

MOST_DEPTH_FT = 500

NOTE_FIELDS = (
    "pump_ok", "aeration", "livewell_gal", "ice_lb", "thermometer_ok", "launched", "first_fish", "livewell_temp",
    "livewell_do", "most_on_board", "culled", "catch_depth_ft", "deep_hooked", "barotrauma", "reflexes_absent", "reflexes_checked", "note",
)  # fmt: skip
TANK_FIELDS = (
    "tank",
    "volume_gal",
    "time",
    "temp",
    "do",
    "ph",
    "total_ammonia",
    "salt_percent",
    "fish_lb",
    "note",
)
PEN_FIELDS = (
    "group",
    "kind",
    "pen",
    "source",
    "species",
    "started",
    "hours",
    "held",
    "dead",
    "missing",
    "water_temp",
    "note",
)


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


def read_tank(written: Mapping[str, str | None], calendar: Calendar) -> dict[str, Any]:
    """A tank reading's values: ``day`` and the fields of ``TankReading``. Raises Faults with field names."""
    reader = Reader(written)
    day = reader.day(calendar)
    tank: dict[str, Any] = {"day": day, "tank": reader.required("tank", lambda text: values.line(text, 80), "")}
    tank["time"] = (
        reader.required("time", lambda text: calendar.read(day, text), None) if day in calendar.days else None
    )
    tank["temp"] = reader.checked("temp", temperatures.water)
    tank["ph"] = reader.figure("ph", most=14)
    tank["do"] = reader.figure("do", most=60)
    tank["salt_percent"] = reader.figure("salt_percent", most=40)
    for name in ("volume_gal", "total_ammonia", "fish_lb"):
        tank[name] = reader.figure(name)
    tank["note"] = reader.value("note", values.lines, "")
    reader.finish()
    return tank


def read_pen(written: Mapping[str, str | None], calendar: Calendar) -> dict[str, Any]:
    """A holding pen's values, the fields of ``HoldingPen``. Raises Faults with field names."""
    reader = Reader(written)
    pen: dict[str, Any] = {
        "group": reader.required("group", lambda text: values.line(text, 80), ""),
        "kind": reader.required("kind", lambda text: values.choice(text, HoldingPen.Kind.values), ""),
        "hours": reader.figure("hours", required=True),
    }
    for name, length in (("pen", 80), ("source", 200), ("species", 80)):
        pen[name] = reader.value(name, partial(values.line, most=length), "")
    pen["started"] = reader.checked("started", lambda text: _started(text, calendar))
    for name in ("held", "dead"):
        pen[name] = reader.required(name, lambda text: values.whole(text, most=100_000), 0)
    pen["missing"] = reader.value("missing", lambda text: values.whole(text, most=100_000), 0)
    pen["water_temp"] = reader.checked("water_temp", temperatures.water)
    pen["note"] = reader.value("note", values.lines, "")
    counted = {"held", "dead", "missing"}.isdisjoint(fault.field for fault in reader.faults)
    if counted and pen["dead"] + pen["missing"] > pen["held"]:
        larger, other = ("dead", "missing") if pen["dead"] >= pen["missing"] else ("missing", "dead")
        counts = f"{pen['dead']} dead and {pen['missing']} missing are more than the {pen['held']} held"
        reader.fault(larger, f"{counts}: count again", other, "held")
    reader.finish()
    return pen


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


def _started(text: str, calendar: Calendar) -> None:
    """A date, a date-time, or a time of the event's first day."""
    try:
        if len(text) > 40:
            raise ValueError
        datetime.fromisoformat(text)
    except ValueError:
        try:
            read_clock(text)
        except ValueError:
            raise ValueError(
                f"'{text[:40]}' is neither a date nor a time: write it as {date(2026, 6, 20)} or {date(2026, 6, 20)} 15:30"
            ) from None


class Reader:
    """Reads fields by name and collects what is wrong."""

    def __init__(self, written: Mapping[str, str | None]):
        self.written = {name: (text or "").strip() for name, text in written.items()}
        self.faults: list[Fault] = []

    def value(self, name: str, read: Callable[[str], Any], default: Any = None) -> Any:
        text = self.written.get(name, "")
        if not text:
            return default
        try:
            return read(text)
        except ValueError as error:
            self.fault(name, str(error))
            return default

    def required(self, name: str, read: Callable[[str], Any], default: Any) -> Any:
        if not self.written.get(name):
            self.fault(name, f"{name} is missing: write it")
        return self.value(name, read, default)

    def checked(self, name: str, read: Callable[[str], Any]) -> str:
        """The text as written, once ``read`` accepts it."""
        self.value(name, read)
        return self.written.get(name, "")

    def figure(self, name: str, most: int = 100_000, required: bool = False) -> str:
        """A measured figure as written, zero to ``most``."""
        if required and not self.written.get(name):
            self.fault(name, f"{name} is missing: write it")
        return self.checked(name, lambda text: values.decimal(text, least=0, most=most))

    def day(self, calendar: Calendar) -> int:
        day: int = self.required("day", lambda text: values.whole(text, least=1, most=1000), 0)
        if day and day not in calendar.days:
            self.fault("day", f"there is no day {day} in this event")
        return day

    def boat(self, table: Table) -> int:
        boat: int = self.required("boat", lambda text: values.whole(text, least=1, most=2_000_000_000), 0)
        if boat and boat not in table.boats:
            self.fault("boat", f"there is no boat {boat} in this event: correct the number or enter the team first")
        return boat

    def fault(self, name: str, message: str, *also: str) -> None:
        self.faults.append(Fault(name, message, also))

    def finish(self) -> None:
        if self.faults:
            raise Faults(self.faults)
