"""An event's losses watched against the club's stop level while it goes on: what is seen, and what to do now.

Looking after every boat finds a bad stretch by luck sooner or later, so the warning comes from a rule that allows for
every look (``survival.sequential``), and the range of the rate beside it is not that rule.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from zoneinfo import ZoneInfo

from django.utils.translation import gettext

from weighin.events.models import Event, Handling
from weighin.mortality.domain.words import counted, limits, number, percent, whole_percent
from weighin.mortality.queries.catches import Catch
from weighin.mortality.queries.likeness import Likeness, livewell_likeness
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.sequential import CORRELATION, FALSE_ALARMS, LEAST_LIVEWELLS, Watch, watch
from weighin.ui import figures

FEWEST_FISH = 40
# Share of events with so many boats (3-7 fish each) that never warn at a true loss of double the level: 20,000 simulated each.
MISSES = ((15, 0.73), (30, 0.50), (60, 0.18))
MOST_ROWS = 8


@dataclass(frozen=True, slots=True)
class Lot:
    """A livewell's fish of one day as they came to the scales; ``weighed`` is None where no time was written."""

    day: int
    fish: int
    dead: float
    weighed: datetime | None


@dataclass(frozen=True)
class Step:
    """The count after so many livewells."""

    livewells: int
    day: int
    weighed: datetime | None
    rate: Clustered


