"""Fish and dead of many events, season after season or over all clubs: one line an event, fetched without its slips in memory."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from django.db.models import QuerySet

from weighin.events.models import Event
from weighin.events.queries import is_cancelled
from weighin.mortality.lake import lake_of
from weighin.rules.keys import BY_NAME
from weighin.scale.models import WeighSlip

AT_ONCE = 5000  # rows held while reading


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
    """The sums of events with fish that were not cancelled, oldest first; three queries whatever their number."""
    found = {
        event.pk: event
        for event in events.select_related("season", "rule_sheet").prefetch_related("event_days").order_by("date", "pk")
        if not is_cancelled(event)
    }
    sums = []
    for event_id, (presented, dead, kept, days) in _counts(events):
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


def _counts(events: QuerySet[Event]) -> Iterator[tuple[int, tuple[int, int, int, set[int]]]]:
    """(event, (fish, dead, kept, days with fish)) from the slips that count: a doubled day counts nowhere until it is settled."""
    rows = (
        WeighSlip.objects.current()
        .filter(event__in=events.order_by().values("pk"))
        .order_by("event_id", "entry_id", "day")
        .values_list("event_id", "entry_id", "day", "fish", "dead", "dead_at_release", "kept")
        .iterator(AT_ONCE)
    )
    for event_id, of_event in groupby(rows, key=lambda row: row[0]):
        presented = dead = kept = 0
        days: set[int] = set()
        for (_, day), of_day in groupby(of_event, key=lambda row: row[1:3]):
            slips = list(of_day)
            if len(slips) > 1:
                continue
            *_, fish, at_table, at_release, not_released = slips[0]
            presented, dead, kept = presented + fish, dead + at_table + at_release, kept + not_released
            if fish:
                days.add(day)
        yield event_id, (presented, dead, kept, days)
