"""A season's dead fish: every event, and all of them together, fetched in the same few queries whatever their number."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled, rules_of
from weighin.holding.domain.study import HoldingStudy, holding_study
from weighin.holding.models import HoldingPen
from weighin.mortality.domain.lake import Lake, lake_of, unit_of
from weighin.mortality.domain.temperature_curve import TemperatureCurve, temperature_curve_of
from weighin.mortality.queries.care_covariates import Notes, season_covariates
from weighin.mortality.queries.catches import Catch, Livewell, livewells, parted, season_catches, with_releases
from weighin.mortality.queries.event import Mortality, mortality_of
from weighin.mortality.queries.missing import Missing, missing_of
from weighin.roster.models import Entry
from weighin.rules.rulebook import Rulebook, defaults
from weighin.standings.queries.standings import without_result
from weighin.survival.clusters import CORRELATION, Clustered, clustered
from weighin.survival.nested import SAME_DAY, Nested, nested
from weighin.tanks.queries.at_release import Batch, batches_of

FEWEST_EVENTS = 3  # for a range over events: what two say of others is anything


@dataclass(frozen=True)
class SeasonEvent:
    """One event of the season. ``rate`` is None without fish; ``stop`` is its stop level as a share."""

    event: Event
    rules: Rulebook
    stop: float
    found: Mortality
    catches: Sequence[Catch]
    notes: Notes
    wells: Sequence[Livewell]
    rate: Clustered | None
    lake: Lake | None
    study: HoldingStudy | None
    missing: Missing

    @property
    def is_warm(self) -> bool:
        """Whether the lake was as warm as the rule sheet's care steps begin at."""
        return self.lake is not None and self.lake.mean >= float(self.rules.care_warm_f)


@dataclass(frozen=True)
class SeasonMortality:
    """A season's events that were not cancelled, oldest first, and what they say together. ``provisional`` of them
    with fish have no official result."""

    season: Season
    events: Sequence[SeasonEvent]
    provisional: int = 0

    @cached_property
    def fished(self) -> list[SeasonEvent]:
        """Events with fish, oldest first."""
        return [line for line in self.events if line.rate is not None]

    @cached_property
    def worst_first(self) -> list[SeasonEvent]:
        """Events with fish by rate, highest first; of equal ones the one with more fish."""
        return sorted(
            self.fished, key=lambda line: (-(line.found.initial or 0), -line.found.presented, line.event.date)
        )

    @property
    def presented(self) -> int:
        return sum(line.found.presented for line in self.events)

    @property
    def dead(self) -> int:
        return sum(line.found.dead for line in self.events)

    @property
    def kept(self) -> int:
        return sum(line.found.kept for line in self.events)

    @property
    def livewells(self) -> int:
        return sum(line.found.clusters for line in self.events)

    @cached_property
    def pooled(self) -> Nested | None:
        """All fish brought to the scales, livewells within events; None without fish."""
        rows = [(well.dead, well.fish, line.event.pk) for line in self.fished for well in line.wells]
        if not rows:
            return None
        dead, fish, events = zip(*rows, strict=True)
        return nested(dead, fish, events)

    @property
    def range_is_of_such_events(self) -> bool:
        """Whether the headline's range counts events: one or two cannot tell how days differ."""
        return len(self.fished) >= FEWEST_EVENTS

    @cached_property
    def headline(self) -> Clustered | None:
        """The season's rate with the range that the headline gives: for events like these, from three events on."""
        if self.pooled is None:
            return None
        return self.pooled.such_events if self.range_is_of_such_events else self.pooled.these_events

    @cached_property
    def of_release(self) -> Clustered | None:
        """Dead of the fish meant for the lake, clusters as in the headline."""
        return self._of([(well.dead, well.fish - well.kept, line) for line in self.fished for well in line.wells])

    @cached_property
    def removed(self) -> Clustered | None:
        """Dead or kept, of all fish brought to the scales, clusters as in the headline."""
        return self._of([(well.dead + well.kept, well.fish, line) for line in self.fished for well in line.wells])

    def _of(self, wells: Sequence[tuple[float, int, SeasonEvent]]) -> Clustered | None:
        """A rate with the headline's kind of range: events as clusters, or the livewells of the one event."""
        clusters: dict[object, list[float]] = {}
        for place, (dead, fish, line) in enumerate(wells):
            counts = clusters.setdefault(line.event.pk if self.range_is_of_such_events else place, [0, 0])
            counts[0] += dead
            counts[1] += fish
        if not any(fish for _, fish in clusters.values()):
            return None
        assumed = SAME_DAY if self.range_is_of_such_events else CORRELATION
        return clustered(
            [dead for dead, _ in clusters.values()], [fish for _, fish in clusters.values()], correlation=assumed
        )

    @cached_property
    def stop(self) -> float | None:
        """The stop level of the latest event; None without events."""
        return self.events[-1].stop if self.events else None

    @property
    def species(self) -> str:
        """The species of the latest event's rule sheet; crappie without events."""
        return self.events[-1].rules.species if self.events else "crappie"

    @property
    def care_from(self) -> float:
        """The lake temperature (°F) at which the latest event's care steps begin."""
        return float(self.events[-1].rules.care_warm_f) if self.events else float(defaults("lb").care_warm_f)

    @property
    def stops_differ(self) -> bool:
        return len({line.stop for line in self.fished}) > 1

    @cached_property
    def unit(self) -> str:
        """The unit most lake temperatures were written in."""
        return unit_of([line.lake for line in self.fished if line.lake])

    @cached_property
    def temperature_curve(self) -> TemperatureCurve:
        """The rate against the lake's temperature."""
        known = [(line.event.pk, line.lake.mean, line.rate) for line in self.fished if line.lake and line.rate]
        return temperature_curve_of(known, self.unit, self.care_from)

    @cached_property
    def studies(self) -> list[SeasonEvent]:
        """Events that held fish back to see."""
        return [line for line in self.events if line.study is not None]


