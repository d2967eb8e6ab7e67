"""What mortality needs of a weigh slip, light enough to fetch a whole season in one query."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from weighin.clubs.models import Season
from weighin.fishcare.checks import Times, minutes_in_bag
from weighin.scale.models import WeighSlip

COLUMNS = (
    "event_id",
    "day",
    "entry__boat",
    "well_boat",
    "fish",
    "dead",
    "dead_at_release",
    "kept",
    "bag_issued",
    "bag_emptied",
    "weighed",
    "released",
    "number",
)


@dataclass(frozen=True, slots=True)
class Catch:
    """The fish of one slip. Counts are fish; ``well`` is the boat whose livewell held them; times may be unknown.

    ``number`` is the slip's.
    """

    event_id: int
    day: int
    boat: int
    well: int
    fish: int
    dead: int
    dead_at_release: int
    kept: int
    bag_issued: datetime | None
    bag_emptied: datetime | None
    weighed: datetime | None
    released: datetime | None
    number: int

    @property
    def lost(self) -> int:
        """Dead by release: at the table and after it."""
        return self.dead + self.dead_at_release

    @property
    def minutes_in_bag(self) -> Decimal | None:
        """From the bag's issue to its emptying (else the weighing), as fish care has it; None where a time is missing."""
        end = self.bag_emptied or self.weighed
        if end is None or self.bag_issued is None:
            return None
        return minutes_in_bag(Times(end, bag_issued=self.bag_issued, bag_emptied=end))


def catch_of(slip: WeighSlip) -> Catch:
    """The catch of a slip already fetched with its entry."""
    boat = slip.entry.boat
    return Catch(
        event_id=slip.event_id,
        day=slip.day,
        boat=boat,
        well=slip.well_boat or boat,
        fish=slip.fish,
        dead=slip.dead,
        dead_at_release=slip.dead_at_release,
        kept=slip.kept,
        bag_issued=slip.bag_issued,
        bag_emptied=slip.bag_emptied,
        weighed=slip.weighed,
        released=slip.released,
        number=slip.number,
    )


def season_catches(season: Season) -> dict[int, list[Catch]]:
    """The catches of every current slip of the season by event id, in one query; doubled days are still in them."""
    found: dict[int, list[Catch]] = defaultdict(list)
    current = WeighSlip.objects.current().filter(event__season=season).order_by("event_id", "day", "number")
    for event_id, day, boat, well, *others in current.values_list(*COLUMNS):
        found[event_id].append(Catch(event_id, day, boat, well or boat, *others))
    return found


def parted(catches: Iterable[Catch]) -> tuple[list[Catch], list[Catch]]:
    """The catches of one event that count, and those of doubled days, which wait for the director."""
    all_of_them = list(catches)
    seen = Counter((catch.boat, catch.day) for catch in all_of_them)
    counting = [catch for catch in all_of_them if seen[catch.boat, catch.day] == 1]
    return counting, [catch for catch in all_of_them if seen[catch.boat, catch.day] > 1]


@dataclass(frozen=True, slots=True)
class Livewell:
    """The fish of one livewell over all days of an event: the cluster that lives or dies together."""

    fish: int
    dead_at_table: int
    dead: int
    kept: int


def livewells(catches: Iterable[Catch]) -> list[Livewell]:
    """Every livewell with fish, by boat number; another boat's well counts with that boat."""
    sums: dict[int, list[int]] = defaultdict(lambda: [0, 0, 0, 0])
    for catch in catches:
        well = sums[catch.well]
        for place, count in enumerate((catch.fish, catch.dead, catch.lost, catch.kept)):
            well[place] += count
    return [Livewell(*counts) for _, counts in sorted(sums.items()) if counts[0] > 0]
