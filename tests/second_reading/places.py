"""A team over the event: sums, status, the cut, places and ties, and the order of the list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from .one_slip import ZERO, DayScore


@dataclass
class Team:
    """A team with the scores of its current slips: `scores` of days with one, `doubled` of days with several.

    `first` are those of its first readings, whatever became of them.
    """

    boat: int
    name: str
    roster_status: str
    paid: bool
    in_pot: bool
    lot: int | None
    scores: list[DayScore] = field(default_factory=list)
    doubled: dict[int, list[DayScore]] = field(default_factory=dict)
    first: list[DayScore] = field(default_factory=list)
    status: str = ""
    place: int | None = None
    tied: bool = False
    payout: Fraction = ZERO
    big_fish_payout: Fraction = ZERO
    points: Fraction = ZERO

    # "gross = sum of net; penalty = sum of deduction amounts; bonus; total = sum of day totals; fish, alive,
    # dead are of all slips; weighed likewise; big_fish = the largest counting value, empty if none"
    @property
    def gross(self) -> Fraction:
        return sum((s.net for s in self.scores), ZERO)

    @property
    def penalty(self) -> Fraction:
        return sum((s.penalty for s in self.scores), ZERO)

    @property
    def bonus(self) -> Fraction:
        return sum((s.bonus for s in self.scores), ZERO)

    @property
    def total(self) -> Fraction:
        return sum((s.total for s in self.scores), ZERO)

    @property
    def fish(self) -> int:
        return sum(s.fish for s in self.scores)

    @property
    def alive(self) -> int:
        return sum(s.alive for s in self.scores)

    @property
    def dead(self) -> int:
        return sum(s.dead for s in self.scores)

    @property
    def weighed(self) -> int:
        return sum(s.weighed for s in self.scores)

    @property
    def big_fish(self) -> Fraction | None:
        return max((s.big_fish for s in self.scores if s.big_fish is not None), default=None)

    def day_total(self, day: int) -> Fraction:
        """As written: "A day without a slip counts 0."."""
        return sum((s.total for s in self.scores if s.day == day), ZERO)

    def total_through(self, day: int) -> Fraction:
        """For the cut: "A team in question counts the larger total of its slips of that day for the cut"."""
        larger = [max(s.total for s in two) for number, two in self.doubled.items() if number <= day]
        return sum((s.total for s in self.scores if s.day <= day), ZERO) + sum(larger, ZERO)

    def first_through(self, day: int) -> Fraction:
        """The same with the first readings."""
        return sum((s.total for s in self.first if s.day <= day), ZERO)

    def weighed_after(self, day: int) -> bool:
        """Whether it has a current slip after a day."""
        return any(number > day for number in [*(s.day for s in self.scores), *self.doubled])


def status_of(team: Team) -> str:
    """As written: "Status: withdrawn, disqualified, absent as the roster says; else in_question (two slips of one
    day wait ...), not_weighed (no slip at all), no_fish (slips, no fish presented), disqualified (fish presented,
    every slip with fish is a lost day), else ranked"."""
    if team.roster_status in ("withdrawn", "disqualified", "absent"):
        return team.roster_status
    if team.doubled:
        return "in_question"
    if not team.scores:
        return "not_weighed"
    with_fish = [s for s in team.scores if s.fish > 0]
    if not with_fish:
        return "no_fish"
    return "disqualified" if all(s.lost for s in with_fish) else "ranked"


def fishes_on(team: Team, teams: Sequence[Team], rules: Mapping[str, Any]) -> bool:
    """As written: "with cut_after_day = d and cut_keep = k, the entered teams whose total through day d is at
    least the k-th largest such total (no tie-breakers; equal totals at the line all go on) fish on"."""
    day = rules["cut_after_day"]
    if day is None:
        return True
    # "unless it makes the cut with the first readings ...: then the line moved after boats had gone out, the team
    # stays among those that fish on" (a team with a slip after day d)
    return makes_cut(team, teams, rules, Team.total_through) or (
        team.weighed_after(day) and makes_cut(team, teams, rules, Team.first_through)
    )


def makes_cut(team: Team, teams: Sequence[Team], rules: Mapping[str, Any], through: Any) -> bool:
    """The same sentence, on the totals that `through` gives."""
    day, keep = rules["cut_after_day"], rules["cut_keep"]
    if team.roster_status != "entered":
        return False
    totals = sorted((through(t, day) for t in teams if t.roster_status == "entered"), reverse=True)
    return bool(keep >= len(totals) or through(team, day) >= totals[keep - 1])


def may_weigh(team: Team, teams: Sequence[Team], rules: Mapping[str, Any]) -> bool:
    """Whether a slip of the team after the cut is no fault."""
    return any(makes_cut(team, teams, rules, through) for through in (Team.total_through, Team.first_through))


def tie_value(key: str, team: Team, fished_days: Sequence[int]) -> Any:
    """One key of the ties list as a value of which the smaller is ahead."""
    match key:
        case "big_fish":  # "largest value, none = 0, more is better"
            return -(team.big_fish or ZERO)
        case "live_fish":  # "alive on days not lost, more"
            return -sum(s.alive for s in team.scores if not s.lost)
        case "fish_count":  # "weighed, more"
            return -team.weighed
        case "fewest_deductions":  # "penalty, less"
            return team.penalty
        case "first_day":  # "that day's total, more; the first and last day that was not cancelled"
            return -team.day_total(fished_days[0]) if fished_days else 0
        case "last_day":
            return -team.day_total(fished_days[-1]) if fished_days else 0
        case "lot":  # "lower number first; without a number after those with one"
            return (team.lot is None, team.lot or 0)
        case _:
            raise ValueError(f"unknown tie key {key}")


def place_teams(teams: Sequence[Team], rules: Mapping[str, Any], fished_days: Sequence[int]) -> None:
    """Set status, place and tied. "Only ranked teams have a place."; "Place = 1 + number of teams ahead"."""
    for team in teams:
        team.status = status_of(team)
    keys = []
    for key in rules["ties"]:
        if key == "share":  # "stop"
            break
        keys.append(key)

    def standing(team: Team) -> tuple[Any, ...]:
        # "the rest rank below them, on that total and the ties list": those have no slip after the cut, so
        # their total is that total
        missed = not fishes_on(team, teams, rules)
        return (missed, -team.total, *(tie_value(key, team, fished_days) for key in keys))

    ranked = [team for team in teams if team.status == "ranked"]
    standings = {team.boat: standing(team) for team in ranked}
    for team in ranked:
        mine = standings[team.boat]
        team.place = 1 + sum(other < mine for other in standings.values())
        # "What is still equal is tied: tied = true, same place."
        team.tied = sum(other == mine for other in standings.values()) > 1


LIST_ORDER = ("ranked", "in_question", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn")


def list_order(teams: Sequence[Team]) -> list[Team]:
    """As written: "ranked by place, then in_question, no_fish, not_weighed, absent, disqualified, withdrawn,
    each by boat"."""
    return sorted(teams, key=lambda t: (LIST_ORDER.index(t.status), t.place or 0, t.boat))
