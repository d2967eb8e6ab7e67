"""The boat that a row is about."""

from dataclasses import dataclass

from weighin.records.domain.kinds import Beside, Count
from weighin.roster.domain import value_faults as faults
from weighin.rules import values
from weighin.rules.faults import Sentence

LARGEST = 2_000_000_000


@dataclass(frozen=True)
class Boat(Count):
    """The number of a boat that is entered; ``unknown`` is said of one that is not."""

    unknown: Sentence = faults.NO_SUCH_BOAT

    def read(self, text: str, beside: Beside) -> int:
        boat = values.whole(text, least=1, most=LARGEST)
        if boat not in beside.context.boats:
            raise self.unknown.wrong(boat=boat)
        return boat
