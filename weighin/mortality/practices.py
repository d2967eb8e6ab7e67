"""Care practices side by side: days alike first, then boats of the same event. Observations, never experiments."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from weighin.fishcare.checks import Times, minutes_held
from weighin.fishcare.models import CareNote
from weighin.mortality.care_seen import CareSeen
from weighin.mortality.catches import Catch
from weighin.mortality.season import SeasonEvent, SeasonMortality
from weighin.mortality.words import SPACE, counted, limits, percent, times
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.comparison import Group, OddsRatio, Stratum, mantel_haenszel

Told = bool | None  # whether a catch went with the practice; None where nobody wrote it down
COOL, WARM = "cooler", "warmer"


@dataclass(frozen=True)
class Practice:
    """A practice, its two sides in words (to follow 'fish'), and how it is told of a catch and the note of its well."""

    name: str
    practised: str
    otherwise: str
    told: Callable[[SeasonEvent, Catch, CareSeen | None], Told]


@dataclass(frozen=True)
class Side:
    """One side of a practice on days alike; ``rate`` is None when it had no fish."""

    days: str
    practised: Clustered | None
    otherwise: Clustered | None


@dataclass(frozen=True)
class Compared:
    """A practice compared.

    ``sides`` are cooler and warmer days; ``odds`` compares boats of the same event with one another (Mantel-Haenszel over
    ``events`` events, counts divided by the season's design effect of livewells), None where no event can tell.
    ``untold`` of ``fish`` have no record of the practice. ``without`` holds (dead, fish) of the boats that went without
    it at each of those events.
    """

    practice: Practice
    sides: Sequence[Side]
    odds: OddsRatio | None
    events: int
    untold: int
    fish: int
    without: Sequence[tuple[int, int]] = ()

    @property
    def can_be_shown(self) -> bool:
        """Whether both sides had fish on days alike."""
        return any(side.practised and side.otherwise for side in self.sides)

    @cached_property
    def said(self) -> str:
        """What the figures say, with their range, and no more."""
        if self.odds is None:
            return "No event had dead fish and boats of both kinds, so boats of one day cannot be compared."
        odds = self.odds
        if odds.low > 1.0 or odds.high < 1.0:
            more = "more" if odds.low > 1.0 else "fewer"
            finding = (
                f"{self.practice.practised[0].upper()}{self.practice.practised[1:]} went together with {more} dead fish"
            )
        else:
            finding = "Which way it went, if any, the figures cannot tell"
        return (
            f"{finding}: with boats of the same event compared, over {counted(self.events, 'event')}, the odds of a fish being "
            f"dead were {times(odds.value)} those of the other boats (95{SPACE}% range {times(odds.low)} to {times(odds.high)})."
        )

    @property
    def untold_said(self) -> str:
        """How many fish are left out for want of a record."""
        if not self.untold:
            return ""
        return f"Of {self.fish:,} fish {self.untold:,} are left out: nobody wrote this down for them."


def compared(found: SeasonMortality) -> list[Compared]:
    """Every practice that both kinds of boats on days alike allow to compare, in a fixed order."""
    everything = [_compare(practice, found) for practice in PRACTICES]
    return [one for one in everything if one.can_be_shown]


def _ice(line: SeasonEvent, catch: Catch, note: CareSeen | None) -> Told:
    return None if note is None or note.ice_lb is None else note.ice_lb > 0


def _on_board(line: SeasonEvent, catch: Catch, note: CareSeen | None) -> Told:
    return None if note is None or note.most_on_board is None else note.most_on_board <= line.rules.fish_limit


def _recirculated(line: SeasonEvent, catch: Catch, note: CareSeen | None) -> Told:
    kinds = {CareNote.Aeration.RECIRCULATED: True, CareNote.Aeration.PUMPED: False}
    return None if note is None else kinds.get(CareNote.Aeration(note.aeration)) if note.aeration else None


def _bag(line: SeasonEvent, catch: Catch, note: CareSeen | None) -> Told:
    minutes = catch.minutes_in_bag
    return None if minutes is None else minutes <= line.rules.care_max_bag_minutes


def _held(line: SeasonEvent, catch: Catch, note: CareSeen | None) -> Told:
    most, begun = line.rules.care_max_held_minutes, None if note is None else note.first_fish or note.launched
    if most is None or begun is None:
        return None
    held, _ = minutes_held(Times(begun, weighed=catch.weighed, released=catch.released))
    return None if held is None else held <= most


PRACTICES = (
    Practice("Ice in the well", "ice", "no ice", _ice),
    Practice("Fish on board", "no more than the limit on board", "more than the limit on board", _on_board),
    Practice("Water of the well", "a recirculated well", "a well pumped from the lake", _recirculated),
    Practice("Time in the bag", "a bag emptied in time", "longer in the bag", _bag),
    Practice("Time held", "held no longer than the rule sheet asks", "held longer", _held),
)


def _compare(practice: Practice, found: SeasonMortality) -> Compared:
    told: dict[tuple[str, bool], list[tuple[int, int]]] = defaultdict(list)
    strata: list[Stratum] = []
    without: list[tuple[int, int]] = []
    untold = fish = 0
    effect = found.pooled.these_events.design_effect if found.pooled else 1.0
    for line in found.fished:
        wells, missing = wells_by(practice, line)
        untold, fish = untold + missing, fish + line.found.presented
        if line.lake is not None:
            days = WARM if line.is_warm else COOL
            for kind, pairs in wells.items():
                told[days, kind] += pairs
        if wells[True] and wells[False]:
            practised, otherwise = (_group(wells[kind], effect) for kind in (True, False))
            if practised.dead + otherwise.dead > 0:
                strata.append(Stratum(line.event.name, practised, otherwise))
                without.append((sum(dead for dead, _ in wells[False]), sum(fish for _, fish in wells[False])))
    sides = [Side(days, _rate(told[days, True]), _rate(told[days, False])) for days in (COOL, WARM)]
    return Compared(practice, sides, _odds(strata), len(strata), untold, fish, without)


def wells_by(practice: Practice, line: SeasonEvent) -> tuple[dict[bool, list[tuple[int, int]]], int]:
    """(dead, fish) of every livewell by whether it went with the practice, and how many fish nothing is known of.

    The note is that of the boat whose livewell held the fish. A well that changed over the days counts on each side.
    """
    sums: dict[bool, dict[int, list[int]]] = {True: {}, False: {}}
    untold = 0
    for catch in line.catches:
        if catch.fish == 0:
            continue
        kind = practice.told(line, catch, line.notes.get((catch.day, catch.well)))
        if kind is None:
            untold += catch.fish
            continue
        well = sums[kind].setdefault(catch.well, [0, 0])
        well[0] += catch.lost
        well[1] += catch.fish
    return {kind: [(dead, fish) for dead, fish in wells.values()] for kind, wells in sums.items()}, untold


def _group(pairs: Sequence[tuple[int, int]], effect: float) -> Group:
    return Group(sum(dead for dead, _ in pairs) / effect, sum(fish for _, fish in pairs) / effect)


def _rate(pairs: Sequence[tuple[int, int]]) -> Clustered | None:
    return clustered([dead for dead, _ in pairs], [fish for _, fish in pairs]) if pairs else None


def _odds(strata: Sequence[Stratum]) -> OddsRatio | None:
    try:
        return mantel_haenszel(strata) if strata else None
    except ValueError:  # no event with dead and living fish on both sides
        return None


def side_cells(side: Side) -> Iterator[str]:
    """Both rates of days alike as written, with fish and range."""
    for rate in (side.practised, side.otherwise):
        if rate is None:
            yield "no fish"
        else:
            seen = percent(rate.rate) if rate.dead else "none seen"
            yield f"{seen} ({limits(rate)}) of {rate.n:,.0f} fish, {counted(rate.clusters, 'livewell')}"
