"""One weigh slip in plain values, as scoring needs it."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction


@dataclass(frozen=True)
class Slip:
    """What the table saw of one team on one day.

    Counts are fish; ``fish`` = ``alive`` + ``dead``, short fish among them. Weights are Decimal in the
    event's unit; ``gross`` None = nothing was put on the scale, ``tare`` None = the rule sheet's bag tare.
    ``largest_weights`` are the largest fish on the scale, largest first. ``minutes_late`` is the lateness
    already worked out, excused minutes taken off, in minutes and exact (Fraction for seconds), never negative.
    """

    fish: int
    alive: int
    dead: int
    short: int = 0
    gross: Decimal | None = None
    tare: Decimal | None = None
    big_fish: Decimal | None = None
    big_fish_alive: bool | None = None
    largest_weights: tuple[Decimal, ...] = ()
    minutes_late: int | Decimal | Fraction = 0
    extra_penalty: Decimal | None = None
    extra_penalty_reason: str = ""
    disqualified_reason: str = ""
