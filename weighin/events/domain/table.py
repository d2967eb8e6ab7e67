"""What must be known of an event to read what is written about its boats."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.rules.rulebook import Rulebook


@dataclass(frozen=True)
class Table:
    """What the scale table must know to read and score slips: the event's clock and rules, the boats with their
    flights, and what the check-in table says of (boat, day): an ``Arrival``."""

    calendar: Calendar
    rules: Rulebook
    boats: Mapping[int, str]
    arrivals: Mapping[tuple[int, int], Any] = field(default_factory=dict)
