"""The boat that a row is about."""

from dataclasses import dataclass

from weighin.records.domain.kinds import Beside, Count
from weighin.roster.domain import value_faults as faults
from weighin.rules import values

LARGEST = 2_000_000_000


@dataclass(frozen=True)
class Boat(Count):
    """The number of a boat that is entered."""

    def read(self, text: str, beside: Beside) -> int:
        boat = values.whole(text, least=1, most=LARGEST)
        if boat not in beside.context.boats:
            raise faults.NO_SUCH_BOAT.wrong(boat=boat)
        return boat
