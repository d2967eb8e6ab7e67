"""A care note read back: label and value of what is recorded, in the order of the day."""

from django.utils.translation import gettext, gettext_lazy

from weighin.care.models import CareNote
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.events.domain.measured import degrees

LABELS = {
    "pump_ok": gettext_lazy("Pump runs"),
    "thermometer_ok": gettext_lazy("Thermometer works"),
    "aeration": gettext_lazy("Aeration"),
    "livewell_gal": gettext_lazy("Livewell holds"),
    "ice_lb": gettext_lazy("Ice added"),
    "launched": gettext_lazy("Launched"),
    "first_fish": gettext_lazy("First fish in the livewell"),
    "most_on_board": gettext_lazy("Most fish on board at once"),
    "culled": gettext_lazy("Culled, put back alive"),
    "livewell_temp": gettext_lazy("Livewell water"),
    "livewell_do": gettext_lazy("Oxygen in the livewell"),
    "catch_depth_ft": gettext_lazy("Caught at, deepest"),
    "deep_hooked": gettext_lazy("Deep-hooked fish"),
    "barotrauma": gettext_lazy("Fish with signs of depth"),
    "reflexes_checked": gettext_lazy("Reflexes tried"),
    "reflexes_absent": gettext_lazy("of them absent"),
    "note": gettext_lazy("Note"),
}
UNITS = {"livewell_gal": "gal", "ice_lb": "lb", "livewell_do": "mg/L", "catch_depth_ft": "ft"}


def note_record(note: CareNote, calendar: Calendar) -> list[tuple[str, str]]:
    """What the note records; what it does not is left out."""
    found = ((label, _said(note, name, calendar)) for name, label in LABELS.items())
    return [(str(label), value) for label, value in found if value]


def _said(note: CareNote, name: str, calendar: Calendar) -> str:
    value = getattr(note, name)
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return gettext("yes") if value else gettext("no")
    if name == "aeration":
        return str(note.get_aeration_display())
    if name in ("launched", "first_fish"):
        return clock(value, calendar, note.day)
    if name == "livewell_temp":
        return degrees(value)
    return f"{value} {UNITS[name]}" if name in UNITS else str(value)
