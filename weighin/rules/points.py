"""Points for an event, and the season's sum of the best events."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import groupby

from weighin.rules import weights
from weighin.rules.ranking import Ranked
from weighin.rules.rulebook import Rulebook

ZERO = Decimal(0)


def event_points(rulebook: Rulebook, ranked: Sequence[Ranked]) -> dict[int, Decimal]:
    """Points of every boat at one event, from the whole list of ``rank``.

    Additions (whole pounds of total, kilograms converted exactly; the largest counting big fish) go to ranked teams only.
    """
    placed = {r.result.team.boat: for_place(rulebook, r.place) for r in ranked if r.place is not None}
    least = min(placed.values(), default=rulebook.points_floor)
    largest = max(
        (r.result.big_fish for r in ranked if r.place is not None and r.result.big_fish is not None),
        default=None,
    )
    points = {}
    for row in ranked:
        boat, result = row.result.team.boat, row.result
        if boat in placed:
            points[boat] = placed[boat] + rulebook.points_per_pound * weights.whole_pounds(result.total, rulebook.unit)
            if largest is not None and result.big_fish == largest:
                points[boat] += rulebook.points_big_fish
        elif result.status == "no_fish":
            points[boat] = least if rulebook.points_no_fish is None else rulebook.points_no_fish
        elif result.status == "not_weighed":
            points[boat] = rulebook.points_not_weighed
        elif result.status == "absent" and rulebook.points_absent_below_last is not None:
            points[boat] = max(ZERO, least - rulebook.points_absent_below_last)
        else:
            points[boat] = ZERO
    return points


def for_place(rulebook: Rulebook, place: int) -> Decimal:
    """Points of a place before additions: from the table, beyond its end a step less a place, never below the floor."""
    table = rulebook.points_table
    if table is None:
        points = rulebook.points_first - (place - 1) * rulebook.points_step
    elif place <= len(table):
        points = table[place - 1]
    else:
        points = table[-1] - (place - len(table)) * rulebook.points_step
    return max(points, rulebook.points_floor)


@dataclass(frozen=True)
class Appearance:
    """A team at one event of the season: its points, status, total (in pounds) and largest counting big fish."""

    event: str
    points: Decimal
    status: str
    total: Decimal
    big_fish: Decimal | None
    place: int | None = None


@dataclass(frozen=True)
class SeasonRow:
    """A team over the season: the events counted, the points they make, and its place.

    ``best_possible`` is what it comes to with every event still to come won, ``in_reach`` whether no other team has more
    than that already; both None where what a win gives depends on fish.
    """

    team: str
    place: int
    tied: bool
    points: Decimal
    counted: tuple[Appearance, ...]
    dropped: tuple[Appearance, ...]
    big_fish: Decimal | None
    total_weight: Decimal
    best_possible: Decimal | None = None
    in_reach: bool | None = None


def season_points(
    rulebook: Rulebook, teams: Mapping[str, Sequence[Appearance]], to_come: Sequence[Decimal] | None = ()
) -> list[SeasonRow]:
    """The season's list: the sum of each team's best ``count_best`` events, ties by ``season_ties``, then shared.

    ``teams`` have their events oldest first: of equal results the later is dropped. An event a team was disqualified in
    is one of those counted and cannot be dropped. Weights of all events must be in one unit. Cancelled events are left
    out by the caller. ``to_come`` is what first place of each event still to come gets, None where it cannot be said.
    """
    sums = [_sum(rulebook, team, appearances) for team, appearances in teams.items()]
    if to_come is not None:
        sums = _in_reach(rulebook, sums, teams, to_come)

    def standing(row: SeasonRow) -> tuple[Decimal, ...]:
        known = {"big_fish": -(row.big_fish or ZERO), "total_weight": -row.total_weight}
        return (-row.points, *(known[tie] for tie in rulebook.season_ties if tie != "share"))

    sums.sort(key=lambda row: (standing(row), row.team.casefold()))
    rows: list[SeasonRow] = []
    for _, group in groupby(sums, key=standing):
        together = list(group)
        place = len(rows) + 1
        for row in together:
            rows.append(replace(row, place=place, tied=len(together) > 1))
    return rows


def _sum(rulebook: Rulebook, team: str, appearances: Sequence[Appearance]) -> SeasonRow:
    fixed = [a for a in appearances if a.status == "disqualified"]
    others = sorted((a for a in appearances if a.status != "disqualified"), key=lambda a: -a.points)
    room = _room(rulebook, len(fixed), len(others))
    counted = (*others[:room], *fixed)
    fish = [a.big_fish for a in appearances if a.big_fish is not None]
    return SeasonRow(
        team=team,
        place=0,
        tied=False,
        points=sum((a.points for a in counted), ZERO),
        counted=counted,
        dropped=tuple(others[room:]),
        big_fish=max(fish) if fish else None,
        total_weight=sum((a.total for a in appearances), ZERO),
    )


def _room(rulebook: Rulebook, fixed: int, others: int) -> int:
    """How many results count beside those that cannot be dropped."""
    return others if rulebook.count_best is None else max(0, rulebook.count_best - fixed)


def _in_reach(
    rulebook: Rulebook,
    rows: Sequence[SeasonRow],
    teams: Mapping[str, Sequence[Appearance]],
    to_come: Sequence[Decimal],
) -> list[SeasonRow]:
    """The rows with what each team can come to at best, and whether that is no less than any other has.

    No event gives less than 0, so a team has with nothing in all to come what it has now.
    """
    most = sorted((row.points for row in rows), reverse=True)
    found = []
    for row in rows:
        fixed = [a.points for a in teams[row.team] if a.status == "disqualified"]
        others = [a.points for a in teams[row.team] if a.status != "disqualified"]
        results = sorted([*others, *to_come], reverse=True)
        best = sum(results[: _room(rulebook, len(fixed), len(results))], sum(fixed, ZERO))
        besides = most[1:2] if row.points == most[0] else most[:1]
        found.append(replace(row, best_possible=best, in_reach=all(best >= other for other in besides)))
    return found