def season_mortality(season: Season) -> SeasonMortality:
    """The season worked out, in eight queries whatever the number of events and slips."""
    events = [event for event in _events(season) if not is_cancelled(event)]
    catches = season_catches(season)
    pens: dict[int, list[HoldingPen]] = defaultdict(list)
    for pen in HoldingPen.objects.filter(event__season=season, event__rehearsal_of=None):
        pens[pen.event_id].append(pen)
    entries: dict[int, list[tuple[int, str]]] = defaultdict(list)
    entered = Entry.objects.filter(event__season=season, event__rehearsal_of=None).order_by("event_id", "boat")
    for event_id, boat, status in entered.values_list("event_id", "boat", "status"):
        entries[event_id].append((boat, status))
    notes = season_covariates(season)
    batches = batches_of(events)
    lines = [
        _line(
            event,
            catches.get(event.pk, []),
            batches.get(event.pk, ()),
            notes.get(event.pk, {}),
            pens[event.pk],
            entries[event.pk],
        )
        for event in events
    ]
    fished = [line.event for line in lines if line.rate is not None]
    return SeasonMortality(season, lines, provisional=len(without_result(fished)))


def season_stamp(season: Season) -> tuple[tuple[object, ...], ...]:
    """What changes whenever the summary does: every event with its revision and the names it shows; one query."""
    rows = season.events.order_by("date", "pk").values_list(
        "pk", "revision", "slug", "name", "date", "water__name", "closed_at"
    )
    return tuple(rows)


def _events(season: Season) -> list[Event]:
    found = season.events.select_related("water", "rule_sheet", "season__club").prefetch_related("event_days")
    return list(found.order_by("date", "pk"))


def _line(
    event: Event,
    catches: Sequence[Catch],
    batches: Sequence[Batch],
    notes: Notes,
    pens: Sequence[HoldingPen],
    entries: Sequence[tuple[int, str]],
) -> SeasonEvent:
    rules = rules_of(event)
    counting, waiting = parted(catches)
    counting = with_releases(counting, batches)
    study = holding_study(pens)
    lake = lake_of(event, (catch.day for catch in counting if catch.fish))
    wells = livewells(counting)
    return SeasonEvent(
        event=event,
        rules=rules,
        stop=float(rules.care_stop_percent) / 100,
        found=mortality_of(counting, study, len({(catch.boat, catch.day) for catch in waiting})),
        catches=counting,
        notes=notes,
        wells=wells,
        rate=clustered([well.dead for well in wells], [well.fish for well in wells]) if wells else None,
        lake=lake,
        study=study,
        missing=missing_of(counting, waiting, entries, has_lake=lake is not None, has_study=study is not None),
    )
