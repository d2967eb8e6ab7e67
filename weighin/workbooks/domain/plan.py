"""What a workbook holds once it is read: everything an import needs, in plain values."""

from dataclasses import dataclass, field
from datetime import date, time
from decimal import Decimal
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.rules.rulebook import Rulebook
from weighin.slips.domain.values import SlipData


@dataclass
class EventPlan:
    """The Event sheet."""

    club: str
    season: str
    event: str
    water: str
    date: date
    days: int
    weight_unit: str
    start_time: time
    due_time: time
    time_zone: str
    handling: str
    elevation_ft: str
    lake_temp: str
    entry_fee: Decimal
    added_money: Decimal
    permit: str
    note: str


@dataclass
class DayPlan:
    """A row of Days, or a day that follows from the first date."""

    number: int
    date: date
    start_time: time | None = None
    due_time: time | None = None
    lake_temp: str = ""
    air_temp: str = ""
    weather: str = ""
    status: str = "fished"
    note: str = ""


@dataclass
class FlightPlan:
    """A row of Flights."""

    name: str
    day: int | None
    launch: time | None
    due_time: time


@dataclass
class EntryPlan:
    """A row of Teams."""

    boat: int
    name: str
    anglers: tuple[str, ...]
    youth: bool | None = None
    flight_name: str = ""
    paid: bool = False
    big_fish_pot: bool = False
    status: str = "entered"
    lot: int | None = None
    note: str = ""


@dataclass
class Plan:
    """A whole event, ready to be kept. Only a plan without faults is."""

    event: EventPlan
    calendar: Calendar
    rules: Rulebook
    days: list[DayPlan] = field(default_factory=list)
    flights: list[FlightPlan] = field(default_factory=list)
    entries: list[EntryPlan] = field(default_factory=list)
    slips: list[SlipData] = field(default_factory=list)
    checkins: list[dict[str, Any]] = field(default_factory=list)
    notes: list[dict[str, Any]] = field(default_factory=list)
    tanks: list[dict[str, Any]] = field(default_factory=list)
    pens: list[dict[str, Any]] = field(default_factory=list)
