"""A weigh slip's values, ready to keep, and as scoring needs them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Any

from weighin.checkin.domain.arrival import arrival_counted, lateness
from weighin.records.domain.table import Table
from weighin.rules import values, weights
from weighin.rules.slips import Slip

COUNTS = ("fish", "alive", "dead")
AT_RELEASE = ("dead_at_release", "kept")
SPECIES = ("black_crappie", "white_crappie", "other_species")
TIMES = ("checked_in", "bag_issued", "weighed", "bag_emptied", "released")
TEXTS = ("extra_penalty_reason", "disqualified_reason", "official", "note", "reason")
WEIGHTS = ("gross", "tare", "big_fish", "extra_penalty")


@dataclass
class SlipValues:
    """A slip's values, ready to keep: the fields of ``WeighSlip`` with the boat in place of the entry."""

    boat: int
    day: int
    number: int | None = None
    fish: int = 0
    alive: int = 0
    dead: int = 0
    short: int = 0
    gross: str = ""
    tare: str = ""
    big_fish: str = ""
    big_fish_alive: bool | None = None
    largest_weights: str = ""
    black_crappie: int | None = None
    white_crappie: int | None = None
    other_species: int | None = None
    well_boat: int | None = None
    checked_in: datetime | None = None
    minutes_late: int | None = None
    excused_minutes: str = ""
    bag_issued: datetime | None = None
    weighed: datetime | None = None
    bag_emptied: datetime | None = None
    released: datetime | None = None
    dead_at_release: int | None = None
    kept: int | None = None
    extra_penalty: str = ""
    extra_penalty_reason: str = ""
    disqualified_reason: str = ""
    official: str = ""
    note: str = ""
    reason: str = ""
    replaces: int | None = None
    void: bool = False
    care_times: Mapping[str, datetime] = field(default_factory=dict, repr=False, compare=False)


def rules_slip(slip: Any, table: Table) -> Slip:
    """The slip in the plain values that scoring needs: ``SlipValues`` or a ``WeighSlip`` with ``boat`` known.

    Lateness is worked out here: the check-in clock less the due time, less excused minutes, never negative. A slip
    that says neither time nor minutes takes those of the check-in table, whenever they were written.
    """
    unit = table.rules.unit
    boat = slip.boat if isinstance(slip, SlipValues) else slip.entry.boat
    arrival = arrival_counted(slip, table.arrivals.get((boat, slip.day)))
    return Slip(
        fish=slip.fish,
        alive=slip.alive,
        dead=slip.dead,
        short=slip.short,
        gross=weights.read(slip.gross, unit) if slip.gross else None,
        tare=weights.read(slip.tare, unit) if slip.tare else None,
        big_fish=weights.read(slip.big_fish, unit) if slip.big_fish else None,
        big_fish_alive=slip.big_fish_alive,
        largest_weights=read_largest(slip.largest_weights, unit) if slip.largest_weights else (),
        minutes_late=lateness(arrival, table.calendar, table.boats.get(boat, "")),
        extra_penalty=weights.read(slip.extra_penalty, unit) if slip.extra_penalty else None,
        extra_penalty_reason=slip.extra_penalty_reason,
        disqualified_reason=slip.disqualified_reason,
    )


def read_largest(text: str, unit: str) -> tuple[Decimal, ...]:
    """The written largest weights, in the event's unit. Raises ValueError with a sentence."""
    return values.items(text, lambda item: weights.read(item, unit))
