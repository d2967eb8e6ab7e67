"""The fields of a slip in words, in the order of the work, and their values as a person reads them."""

from collections.abc import Iterator
from datetime import datetime

from weighin.events.domain.calendar import Calendar
from weighin.records.domain.clock import clock
from weighin.slips.models import WeighSlip

LABELS = {
    "day": "Day",
    "boat": "Boat",
    "alive": "Alive",
    "dead": "Dead",
    "short": "Short",
    "fish": "Fish in all",
    "gross": "Weight, as the scale shows it",
    "tare": "Bag",
    "largest_weights": "Largest fish",
    "big_fish": "Big fish",
    "big_fish_alive": "The big fish was",
    "black_crappie": "Black crappie",
    "white_crappie": "White crappie",
    "other_species": "Other species",
    "well_boat": "Held in the well of boat",
    "checked_in": "Checked in",
    "minutes_late": "Minutes late",
    "excused_minutes": "Minutes excused",
    "bag_issued": "Bag issued",
    "weighed": "Weighed",
    "bag_emptied": "Bag emptied",
    "released": "Released",
    "dead_at_release": "Dead at release",
    "kept": "Kept, not released",
    "extra_penalty": "Extra penalty",
    "extra_penalty_reason": "Reason of the extra penalty",
    "disqualified_reason": "Day lost by ruling, because",
    "official": "Official",
    "note": "Note",
}
COUNTED = ("alive", "dead", "short", "fish", "black_crappie", "white_crappie", "other_species", "well_boat")
ON_THE_SCALE = ("gross", "tare", "largest_weights", "big_fish", "big_fish_alive")
CLOCK = ("checked_in", "bag_issued", "weighed", "bag_emptied", "released")
LATENESS = ("minutes_late", "excused_minutes")
AT_RELEASE = ("dead_at_release", "kept")
RULINGS = ("extra_penalty", "extra_penalty_reason", "disqualified_reason", "note")
WEIGHTS = ("gross", "tare", "largest_weights", "big_fish", "extra_penalty")
NOT_WRITTEN = "not recorded"


def said(slip: WeighSlip, name: str, calendar: Calendar, unit: str) -> str:
    """A field's value in words, as written; empty when it is not recorded."""
    value = slip.entry.boat if name == "boat" else getattr(slip, name)
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return "alive" if value else "dead"
    if isinstance(value, datetime):
        return clock(value, calendar, slip.day)
    if name in WEIGHTS and not str(value).endswith(("lb", "kg", "oz")):
        return f"{value} {unit}" if unit != "lb-oz" else str(value)
    return str(value)


def recorded(slip: WeighSlip, names: tuple[str, ...], calendar: Calendar, unit: str) -> Iterator[tuple[str, str]]:
    """Label and value of the fields that hold something."""
    for name in names:
        value = said(slip, name, calendar, unit)
        if value:
            yield LABELS[name], value
