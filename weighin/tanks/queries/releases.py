"""What became of an event's fish after the table: releases by place, walks, fish kept; and how they stand to the slips."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.rules.look_alikes import folded_name
from weighin.slips.queries.slips import counting_slips
from weighin.tanks.models import FloaterWalk, KeptFish, Release


@dataclass
class Site:
    """A place of release: how often, how many fish, dead when let go, and how far from the ramp."""

    place: str
    water: str = ""
    trips: int = 0
    batches: int = 0
    fish: int = 0
    dead: int = 0
    events: set[int] = field(default_factory=set)
    distances: list[float] = field(default_factory=list)
    depths: list[float] = field(default_factory=list)

    def add(self, release: Release) -> None:
        self.trips += release.by == Release.By.BOAT
        self.batches += release.by == Release.By.BATCH
        self.fish += release.fish
        self.dead += release.dead
        self.events.add(release.event_id)
        self.distances += [float(release.distance_mi)] if release.distance_mi else []
        self.depths += [float(release.depth_ft)] if release.depth_ft else []


@dataclass(frozen=True)
class BySlips:
    """The slips' own counts, which the mortality rests on; doubled days are left out of them."""

    alive: int
    dead: int
    dead_at_release: int
    kept: int

    @property
    def for_the_lake(self) -> int:
        """Fish that went back alive by the slips."""
        return self.alive - self.dead_at_release - self.kept


@dataclass(frozen=True)
class Releases:
    """An event's releases, walks and kept fish, and the slips' counts beside them."""

    releases: Sequence[Release]
    walks: Sequence[FloaterWalk]
    kept: Sequence[KeptFish]
    slips: BySlips

    @property
    def fish(self) -> int:
        return sum(release.fish for release in self.releases)

    @property
    def dead(self) -> int:
        return sum(release.dead for release in self.releases)

    @property
    def alive(self) -> int:
        return self.fish - self.dead

    @property
    def sites(self) -> list[Site]:
        return sites(self.releases)

    @property
    def kept_alive(self) -> int:
        """Fish that were alive at the table and did not go back; lent ones that came back are not among them."""
        return sum(row.fish - row.came_back for row in self.kept if row.alive)

    @property
    def gone_dead(self) -> int:
        """Dead fish whose end is written down."""
        return sum(row.fish - row.came_back for row in self.kept if not row.alive)

    @property
    def lent_out(self) -> int:
        """Fish that were lent and have not come back."""
        return sum(row.fish - row.came_back for row in self.kept if row.went == KeptFish.Went.LENT)

    @property
    def walk_dead(self) -> int:
        return sum(walk.dead for walk in self.walks)


def releases_of(event: Event) -> Releases:
    """Everything about an event's fish after the table, in four queries."""
    slips = counting_slips(event)
    return Releases(
        releases=list(event.releases.all()),
        walks=list(event.floater_walks.all()),
        kept=list(event.kept_fish.all()),
        slips=BySlips(
            alive=sum(slip.alive for slip in slips),
            dead=sum(slip.dead for slip in slips),
            dead_at_release=sum(slip.dead_at_release or 0 for slip in slips),
            kept=sum(slip.kept or 0 for slip in slips),
        ),
    )


def sites(releases: Iterable[Release], waters: dict[int, str] | None = None) -> list[Site]:
    """Releases by place, the most fish first; a place is the same by its name, on the same water.

    ``waters`` gives the water of each event, for a season on several.
    """
    found: dict[tuple[str, str], Site] = {}
    for release in releases:
        water = (waters or {}).get(release.event_id, "")
        key = (water, folded_name(release.place))
        found.setdefault(key, Site(release.place, water)).add(release)
    return sorted(found.values(), key=lambda site: (-site.fish, site.water, site.place.casefold()))


def season_sites(season: Season) -> list[Site]:
    """The season's places of release, in two queries."""
    waters = dict(season.events.values_list("pk", "water__name"))
    released = Release.objects.filter(event__season=season, event__rehearsal_of=None)
    return sites(released.order_by("event__date", "time"), waters)


def place_names(event: Event) -> list[str]:
    """Places written before on this water, each once, so that the same name is written again."""
    written = Release.objects.filter(event__water=event.water_id).order_by("time").values_list("place", flat=True)
    return sorted({folded_name(place): place for place in written}.values(), key=str.casefold)
