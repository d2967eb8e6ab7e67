"""The fields of a slip in words, in the order of the work, and their values as a person reads them."""

from collections.abc import Iterator
from datetime import datetime

from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.slips.domain.fields import FIELDS
from weighin.slips.models import WeighSlip

LABELS = {field.name: field.label for field in FIELDS if field.name != "reason"}
WEIGHTS = ("gross", "tare", "largest_weights", "big_fish", "extra_penalty")
NOT_WRITTEN = gettext_lazy("not recorded")


def said(slip: WeighSlip, name: str, calendar: Calendar, unit: str) -> str:
    """A field's value in words, as written; empty when it is not recorded."""
    value = slip.entry.boat if name == "boat" else getattr(slip, name)
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return gettext("alive") if value else gettext("dead")
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
            yield str(LABELS[name]), value
