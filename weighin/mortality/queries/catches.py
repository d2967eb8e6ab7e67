"""What mortality needs of a weigh slip, light enough to fetch a whole season in one query."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from django.db.models.functions import Coalesce

from weighin.care.domain.checks import Times, minutes_in_bag
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.tanks.queries.at_release import Batch, at_release, batches_of

COLUMNS = (
    "event_id",
    "day",
    "entry_id",
    "entry__boat",
    "well_boat",
    "fish",
    "dead",
    Coalesce("dead_at_release", 0),
    Coalesce("kept", 0),
    "bag_issued",
    "bag_emptied",
    "weighed",
    "released",
    "number",
    "dead_at_release",
)


@dataclass(frozen=True, slots=True)
class Catch:
    """The fish of one slip. Counts are fish; ``well`` is the boat whose livewell held them; times may be unknown.

    ``number`` is the slip's. ``dead_at_release`` and ``released`` take in the release record (``with_releases``);
    ``told_at_release`` is what was written of dead at the release, on the slip or for its batch; None: nobody counted.
    ``shared`` is the slip's part of the dead of mixed batches that no slip names.
    """

    event_id: int
    day: int
    entry_id: int
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
    told_at_release: int | None
    shared: Fraction = Fraction(0)

    @property
    def alive(self) -> int:
        return self.fish - self.dead

    @property
    def named(self) -> int:
        """Dead that are known to be this boat's."""
        return self.dead + self.dead_at_release

    @property
    def lost(self) -> float:
        """Dead by release: at the table and after it; a fraction where the fish of a mixed batch are shared out."""
        return _plain(self.named + self.shared)

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
        entry_id=slip.entry_id,
        boat=boat,
        well=slip.well_boat or boat,
        fish=slip.fish,
        dead=slip.dead,
        dead_at_release=slip.dead_at_release or 0,
        kept=slip.kept or 0,
        bag_issued=slip.bag_issued,
        bag_emptied=slip.bag_emptied,
        weighed=slip.weighed,
        released=slip.released,
        number=slip.number,
        told_at_release=slip.dead_at_release,
    )


def season_catches(season: Season) -> dict[int, list[Catch]]:
    """The catches of every current slip of the season by event id, in one query; doubled days are still in them."""
    found: dict[int, list[Catch]] = defaultdict(list)
    current = (
        WeighSlip.objects.current()
        .filter(event__season=season, event__rehearsal_of=None)
        .order_by("event_id", "day", "number")
    )
    for event_id, day, entry, boat, well, *others in current.values_list(*COLUMNS):
        found[event_id].append(Catch(event_id, day, entry, boat, well or boat, *others))
    return found


def with_releases(counting: Iterable[Catch], batches: Iterable[Batch]) -> list[Catch]:
    """The catches that count, with what the release record adds: fish found dead when let go, and when they went back."""
    catches = list(counting)
    found = at_release(catches, batches)
    return [
        replace(
            catch,
            dead_at_release=catch.dead_at_release + of_it.own,
            shared=of_it.shared,
            released=of_it.released,
            # A batch's record counts the dead of all its boats
            told_at_release=0 if catch.released is None and of_it.released else catch.told_at_release,
        )
        for catch in catches
        for of_it in [found[catch.day, catch.entry_id]]
    ]


def event_catches(event: Event, slips: Iterable[WeighSlip], as_of: datetime | None = None) -> list[Catch]:
    """The catches of an event's slips that count, release record and all; two queries."""
    return with_releases([catch_of(slip) for slip in slips], batches_of([event], as_of).get(event.pk, ()))


def parted(catches: Iterable[Catch]) -> tuple[list[Catch], list[Catch]]:
    """The catches of one event that count, and those of doubled days, which wait for the director."""
    all_of_them = list(catches)
    seen = Counter((catch.boat, catch.day) for catch in all_of_them)
    counting = [catch for catch in all_of_them if seen[catch.boat, catch.day] == 1]
    return counting, [catch for catch in all_of_them if seen[catch.boat, catch.day] > 1]


@dataclass(frozen=True, slots=True)
class Livewell:
    """The fish of one livewell over all days of an event: the cluster that lives or dies together.

    ``dead`` takes in its part of mixed batches' dead; ``named`` only those that are known to be its own.
    """

    fish: int
    dead_at_table: int
    named: int
    dead: float
    kept: int


def livewells(catches: Iterable[Catch]) -> list[Livewell]:
    """Every livewell with fish, by boat number; another boat's well counts with that boat."""
    wells: dict[int, list[Catch]] = defaultdict(list)
    for catch in catches:
        wells[catch.well].append(catch)
    return [
        Livewell(
            fish=sum(one.fish for one in of_it),
            dead_at_table=sum(one.dead for one in of_it),
            named=sum(one.named for one in of_it),
            dead=_plain(sum((one.named + one.shared for one in of_it), Fraction(0))),
            kept=sum(one.kept for one in of_it),
        )
        for _, of_it in sorted(wells.items())
        if any(one.fish for one in of_it)
    ]


def _plain(count: Fraction) -> float:
    """A whole number where it is one."""
    return int(count) if count.denominator == 1 else float(count)
