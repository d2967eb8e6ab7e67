"""Once a slip's fish are back in the water nobody can lay them on the scale again: only a director rules on their weight.

Any discrepancy is settled before the fish are released; afterwards only a ruling can settle it (common practice).
"""

from typing import Any

from weighin.events.domain.kinds import read_weights
from weighin.rules import weights
from weighin.rules.faults import Fault
from weighin.slips.domain.faults import DOUBLED_DAY_SETTLED, FISH_RELEASED, RELEASED_NOT_WEIGHED_AGAIN
from weighin.slips.domain.let_go import went_back
from weighin.slips.domain.values import SlipData
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import beside, history_of

WEIGHTS = ("gross", "tare", "big_fish")


def needs_ruling(old: WeighSlip, said: SlipData, void: bool, unit: str) -> Fault | None:
    """Why only a director may keep what is ``said`` in place of ``old``; None while the fish can still be weighed.

    The fish count as released once any slip of the chain or the release record says so. A void and a move to another boat take the weight away.
    """
    if not (void or _weights(old, unit) != _weights(said, unit)) or not _released(old):
        return None
    return RELEASED_NOT_WEIGHED_AGAIN.at("replaces", slip=old.number)


def settled_by_director(old: WeighSlip) -> Fault | None:
    """Why a station may neither correct nor take out ``old``: it is one of a doubled day, or its fish are released."""
    if len(beside(old)) > 1:
        return DOUBLED_DAY_SETTLED.at("replaces", boat=old.entry.boat, day=old.day)
    return FISH_RELEASED.at("replaces", slip=old.number) if _released(old) else None


def _released(slip: WeighSlip) -> bool:
    if slip.released is not None or any(one.released is not None for one in history_of(slip)):
        return True
    return went_back(slip.entry_id, slip.day)


def _weights(slip: WeighSlip | SlipData, unit: str) -> tuple[Any, ...]:
    read = [weights.read(text, unit) if (text := getattr(slip, name)) else None for name in WEIGHTS]
    return (*read, read_weights(slip.largest_weights, unit) if slip.largest_weights else ())
