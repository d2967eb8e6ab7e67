"""A care note read back: label and value of what is recorded, in the order of the day."""

from weighin.care.models import CareNote
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.events.domain.measured import degrees

LABELS = {
    "pump_ok": "Pump runs",
    "thermometer_ok": "Thermometer works",
    "aeration": "Aeration",
    "livewell_gal": "Livewell holds",
    "ice_lb": "Ice put in",
    "launched": "Launched",
    "first_fish": "First fish in the well",
    "most_on_board": "Most fish on board at once",
    "culled": "Culled, put back alive",
    "livewell_temp": "Livewell water",
    "livewell_do": "Oxygen in the well",
    "catch_depth_ft": "Caught at, deepest",
    "deep_hooked": "Deep-hooked fish",
    "barotrauma": "Fish with signs of depth",
    "reflexes_checked": "Reflexes tried",
    "reflexes_absent": "of them absent",
    "note": "Note",
}
UNITS = {"livewell_gal": "gal", "ice_lb": "lb", "livewell_do": "mg/L", "catch_depth_ft": "ft"}


def note_record(note: CareNote, calendar: Calendar) -> list[tuple[str, str]]:
    """What the note records; what it does not is left out."""
    found = ((label, _said(note, name, calendar)) for name, label in LABELS.items())
    return [(label, value) for label, value in found if value]


def _said(note: CareNote, name: str, calendar: Calendar) -> str:
    value = getattr(note, name)
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if name == "aeration":
        return str(note.get_aeration_display())
    if name in ("launched", "first_fish"):
        return clock(value, calendar, note.day)
    if name == "livewell_temp":
        return degrees(value)
    return f"{value} {UNITS[name]}" if name in UNITS else str(value)
