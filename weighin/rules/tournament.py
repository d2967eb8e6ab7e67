"""A whole event from plain values: every slip scored, every team ranked, paid and given its points."""

from collections import defaultdict
from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass
from decimal import Decimal

from weighin.rules.payouts import Purse, split
from weighin.rules.points import event_points
from weighin.rules.ranking import Ranked, kept_by_cut, rank
from weighin.rules.results import DayResult, Team, TeamResult, team_result
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import faults, score
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
    first: Iterable[DaySlip] | None = None,
) -> Outcome:
    """Work out an event. ``slips`` are all current slips in any order; two for one boat and day put the team in question.
    ``first`` are the first readings of the days up to the cut, where they may differ from those.

    Raises Faults for a slip that cannot be scored. The outcome never depends on the order of teams or slips.
    """
    everyone, current = list(teams), list(slips)
    results = team_results(rulebook, everyone, current)
    stays = fish_on(rulebook, everyone, current, first) & _after_the_cut(rulebook, current)
    ranked = tuple(rank(rulebook, results, fished_days, stays))
    return Outcome(ranked, split(rulebook, ranked, entry_fee, added_money), event_points(rulebook, ranked))


def team_results(rulebook: Rulebook, teams: Iterable[Team], slips: Iterable[DaySlip]) -> list[TeamResult]:
    """Every team's sums and status; of two slips for one boat and day neither counts, and the cut takes the larger."""
    days: dict[int, dict[int, list[Slip]]] = defaultdict(lambda: defaultdict(list))
    for entry in slips:
        days[entry.boat][entry.day].append(entry.slip)
    results = []
    for team in teams:
        mine = days.get(team.boat, {})
        scored = [DayResult(day, found[0], score(rulebook, found[0])) for day, found in mine.items() if len(found) == 1]
        larger = {
            day: max(score(rulebook, slip).total for slip in found) for day, found in mine.items() if len(found) > 1
        }
        results.append(team_result(team, scored, larger))
    return results


def fish_on(
    rulebook: Rulebook, teams: Iterable[Team], slips: Iterable[DaySlip], first: Iterable[DaySlip] | None = None
) -> Set[int]:
    """Boats that may have slips after the cut: they make it as the slips stand, or with the first readings.

    ``first`` are the slips of the lowest number of each boat and day up to the cut, whatever became of them: when a
    later correction, void or second slip moves the line, boats have gone out already. A first reading that due times
    moved since have left without what its score needs gives way to what stands of that boat and day. Empty without a cut.
    """
    if rulebook.cut_after_day is None:
        return frozenset()
    everyone, current = list(teams), list(slips)
    readings = [current] if first is None else [current, _scorable(rulebook, first, current)]
    kept = (kept_by_cut(rulebook, team_results(rulebook, everyone, found)) for found in readings)
    return frozenset().union(*(boats or () for boats in kept))


def _scorable(rulebook: Rulebook, first: Iterable[DaySlip], current: Iterable[DaySlip]) -> list[DaySlip]:
    found = list(first)
    unsound = {(entry.boat, entry.day) for entry in found if faults(rulebook, entry.slip)}
    return [entry for entry in found if (entry.boat, entry.day) not in unsound] + [
        entry for entry in current if (entry.boat, entry.day) in unsound
    ]


def _after_the_cut(rulebook: Rulebook, slips: Iterable[DaySlip]) -> Set[int]:
    day = rulebook.cut_after_day
    return frozenset(slip.boat for slip in slips if day is not None and slip.day > day)
