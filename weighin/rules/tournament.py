"""A whole event from plain values: every slip scored, every team ranked, paid and given its points."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from weighin.rules.payouts import Purse, split
from weighin.rules.points import event_points
from weighin.rules.ranking import Ranked, rank
from weighin.rules.results import DayResult, Team, TeamResult, team_result
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import score
from weighin.rules.slips import Slip


@dataclass(frozen=True)
class DaySlip:
    """A current slip: whose it is, which day, and what the table saw."""

    boat: int
    day: int
    slip: Slip


@dataclass(frozen=True)
class Outcome:
    """The event's result: the list in its order, the purse, and points by boat."""

    ranked: tuple[Ranked, ...]
    purse: Purse
    points: dict[int, Decimal]


def run(
    rulebook: Rulebook,
    teams: Iterable[Team],
    slips: Iterable[DaySlip],
    fished_days: Sequence[int] = (1,),
    entry_fee: Decimal = Decimal(0),
    added_money: Decimal = Decimal(0),
) -> Outcome:
    """Work out an event. ``slips`` are all current slips in any order; two for one boat and day put the team in question.

    Raises Faults for a slip that cannot be scored. The outcome never depends on the order of teams or slips.
    """
    ranked = tuple(rank(rulebook, team_results(rulebook, teams, slips), fished_days))
    return Outcome(ranked, split(rulebook, ranked, entry_fee, added_money), event_points(rulebook, ranked))


def team_results(rulebook: Rulebook, teams: Iterable[Team], slips: Iterable[DaySlip]) -> list[TeamResult]:
    """Every team's sums and status; of two slips for one boat and day neither counts."""
    days: dict[int, dict[int, list[Slip]]] = defaultdict(lambda: defaultdict(list))
    for entry in slips:
        days[entry.boat][entry.day].append(entry.slip)
    results = []
    for team in teams:
        mine = days.get(team.boat, {})
        scored = [DayResult(day, found[0], score(rulebook, found[0])) for day, found in mine.items() if len(found) == 1]
        results.append(team_result(team, scored, in_question=any(len(found) > 1 for found in mine.values())))
    return results
