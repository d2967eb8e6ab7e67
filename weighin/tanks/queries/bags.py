"""Where each live fish of a day went: back by bag or batch, died at the release, kept, lent, in the tank, unknown."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import counting_slips
from weighin.tanks.models import HandedBag, KeptFish, Release


@dataclass(frozen=True)
class BoatFish:
    """One boat's live fish of the day, and where they are.

    ``kept`` were kept, given away or lent and have not come back, by the rows that name the boat or by its slip,
    whichever says more (they are the same fish); ``bag`` is what was handed to the tank; ``back`` when
    the fish were back in the water, by their batch or by the slip.
    """

    slip: WeighSlip
    kept: int
    bag: HandedBag | None

    @property
    def boat(self) -> int:
        return self.slip.entry.boat

    @property
    def to_release(self) -> int:
        """Live fish that ought to go back."""
        return max(self.slip.alive - self.kept, 0)

    @property
    def back(self) -> datetime | None:
        if self.bag is not None:
            return self.bag.release.time if self.bag.release else None
        return self.slip.released

    @property
    def by_slip(self) -> bool:
        """Let go one by one: the slip says when, and no bag went into the tank."""
        return self.bag is None and self.slip.released is not None

    @property
    def waits(self) -> bool:
        """Neither handed over nor back in the water, though live fish were weighed."""
        return self.bag is None and self.slip.released is None and self.to_release > 0


@dataclass(frozen=True)
class Account:
    """A day's live fish, each in one place. The lines add up: ``alive`` = all the others together.

    ``astray`` are bags of boats whose slip no longer counts: in no line, since no slip says that their fish were alive.
    """

    day: int
    boats: Sequence[BoatFish]
    releases: Sequence[Release]
    kept_rows: Sequence[KeptFish]
    astray: Sequence[HandedBag] = ()

    @property
    def alive(self) -> int:
        """Alive at the table, by the slips that count."""
        return sum(boat.slip.alive for boat in self.boats)

    @property
    def without_boats(self) -> Sequence[Release]:
        """Batches written by their number of fish only: whose fish they were is not known."""
        return [release for release in self.releases if not release.bags.all()]

    @property
    def one_by_one(self) -> Sequence[BoatFish]:
        """Boats whose slips say when their fish went back. Left out where a batch without boats may hold the same fish."""
        return [] if self.without_boats else [boat for boat in self.boats if boat.by_slip]

    @property
    def died(self) -> int:
        """Dead when let go."""
        return sum(release.dead for release in self.releases) + sum(
            b.slip.dead_at_release or 0 for b in self.one_by_one
        )

    @property
    def back(self) -> int:
        """Back in the water alive."""
        batches = sum(release.fish - release.dead for release in self.releases)
        return batches + sum(boat.to_release - (boat.slip.dead_at_release or 0) for boat in self.one_by_one)

    @property
    def kept(self) -> int:
        """Kept or given away alive. Slips that say more than the rows add the rest: the rows tell where they went."""
        rows = sum(row.fish for row in self.kept_rows if row.went != KeptFish.Went.LENT)
        by_slips = sum(boat.slip.kept or 0 for boat in self.boats)
        return rows + max(by_slips - rows - self.lent, 0)

    @property
    def lent(self) -> int:
        """Lent to a display or a photo, and not back."""
        return sum(row.fish - row.came_back for row in self.kept_rows if row.went == KeptFish.Went.LENT)

    @property
    def changed(self) -> Sequence[BoatFish]:
        """Boats whose slip says another number of live fish than was handed over: corrected or swapped since."""
        return [boat for boat in self.boats if boat.bag is not None and boat.bag.fish != boat.to_release]

    @property
    def in_tank(self) -> Sequence[HandedBag]:
        """Bags handed over that no batch has taken to the water, the longest wait first."""
        return [boat.bag for boat in self.boats if boat.bag is not None and boat.bag.release is None]

    @property
    def tank_fish(self) -> int:
        return sum(bag.fish for bag in self.in_tank)

    @property
    def unknown(self) -> int:
        """Not accounted for; below zero when more were let go than were alive at the table."""
        return self.alive - self.back - self.died - self.kept - self.lent - self.tank_fish

    @property
    def waiting(self) -> Sequence[BoatFish]:
        """Boats whose fish nobody has handed on. Nobody can say so once a batch without boats is written."""
        return [] if self.without_boats else [boat for boat in self.boats if boat.waits]


def account_of(event: Event, day: int) -> Account:
    """The account of one day, in four queries whatever the number of boats."""
    kept = list(event.kept_fish.filter(day=day, alive=True))
    bags = {bag.entry_id: bag for bag in event.handed_bags.filter(day=day).select_related("release", "entry")}
    of_boat: dict[int, int] = {}
    for row in kept:
        if row.boat is not None:
            of_boat[row.boat] = of_boat.get(row.boat, 0) + row.fish - row.came_back
    slips = [slip for slip in counting_slips(event) if slip.day == day]
    boats = [
        BoatFish(slip, max(of_boat.get(slip.entry.boat, 0), slip.kept or 0), bags.get(slip.entry_id)) for slip in slips
    ]
    boats.sort(key=lambda boat: (boat.bag.handed.timestamp() if boat.bag else 0, boat.boat))
    counted = {slip.entry_id for slip in slips}
    astray = [bag for bag in bags.values() if bag.entry_id not in counted]
    return Account(day, boats, list(event.releases.filter(day=day).prefetch_related("bags__entry")), kept, astray)


def went_back(entry: int, day: int) -> bool:
    """Whether the bag of an entry, by primary key, has gone back to the water on a day."""
    return HandedBag.objects.filter(entry=entry, day=day, release__isnull=False).exists()
