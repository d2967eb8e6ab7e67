"""Places: by total, through the tie-breakers, the cut first."""

from collections.abc import Callable, Iterable, Sequence, Set
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby

from weighin.rules.results import ENTERED, STATUSES, TeamResult
from weighin.rules.rulebook import Rulebook

NO_LOT = 10**12


@dataclass(frozen=True)
class Ranked:
    """A team's result with its place.

    ``place`` is None for teams that are not ranked; ``tied`` when the place is shared; ``decided_by`` names the
    tie-breaker that separated it from teams with the same total, or is None; ``made_cut`` is False for a team the
    cut left out and None without a cut.
    """

    result: TeamResult
    place: int | None
    tied: bool
    decided_by: str | None = None
    made_cut: bool | None = None


def rank(
    rulebook: Rulebook, results: Iterable[TeamResult], fished_days: Sequence[int] = (1,), stays: Set[int] = frozenset()
) -> list[Ranked]:
    """Every team in the order of the list: ranked teams by place, then the other statuses, each by boat.

    ``fished_days`` are the numbers of the days that were not cancelled, in order; the first and last of them
    serve the ties ``first_day`` and ``last_day``. ``stays`` are boats that fish on although the line of the cut moved
    over them after they had gone out. Place = 1 + number of teams ahead (1, 2, 2, 4).
    """
    everyone = list(results)
    kept = kept_by_cut(rulebook, everyone)
    kept = None if kept is None else kept | stays
    keys = tie_values(rulebook, fished_days)

    def standing(result: TeamResult) -> tuple[object, ...]:
        missed = kept is not None and result.team.boat not in kept
        return (missed, -result.total, *(value(result) for _, value in keys))

    ranked = sorted(
        ((standing(r), r) for r in everyone if r.status == "ranked"), key=lambda row: (row[0], row[1].team.boat)
    )
    level = {key: [values for values, _ in group] for key, group in groupby(ranked, key=lambda row: row[0][:2])}
    placed: list[Ranked] = []
    for values, group in groupby(ranked, key=lambda row: row[0]):
        together = [result for _, result in group]
        place = len(placed) + 1
        peers = level[values[:2]]
        for result in together:
            placed.append(
                Ranked(
                    result=result,
                    place=place,
                    tied=len(together) > 1,
                    decided_by=_decided_by(values, peers, [name for name, _ in keys]),
                    made_cut=None if kept is None else result.team.boat in kept,
                )
            )
    for status in STATUSES[1:]:
        rest = sorted((r for r in everyone if r.status == status), key=lambda r: r.team.boat)
        placed.extend(Ranked(r, None, False, None, None if kept is None else r.team.boat in kept) for r in rest)
    return placed


def kept_by_cut(rulebook: Rulebook, results: Iterable[TeamResult]) -> frozenset[int] | None:
    """Boats of the entered teams that fish on after the cut; None without a cut.

    A team goes on whose total through the cut's day is at least the cut_keep-th largest; no tie-breakers.
    """
    if rulebook.cut_after_day is None or rulebook.cut_keep is None:
        return None
    day = rulebook.cut_after_day
    totals = {r.team.boat: r.total_through(day) for r in results if r.team.status == ENTERED}
    if len(totals) <= rulebook.cut_keep:
        return frozenset(totals)
    line = sorted(totals.values(), reverse=True)[rulebook.cut_keep - 1]
    return frozenset(boat for boat, total in totals.items() if total >= line)


def tie_values(
    rulebook: Rulebook, fished_days: Sequence[int]
) -> list[tuple[str, Callable[[TeamResult], Decimal | int]]]:
    """The tie-breakers in their order, each with the figure it compares (smaller is ahead)."""
    first, last = (fished_days[0], fished_days[-1]) if fished_days else (0, 0)
    known: dict[str, Callable[[TeamResult], Decimal | int]] = {
        "big_fish": lambda r: -(r.big_fish or Decimal(0)),
        "live_fish": lambda r: -r.alive_counting,
        "fish_count": lambda r: -r.weighed,
        "fewest_deductions": lambda r: r.penalty,
        "first_day": lambda r: -r.total_of(first),
        "last_day": lambda r: -r.total_of(last),
        "lot": lambda r: NO_LOT if r.team.lot is None else r.team.lot,
    }
    return [(name, known[name]) for name in rulebook.ties if name != "share"]


def _decided_by(values: tuple[object, ...], peers: list[tuple[object, ...]], names: list[str]) -> str | None:
    """The first tie-breaker on which this team differs from a team with the same total."""
    for position, name in enumerate(names, start=2):
        if any(peer[position] != values[position] for peer in peers):
            return name
        peers = [peer for peer in peers if peer[position] == values[position]]
    return None
