"""A weigh slip's values, ready to keep, and as scoring needs them."""

from types import SimpleNamespace
from typing import Any

from weighin.checkin.domain.arrival import arrival_counted, lateness
from weighin.events.domain.kinds import read_weights
from weighin.events.domain.table import Table
from weighin.records.domain.rows import value_of
from weighin.rules import weights
from weighin.rules.slips import Slip

WEIGHTS = ("gross", "tare", "big_fish", "extra_penalty")


class SlipData(SimpleNamespace):
    """What a slip says by the names of its fields, before it is kept."""


def rules_slip(slip: Any, table: Table) -> Slip:
    """The slip in the plain values that scoring needs: ``SlipData`` or a ``WeighSlip``.

    Lateness is worked out here: the check-in clock less the due time, less excused minutes, never negative. A slip
    that says neither time nor minutes takes those of the check-in table, whenever they were written.
    """
    unit = table.rules.unit
    boat = value_of(slip, "boat")
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
        largest_weights=read_weights(slip.largest_weights, unit) if slip.largest_weights else (),
        minutes_late=lateness(arrival, table.calendar, table.boats.get(boat, "")),
        extra_penalty=weights.read(slip.extra_penalty, unit) if slip.extra_penalty else None,
        extra_penalty_reason=slip.extra_penalty_reason,
        disqualified_reason=slip.disqualified_reason,
    )
