"""Care practices side by side: days alike first, then boats of the same event. Observations, never experiments."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from django.db.models import TextChoices
from django.utils.translation import gettext, gettext_lazy, gettext_noop, ngettext

from weighin.care.domain.checks import Times, minutes_held
from weighin.care.models import CareNote
from weighin.mortality.domain.odds_words import odds_said
from weighin.mortality.domain.words import counted, limits, listed, number, percent, seen
from weighin.mortality.queries.care_covariates import CareCovariates
from weighin.mortality.queries.catches import Catch
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.comparing.adjustment import adjusted_odds
from weighin.survival.comparing.comparison import Group, OddsRatio, Stratum, mantel_haenszel

Told = bool | None  # whether a catch went with the practice; None where nobody wrote it down
COOL, WARM = gettext_noop("cooler"), gettext_noop("warmer")


@dataclass(frozen=True)
class Practice:
    """A practice, its two sides in words (to follow 'fish'), and how it is told of a catch and the note of its well."""

    called: str
    done: str
    not_done: str
    told: Callable[[SeasonEvent, Catch, CareCovariates | None], Told]

    @property
    def name(self) -> str:
        return gettext(self.called)

    @property
    def practised(self) -> str:
        return gettext(self.done)

    @property
    def otherwise(self) -> str:
        return gettext(self.not_done)


@dataclass(frozen=True)
class Side:
    """One side of a practice on days alike; ``rate`` is None when it had no fish."""

    days: str
    practised: Clustered | None
    otherwise: Clustered | None


class Verdict(TextChoices):
    """What a comparison says, in the ways there are to say it."""

    FEWER = "clearly fewer dead", gettext_lazy("clearly fewer dead")
    MORE = "clearly more dead", gettext_lazy("clearly more dead")
    CHANCE = "may be chance", gettext_lazy("may be chance")
    NO_DIFFERENCE = "no clear difference", gettext_lazy("no clear difference")
    TOO_FEW = "too few fish to tell yet", gettext_lazy("too few fish to tell yet")


@dataclass(frozen=True)
class Compared:
    """A practice compared.

    ``sides`` are cooler and warmer days; ``odds`` compares boats of the same event with one another (Mantel-Haenszel over
    ``events`` events, counts divided by the season's design effect of livewells), None where no event can tell;
    ``adjusted`` is the same with the ``others`` compared practices held equal, in one model.
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
    adjusted: OddsRatio | None = None
    others: int = 0

    @property
    def can_be_shown(self) -> bool:
        """Whether both sides had fish on days alike."""
        return any(side.practised and side.otherwise for side in self.sides)

    @property
    def is_clear_alone(self) -> bool:
        """Whether the practice compared singly has a range on one side of even odds."""
        return self.odds is not None and not _holds_one(self.odds)

    @property
    def loses_clarity(self) -> bool:
        """Whether it is clear compared singly and not when the others are held equal."""
        return self.is_clear_alone and self.others > 0 and (self.adjusted is None or _holds_one(self.adjusted))

    @property
    def verdict(self) -> Verdict:
        if self.odds is None:
            return Verdict.TOO_FEW
        if self.is_clear_alone:
            if self.loses_clarity:
                return Verdict.CHANCE
            return Verdict.FEWER if self.odds.value < 1.0 else Verdict.MORE
        wide = self.odds.low <= 0.5 and self.odds.high >= 2.0
        return Verdict.TOO_FEW if wide else Verdict.NO_DIFFERENCE

    @property
    def said(self) -> str:
        """What the figures say, with their range, and no more."""
        return f"{self.said_after_name[0].upper()}{self.said_after_name[1:]}"

    @property
    def said_after_name(self) -> str:
        """The same, to follow the practice's name and a colon."""
        verdict = self.verdict
        if self.odds is None:
            return gettext("%(verdict)s, since no event had dead fish and boats of both kinds.") % {
                "verdict": verdict.label
            }
        single = gettext(
            "%(verdict)s. With %(practised)s a fish had %(odds_said)s of being dead, boats of the same event compared, over %(events)s."
        ) % {
            "verdict": verdict.label,
            "practised": self.practice.practised,
            "odds_said": odds_said(self.odds.value, self.odds.low, self.odds.high),
            "events": counted(self.events, "event"),
        }
        return f"{single} {self.adjusted_said}".strip()

    @property
    def adjusted_said(self) -> str:
        """The odds with the other practices held equal, and whether that takes the clarity away."""
        if not self.others or self.odds is None:
            return ""
        rest = (
            gettext("the other practice")
            if self.others == 1
            else gettext("the other %(others)s") % {"others": number(self.others)}
        )
        if self.adjusted is None:
            return gettext("Adjusted for %(rest)s: too few fish to tell yet.") % {"rest": rest}
        said = gettext("Adjusted for %(rest)s: %(odds_said)s") % {
            "rest": rest,
            "odds_said": odds_said(self.adjusted.value, self.adjusted.low, self.adjusted.high),
        }
        return gettext("%(said)s, which is no longer clear.") % {"said": said} if self.loses_clarity else f"{said}."

    @property
    def untold_said(self) -> str:
        """How many fish are left out for want of a record."""
        if not self.untold:
            return ""
        said = gettext("Not recorded for %(untold)s of %(fish)s fish.")
        return said % {"untold": f"{self.untold:,}", "fish": f"{self.fish:,}"}


def compared(found: SeasonMortality) -> list[Compared]:
    """Every practice that both kinds of boats on days alike allow to compare, in a fixed order; each singly and adjusted."""
    shown = [one for one in (_compare(practice, found) for practice in PRACTICES) if one.can_be_shown]
    adjusted = _adjusted([one.practice for one in shown], found)
    return [replace(one, adjusted=odds, others=len(shown) - 1) for one, odds in zip(shown, adjusted, strict=True)]


def comparisons_said(practices: Sequence[Compared]) -> str:
    """How many comparisons stand beside one another, what luck makes of so many, and which lose clarity when adjusted."""
    count = len(practices)
    if count < 2:
        return ""
    by_luck = 1 - 0.95**count
    said = gettext(
        "%(count)s practices are compared: were none of them linked with deaths, at least one would still look clear in %(by_luck)s of seasons."
    ) % {"count": number(count).capitalize(), "by_luck": percent(by_luck)}
    lost = [one.practice.name.lower() for one in practices if one.loses_clarity]
    if not lost:
        return said
    return f"{said} " + ngettext(
        "Adjusted for one another, %(lost)s is no longer clear.",
        "Adjusted for one another, %(lost)s are no longer clear.",
        len(lost),
    ) % {"lost": listed(lost)}


def _ice(line: SeasonEvent, catch: Catch, note: CareCovariates | None) -> Told:
    return None if note is None or note.ice_lb is None else note.ice_lb > 0


def _on_board(line: SeasonEvent, catch: Catch, note: CareCovariates | None) -> Told:
    return None if note is None or note.most_on_board is None else note.most_on_board <= line.rules.fish_limit


def _recirculated(line: SeasonEvent, catch: Catch, note: CareCovariates | None) -> Told:
    kinds = {CareNote.Aeration.RECIRCULATED: True, CareNote.Aeration.PUMPED: False}
    return None if note is None else kinds.get(CareNote.Aeration(note.aeration)) if note.aeration else None


def _bag(line: SeasonEvent, catch: Catch, note: CareCovariates | None) -> Told:
    minutes = catch.minutes_in_bag
    return None if minutes is None else minutes <= line.rules.care_max_bag_minutes


def _held(line: SeasonEvent, catch: Catch, note: CareCovariates | None) -> Told:
    most, begun = line.rules.care_max_held_minutes, None if note is None else note.first_fish or note.launched
    if most is None or begun is None:
        return None
    held, _ = minutes_held(Times(begun, weighed=catch.weighed, released=catch.released))
    return None if held is None else held <= most


ICE = Practice(gettext_noop("Ice in the livewell"), gettext_noop("ice"), gettext_noop("no ice"), _ice)
ON_BOARD = Practice(
    gettext_noop("Fish on board"),
    gettext_noop("no more than the limit on board"),
    gettext_noop("more than the limit on board"),
    _on_board,
)
WATER = Practice(
    gettext_noop("Livewell water"),
    gettext_noop("recirculated water"),
    gettext_noop("water pumped from the lake"),
    _recirculated,
)
BAG = Practice(
    gettext_noop("Time in the bag"), gettext_noop("a bag emptied in time"), gettext_noop("longer in the bag"), _bag
)
HELD = Practice(
    gettext_noop("Time held"),
    gettext_noop("a hold within the rule sheet’s time"),
    gettext_noop("a longer hold"),
    _held,
)
PRACTICES = (ICE, ON_BOARD, WATER, BAG, HELD)


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
        well[0] += catch.named
        well[1] += catch.fish
    return {kind: [(dead, fish) for dead, fish in wells.values()] for kind, wells in sums.items()}, untold


def _adjusted(practices: Sequence[Practice], found: SeasonMortality) -> list[OddsRatio | None]:
    """Each practice with the others held equal, boats of the same event compared; one livewell and day a row."""
    if len(practices) < 2:
        return [None] * len(practices)
    told: list[list[Told]] = [[] for _ in practices]
    dead, fish, events, wells = [], [], [], []
    for line in found.fished:
        for catch in line.catches:
            if catch.fish:
                note = line.notes.get((catch.day, catch.well))
                for column, practice in zip(told, practices, strict=True):
                    column.append(practice.told(line, catch, note))
                dead.append(catch.named)
                fish.append(catch.fish)
                events.append(line.event.pk)
                wells.append((line.event.pk, catch.well))
    return adjusted_odds(told, dead, fish, events, wells)


def _holds_one(odds: OddsRatio) -> bool:
    return odds.low <= 1.0 <= odds.high


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
            yield gettext("no fish")
        else:
            yield gettext("%(seen)s (%(rate)s) of %(n)s fish, %(livewells)s") % {
                "seen": seen(rate),
                "rate": limits(rate),
                "n": f"{rate.n:,.0f}",
                "livewells": counted(rate.clusters, "livewell"),
            }
