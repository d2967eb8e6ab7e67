"""Care practices in open data: pooled over a finished season, fixed once, and only where no livewell can be told.

How a crew kept its fish is nobody's business, while results name every boat with its fish and its dead. Whoever knows
those can ask which boats add up to a published sum. So a practice is given out only for a whole season, and only when for
each of its livewells there is another choice of livewells, with it on the other side, that adds up to the same sums of
both sides: no reckoning with subsets can then tell on which side a boat stood. As the sums never change afterwards, two
exports cannot be subtracted from one another either.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from django.utils import timezone

from weighin.mortality.queries.practices import PRACTICES, Practice
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.mortality.services.published import once

FEWEST_WELLS = 12  # livewells on each side; with fewer the attack in the tests names boats on most generated seasons
Well = tuple[int, int]  # fish, dead that are known to be its own
Row = list[str | int | bool | None]


def practice_rows(found: SeasonMortality) -> list[Row]:
    """The rows of practices.csv; none until the season is finished, ever after those of the first export."""
    if not is_finished(found):
        return []
    season = found.season
    rows: list[Row] = once(
        f"open data, practices of season {season.pk}",
        lambda: [row for practice in PRACTICES for row in _rows(practice, found.fished)],
        f"The care practices of {season} in open data are fixed: later corrections do not change them",
        season.club_id,
    )
    return rows


def is_finished(found: SeasonMortality) -> bool:
    """Whether every event of the season is past and those with fish have an official result."""
    today = timezone.now().date()
    days = [day.date for line in found.events for day in line.event.event_days.all()]
    return bool(found.fished) and found.provisional == 0 and max(days, default=today) < today


def _rows(practice: Practice, lines: Sequence[SeasonEvent]) -> Iterator[Row]:
    sides: dict[bool, list[Well]] = {True: [], False: []}
    for line in lines:
        for kind, well in sides_of(practice, line):
            sides[kind].append(well)
    if not (sides[True] or sides[False]):
        return
    told = may_be_told(sides[True], sides[False])
    for kind, words in ((True, practice.practised), (False, practice.otherwise)):
        wells = sides[kind]
        sums = [len(wells), sum(fish for fish, _ in wells), sum(dead for _, dead in wells)] if told else [None] * 3
        yield [practice.name, words, not told, *sums]


def sides_of(practice: Practice, line: SeasonEvent) -> Iterator[tuple[bool, Well]]:
    """Each livewell with fish of an event, and whether it went with the practice on every day; others are left out."""
    wells: dict[int, tuple[set[bool | None], list[int]]] = {}
    for catch in line.catches:
        if catch.fish:
            kinds, sums = wells.setdefault(catch.well, (set(), [0, 0]))
            kinds.add(practice.told(line, catch, line.notes.get((catch.day, catch.well))))
            sums[0] += catch.fish
            sums[1] += catch.named
    for kinds, (fish, dead) in wells.values():
        kind = kinds.pop() if len(kinds) == 1 else None
        if kind is not None:
            yield kind, (fish, dead)


def may_be_told(practised: Sequence[Well], otherwise: Sequence[Well]) -> bool:
    """Whether both sides are large enough, and every livewell of both could stand on the other side with the same sums."""
    if min(len(practised), len(otherwise)) < FEWEST_WELLS:
        return False
    return exchangeable(Counter(practised), Counter(otherwise))


def exchangeable(one: Counter[Well], other: Counter[Well]) -> bool:
    """Whether every livewell is part of an exchange that leaves fish, dead and number of both sides as they are.

    One livewell for one like it, or two for two with the same sums; livewells are alike when fish and dead are.
    """
    by_difference: dict[Well, list[tuple[Well, Well]]] = {}
    for a in one:
        for b in other:
            by_difference.setdefault((a[0] - b[0], a[1] - b[1]), []).append((a, b))
    free_one, free_other = set[Well](), set[Well]()
    for (fish, dead), pairs in by_difference.items():
        for a, b in pairs:
            for a2, b2 in [] if (fish, dead) == (0, 0) else by_difference.get((-fish, -dead), []):
                if (a != a2 or one[a] > 1) and (b != b2 or other[b] > 1):
                    free_one |= {a, a2}
                    free_other |= {b, b2}
            if (fish, dead) == (0, 0):
                free_one.add(a)
                free_other.add(b)
    return free_one >= set(one) and free_other >= set(other)
