"""Drawn rule sheets, catches and whole events: every fish has a weight, so that the slips are sound."""

from dataclasses import dataclass, replace
from decimal import Decimal as D

from hypothesis import strategies as st

from weighin.rules import rulebook
from weighin.rules.results import ROSTER_STATUSES, Team
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import removed
from weighin.rules.slips import Slip
from weighin.rules.tournament import DaySlip

from .key_texts import READ

TEXTS = {key: ["", *(text for text, _ in cases)] for key, cases in READ.items()}
LATE = [0, 0, 0, 1, 3, D("2.5"), 15, D("15.01"), 20]
QUARTERS = st.integers(1, 8).map(lambda n: D(n) / 4)


@st.composite
def written_rules(draw, **fixed):
    """A rule sheet as texts; some of the keys are left to their defaults."""
    written = {key: draw(st.sampled_from(texts)) for key, texts in TEXTS.items()}
    if draw(st.booleans()):
        written |= {"cut_after_day": "1", "cut_keep": draw(st.sampled_from(["1", "2", "3"]))}
    return written | fixed


def rulebooks(**fixed):
    """A rule sheet, read."""
    return written_rules(**fixed).map(lambda written: rulebook.read(written, "lb"))


@dataclass(frozen=True)
class Catch:
    """The fish on the table: legal ones by weight, short ones by number; live fish are short before dead ones."""

    live: tuple[D, ...]
    dead: tuple[D, ...]
    short_live: int
    short_dead: int

    def one_dies(self) -> "Catch":
        """The same fish, one that was alive now dead: a legal one, or a short one where no legal one lives."""
        if self.live:
            return replace(self, live=self.live[1:], dead=(*self.dead, self.live[0]))
        return replace(self, short_live=self.short_live - 1, short_dead=self.short_dead + 1)

    def slip(self, rules: Rulebook, **more: object) -> Slip:
        """What the table writes under these rules, the big fish the largest that counts."""
        on_scale = [(weight, True) for weight in self.live]
        if rules.dead_are_weighed:
            on_scale += [(weight, False) for weight in self.dead]
        on_scale.sort(reverse=True)
        if rules.over_limit == "penalty":
            on_scale = on_scale[: rules.fish_limit]
        seen = Slip(
            fish=len(self.live) + len(self.dead) + self.short_live + self.short_dead,
            alive=len(self.live) + self.short_live,
            dead=len(self.dead) + self.short_dead,
            short=self.short_live + self.short_dead,
            gross=sum((w for w, _ in on_scale), rules.bag_tare) if on_scale else None,
            largest_weights=tuple(weight for weight, _ in on_scale),
            **more,  # type: ignore[arg-type]
        )
        left = on_scale[sum(removed(rules, seen)) :]
        if left:
            seen = replace(seen, big_fish=left[0][0], big_fish_alive=left[0][1])
        return seen


@st.composite
def catches(draw, at_least=0):
    live = draw(st.lists(QUARTERS, min_size=at_least, max_size=8))
    dead = draw(st.lists(QUARTERS, max_size=3))
    short = draw(st.sampled_from([0, 0, 0, 1, 2]))
    return Catch(tuple(live), tuple(dead), short, 0 if live else draw(st.sampled_from([0, 0, 1])))


@st.composite
def more_of_a_slip(draw):
    """What else may stand on a slip: lateness, an extra penalty, a ruling."""
    more = {"minutes_late": draw(st.sampled_from(LATE))}
    if draw(st.integers(0, 9)) == 0:
        more |= {"extra_penalty": D("0.25"), "extra_penalty_reason": "no life jacket"}
    if draw(st.integers(0, 19)) == 0:
        more["disqualified_reason"] = "fished closed water"
    return more


@dataclass(frozen=True)
class Event:
    """Teams and what they caught by boat and day: a catch and the rest of its slip."""

    teams: tuple[Team, ...]
    catches: dict[tuple[int, int], tuple[Catch, dict[str, object]]]
    days: tuple[int, ...]

    def slips(self, rules: Rulebook) -> list[DaySlip]:
        """The current slips as the table writes them under these rules."""
        return [DaySlip(boat, day, catch.slip(rules, **more)) for (boat, day), (catch, more) in self.catches.items()]


@st.composite
def events(draw, at_least=1):
    count = draw(st.integers(at_least, 7))
    days = draw(st.sampled_from([(1,), (1, 2)]))
    teams = tuple(
        Team(
            boat=boat,
            name=f"Team {boat}",
            status=draw(st.sampled_from(["entered"] * 12 + list(ROSTER_STATUSES[1:]))),
            paid=draw(st.sampled_from([True, True, True, False])),
            big_fish_pot=draw(st.booleans()),
            lot=draw(st.sampled_from([None, 1, 2, boat])),
        )
        for boat in range(1, count + 1)
    )
    # Few different bags, so that totals are equal often enough to try the ties.
    bags = draw(st.lists(st.tuples(catches(), more_of_a_slip()), min_size=1, max_size=4))
    caught = {
        (team.boat, day): draw(st.sampled_from(bags))
        for team in teams
        for day in days
        if draw(st.sampled_from([True, True, True, True, False]))
    }
    return Event(teams, caught, days)
