"""What care notes say that mortality is compared by, light enough to fetch a whole season in one query."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from weighin.care.models import CareNote
from weighin.clubs.models import Season

COLUMNS = (
    "event_id", "day", "entry__boat", "ice_lb", "aeration", "most_on_board", "livewell_do",
    "launched", "first_fish",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class CareCovariates:
    """A boat's note of a day: ice in lb, how the well ran, fish on board at most, oxygen in mg/L.

    When it launched and caught the first fish. None: not recorded.
    """

    ice_lb: Decimal | None
    aeration: str
    most_on_board: int | None
    oxygen: Decimal | None
    launched: datetime | None
    first_fish: datetime | None


Notes = dict[tuple[int, int], CareCovariates]


def season_covariates(season: Season) -> dict[int, Notes]:
    """The season's care notes by event id, then by (day, boat); one query."""
    found: dict[int, Notes] = defaultdict(dict)
    for event_id, day, boat, ice, aeration, on_board, oxygen, launched, first_fish in CareNote.objects.filter(
        event__season=season, event__rehearsal_of=None
    ).values_list(*COLUMNS):
        found[event_id][day, boat] = CareCovariates(
            ice_lb=Decimal(ice) if ice else None,
            aeration=aeration,
            most_on_board=on_board,
            oxygen=Decimal(oxygen) if oxygen else None,
            launched=launched,
            first_fish=first_fish,
        )
    return found