@dataclass(frozen=True)
class StopLevel:
    """The event's losses against ``stop`` (a share), livewell by livewell in the order they came to the scales."""

    event: Event
    rules: Rulebook
    stop: float
    lots: Sequence[Lot]
    seen: Watch
    is_over: bool
    likeness: Likeness

    @property
    def warns(self) -> bool:
        return self.seen.warns

    @cached_property
    def rate(self) -> Clustered | None:
        """The rate so far with its range; None without fish."""
        return self._rate(len(self.lots)) if self.lots else None

    @property
    def has_parts(self) -> bool:
        """Whether a livewell has parts of a fish: its share of the dead of a mixed batch."""
        return any(round(lot.dead, 9) % 1 for lot in self.lots)

    @property
    def is_few(self) -> bool:
        """Whether the fish are too few for the count to say anything by itself."""
        return self.seen.n < FEWEST_FISH or len(self.lots) < LEAST_LIVEWELLS

    @property
    def count(self) -> str:
        """5 dead of 40 fish in 6 livewells, 12.5 % (range ...)"""
        if self.rate is None:
            return gettext("No fish is at the scales yet")
        seen = (
            gettext("%(rate)s, range %(limits)s") % {"rate": percent(self.rate.rate), "limits": limits(self.rate)}
            if self.rate.dead
            else gettext("none seen, %(rate)s") % {"rate": limits(self.rate)}
        )
        return gettext("%(dead)s dead of %(fish)s in %(livewells)s (%(seen)s)") % {
            "dead": f"{self.seen.dead:,.0f}",
            "fish": counted(int(self.seen.n), "fish"),
            "livewells": counted(len(self.lots), "livewell"),
            "seen": seen,
        }

    @property
    def title(self) -> str:
        """The verdict in a sentence; the only one about the stop level that a page gives."""
        level = gettext("our stop level of %(stop)s") % {"stop": whole_percent(self.stop)}
        if self.rate is None:
            return gettext("Nothing to watch yet.")
        if self.warns:
            return gettext("Clearly above %(level)s: losses passed it after %(when_warned)s.") % {
                "level": level,
                "when_warned": self._when_warned,
            }
        if self.seen.is_below:
            return gettext("Clearly below %(level)s.") % {"level": level}
        if self.is_few:
            return gettext("Too few fish to tell yet.")
        if self.rate.rate > self.stop:
            return gettext("Above %(level)s, which may be chance.") % {"level": level}
        return gettext("No clear difference from %(level)s.") % {"level": level}

    @property
    def says(self) -> str:
        """The count, and how far it can be read."""
        if self.rate is None:
            return gettext(
                "With the first livewell at the scales this says how many fish are dead, and whether that is beyond the stop level."
            )
        if self.warns:
            since = ""
            if self.rate.low <= self.stop:
                since = " " + gettext(
                    "The range of the rate reaches below the level: it counts the livewells at the end, the rule one after the other "
                    "as they came. A warning stays."
                )
            return (
                gettext("%(count)s. That something may be wrong is said, and not what.") % {"count": self.count} + since
            )
        if self.is_few:
            return gettext(
                "%(count)s. Count on: at a true 6.5 %% five or more dead of forty turn up by chance at about one event in six, "
                "since fish of a livewell tend to die together."
            ) % {"count": self.count}
        if self.seen.is_below:
            return gettext(
                "%(count)s. The rule that allows for looking after every boat finds losses below the level."
            ) % {"count": self.count}
        return gettext(
            "%(count)s. The rule that allows for looking after every boat finds them neither above nor below the level."
        ) % {"count": self.count}

    @property
    def to_do(self) -> list[str]:
        """What to do now, first things first; empty when the event is over or nothing asks for it."""
        if self.is_over or self.rate is None:
            return []
        oxygen = gettext(
            "Oxygen check: measure tanks, line and the next livewells; at or above %(care_min_do)s mg/L, and as cool as the plan says."
        ) % {"care_min_do": plain(self.rules.care_min_do)}
        if self.warns:
            return [
                gettext(
                    "Hold the line. Give out no bags; boats checked in stay on time, and somebody named says when it goes on."
                ),
                oxygen,
                (
                    gettext(
                        "Go over to measured lengths and release at the water, for boats still out or for the next day, as far as your "
                        "rules and the permit allow. Who was told, and when, belongs in the book."
                    )
                ),
            ]
        if self.seen.dead and (self.rate.rate > self.stop):
            return [
                oxygen,
                gettext("Look again after the next boats; give out bags only as fast as the line takes them."),
            ]
        return []

    @property
    def why_measured(self) -> str:
        """What speaks for measured lengths, with its source."""
        return gettext(
            "Of Texas bass events those with measured lengths lost %(measured)s by the end, weighed ones %(weighed)s (Ostrand "
            "et al. 1999, as the clubs counted for themselves): an observation of other fish."
        ) % {"measured": percent(0.011), "weighed": percent(0.040)}

    @property
    def rule(self) -> str:
        """The rule, with how often it is wrong either way and how often it misses."""
        missed = gettext("%(share)s of those with %(boats)s boats")
        return gettext(
            "The rule: after every livewell the losses are weighed against a true loss of %(stop)s. It warns once they are "
            "%(times)s times likelier under higher losses and at least %(livewells)s livewells have lost fish, and says ‘clearly "
            "below’ while they are %(times)s times likelier under lower ones. Where the true loss is just the stop level either "
            "is false at no more than one event in %(times)s, however often one looks. It misses more than it errs: of simulated "
            "events that truly lost twice a level of 10 %% (at a correlation of %(correlation)s) it never warned at %(missed)s. "
            "No warning is no proof that all is well. Fish of one livewell are taken to share their fate (%(likeness)s), so "
            "seven of one livewell count as about %(seven)s; where they are more alike than that, it errs more often. A warning "
            "stays unless slips are corrected (Ville 1939; Robbins 1970)."
        ) % {
            "stop": whole_percent(self.stop),
            "times": f"{1 / FALSE_ALARMS:.0f}",
            "livewells": number(LEAST_LIVEWELLS),
            "correlation": f"{CORRELATION:g}",
            "missed": ", ".join(missed % {"share": whole_percent(share), "boats": boats} for boats, share in MISSES),
            "likeness": self.likeness.said,
            "seven": f"{7 / (1 + 6 * self.likeness.correlation):.1f}",
        }

    @property
    def short(self) -> str:
        """For where there is room for one sentence: count, rate and what to do."""
        said = f"{self.title} {self.count}."
        return f"{said} " + gettext("Hold the line and check the oxygen.") if self.warns and not self.is_over else said

    @cached_property
    def steps(self) -> list[Step]:
        """The count after so many livewells, at most eight times over the event and always at the last."""
        whole = len(self.lots)
        rows = min(MOST_ROWS, whole)
        places = sorted({-(-whole * row // rows) for row in range(1, rows + 1)})
        return [Step(n, self.lots[n - 1].day, self.lots[n - 1].weighed, self._rate(n)) for n in places]

    def step_note(self, step: Step) -> str:
        """When a step was, in short."""
        day = gettext("day %(day)s") % {"day": step.day} if self.lots[-1].day > 1 else ""
        clock = figures.clock(step.weighed, ZoneInfo(self.event.time_zone))
        return ", ".join(part for part in (day, clock) if part)

    @property
    def _when_warned(self) -> str:
        after = self.seen.livewells_to_warning or 0
        lot = self.lots[after - 1]
        when = self.step_note(Step(after, lot.day, lot.weighed, self._rate(after)))
        return f"{counted(after, 'livewell')}{f' ({when})' if when else ''}"

    def _rate(self, livewells: int) -> Clustered:
        so_far = self.lots[:livewells]
        return clustered([lot.dead for lot in so_far], [lot.fish for lot in so_far])


def stop_level(event: Event, rules: Rulebook, catches: Iterable[Catch], is_over: bool) -> StopLevel | None:
    """The watch over an event's catches that count; None where fish are kept anyway, or the stop level is no share."""
    stop = float(rules.care_stop_percent) / 100
    if event.handling == Handling.HARVEST or not 0 < stop < 1:
        return None
    lots, likeness = in_order(catches), livewell_likeness(event)
    seen = watch([lot.dead for lot in lots], [lot.fish for lot in lots], stop, likeness.correlation)
    return StopLevel(event, rules, stop, lots, seen, is_over, likeness)


def in_order(catches: Iterable[Catch]) -> list[Lot]:
    """Every day's livewells with fish as they came to the scales.

    By the time of weighing where every slip of the day has one, else by the slips' numbers. A well that several boats'
    slips name stands where its first slip stands. Another day's fish of the same well are fish of their own.
    """
    fished = [catch for catch in catches if catch.fish]
    untimed = {catch.day for catch in fished if catch.weighed is None}

    def place(catch: Catch) -> tuple[float, ...]:
        moment = 0.0 if catch.weighed is None or catch.day in untimed else catch.weighed.timestamp()
        return catch.day, moment, catch.number

    wells: dict[tuple[int, int], list[Catch]] = {}
    for catch in sorted(fished, key=place):
        wells.setdefault((catch.day, catch.well), []).append(catch)
    return [
        Lot(day, sum(c.fish for c in of_it), sum(c.lost for c in of_it), of_it[0].weighed)
        for (day, _), of_it in wells.items()
    ]
