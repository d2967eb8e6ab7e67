"""A team over the event: its scored days added up, and its status."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from weighin.rules.scoring import ZERO, Score
from weighin.rules.slips import Slip

ENTERED = "entered"
ROSTER_STATUSES = (ENTERED, "withdrawn", "absent", "disqualified")
STATUSES = ("ranked", "in_question", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn")


@dataclass(frozen=True)
class Team:
    """A team as the roster has it. ``boat`` is its number; ``lot`` a drawn number for ties, or None."""

    boat: int
    name: str
    status: str = ENTERED
    paid: bool = False
    big_fish_pot: bool = False
    lot: int | None = None


@dataclass(frozen=True)
class DayResult:
    """A team's current slip of one day with its score."""

    day: int
    slip: Slip
    score: Score


@dataclass(frozen=True)
class TeamResult:
    """A team's sums over the event. Weights are Decimal in the event's unit.

    ``gross`` is the sum of net weights, ``penalty`` of deductions; ``big_fish`` the largest counting value or None;
    ``alive_counting`` the live fish of days not lost; ``larger`` the larger total of each doubled day, for the cut alone.
    """

    team: Team
    days: tuple[DayResult, ...]
    status: str
    fish: int
    alive: int
    dead: int
    weighed: int
    gross: Decimal
    penalty: Decimal
    bonus: Decimal
    total: Decimal
    big_fish: Decimal | None
    alive_counting: int
    totals: Mapping[int, Decimal] = field(default_factory=dict)
    larger: Mapping[int, Decimal] = field(default_factory=dict)

    def total_of(self, day: int) -> Decimal:
        """The total of one day; a day without a slip counts 0."""
        return self.totals.get(day, ZERO)

    def total_through(self, day: int) -> Decimal:
        """The total of all days up to and including ``day`` as the cut takes it: of a doubled day the larger."""
        return sum((total for number, total in {**self.totals, **self.larger}.items() if number <= day), ZERO)


def team_result(team: Team, days: Iterable[DayResult], larger: Mapping[int, Decimal] | None = None) -> TeamResult:
    """Add up a team's days (any order), at most one result a day.

    ``larger`` has the larger total of each day of which two slips wait for the director; those are not among ``days``.
    """
    ordered = tuple(sorted(days, key=lambda day: day.day))
    big = [d.score.big_fish for d in ordered if d.score.big_fish is not None]
    deductions = (line.amount for d in ordered for line in d.score.deductions)
    return TeamResult(
        team=team,
        days=ordered,
        status=_status(team, ordered, bool(larger)),
        fish=sum(d.slip.fish for d in ordered),
        alive=sum(d.slip.alive for d in ordered),
        dead=sum(d.slip.dead for d in ordered),
        weighed=sum(d.score.weighed for d in ordered),
        gross=sum((d.score.net for d in ordered), ZERO),
        penalty=sum(deductions, ZERO),
        bonus=sum((d.score.bonus for d in ordered), ZERO),
        total=sum((d.score.total for d in ordered), ZERO),
        big_fish=max(big) if big else None,
        alive_counting=sum(d.slip.alive for d in ordered if not d.score.lost),
        totals={d.day: d.score.total for d in ordered},
        larger=larger or {},
    )


def _status(team: Team, days: tuple[DayResult, ...], in_question: bool) -> str:
    if team.status != ENTERED:
        return team.status
    if in_question:
        return "in_question"
    if not days:
        return "not_weighed"
    with_fish = [d for d in days if d.slip.fish > 0]
    if not with_fish:
        return "no_fish"
    if all(d.score.lost for d in with_fish):
        return "disqualified"
    return "ranked"
