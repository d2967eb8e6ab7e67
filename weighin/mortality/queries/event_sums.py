"""Fish and dead of many events, season after season or over all clubs: one line an event, fetched without its slips in memory."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby
from typing import NamedTuple

from django.db.models import QuerySet
from django.db.models.functions import Coalesce

from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled
from weighin.mortality.domain.lake import lake_of
from weighin.rules.sheet.keys import BY_NAME
from weighin.slips.models import WeighSlip
from weighin.tanks.queries.at_release import Batches, at_release, batches_of

AT_ONCE = 5000  # rows held while reading


class _Row(NamedTuple):
    """A slip's counts."""

    event_id: int
    entry_id: int
    day: int
    fish: int
    alive: int
    dead: int
    dead_at_release: int
    kept: int
    released: datetime | None


# What nobody counted adds nothing
COUNTS = ("fish", "alive", "dead", Coalesce("dead_at_release", 0), Coalesce("kept", 0), "released")


@dataclass(frozen=True)
class EventSum:
    """An event's fish: counts as in ``queries.Mortality``; ``lake_f`` the lake's mean in °F, None where nobody wrote it."""

    club: int
    season: int
    event: int
    date: date
    species: str
    presented: int
    dead: int
    kept: int
    lake_f: float | None


def event_sums(events: QuerySet[Event]) -> list[EventSum]:
    """The sums of events with fish that were not cancelled, oldest first; five queries whatever their number."""
    found = {
        event.pk: event
        for event in events.select_related("season", "rule_sheet").prefetch_related("event_days").order_by("date", "pk")
        if not is_cancelled(event)
    }
    sums = []
    batches = batches_of(events.order_by())
    for event_id, (presented, dead, kept, days) in _counts(events, batches):
        event = found.get(event_id)
        if event is None or not presented:
            continue
        lake = lake_of(event, days)
        written = str(event.rule_sheet.written.get("species") or BY_NAME["species"].default)
        sums.append(
            EventSum(
                club=event.season.club_id,
                season=event.season_id,
                event=event.pk,
                date=event.date,
                species=" ".join(written.casefold().split()),
                presented=presented,
                dead=dead,
                kept=kept,
                lake_f=lake.mean if lake else None,
            )
        )
    return sorted(sums, key=lambda one: (one.date, one.event))


def _counts(events: QuerySet[Event], batches: Batches) -> Iterator[tuple[int, tuple[int, int, int, set[int]]]]:
    """(event, (fish, dead, kept, days with fish)) from the slips that count: a doubled day counts nowhere until it is settled."""
    rows = (
        WeighSlip.objects.current()
        .filter(event__in=events.order_by().values("pk"))
        .order_by("event_id", "entry_id", "day")
        .values_list("event_id", "entry_id", "day", *COUNTS)
        .iterator(AT_ONCE)
    )
    for event_id, of_event in groupby(rows, key=lambda row: row[0]):
        by_day = [list(of_day) for _, of_day in groupby(of_event, key=lambda row: row[1:3])]
        counting = [_Row(*slips[0]) for slips in by_day if len(slips) == 1]
        added = at_release(counting, batches.get(event_id, ()))
        dead = sum(row.dead + row.dead_at_release for row in counting) + sum(one.added for one in added.values())
        days = {row.day for row in counting if row.fish}
        yield event_id, (sum(row.fish for row in counting), int(dead), sum(row.kept for row in counting), days)
