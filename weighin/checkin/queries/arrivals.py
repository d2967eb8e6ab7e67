"""The current check-ins of an event, and what they say of each boat's coming in."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from django.db.models import QuerySet

from weighin.checkin.domain.arrival import Arrival, arrival_of
from weighin.checkin.models import CheckIn
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.roster.queries import reading_table


def table_of(event: Event, entries: Iterable[Entry] | None = None, as_of: datetime | None = None) -> Table:
    """What the scale table must know of the event to read and score its slips; ``as_of`` as for ``current_slips``."""
    return replace(reading_table(event, entries, as_of), arrivals=arrivals_of(event, as_of))


def arrivals_of(event: Event, as_of: datetime | None = None) -> dict[tuple[int, int], Arrival]:
    """What the check-in table says of each (boat, day) by its current lines; the one place that finds it for a slip."""
    return arrivals_in(current_checkins(event, as_of))


def arrivals_in(lines: Iterable[CheckIn]) -> dict[tuple[int, int], Arrival]:
    """As ``arrivals_of``, of one event's current lines in the order in which they were written."""
    kept: dict[tuple[int, int], list[CheckIn]] = {}
    for line in lines:
        kept.setdefault((line.entry.boat, line.day), []).append(line)
    found = {(boat, day): arrival_of(day, mine) for (boat, day), mine in kept.items()}
    return {key: arrival for key, arrival in found.items() if arrival is not None}


def current_checkins(event: Event, as_of: datetime | None = None) -> QuerySet[CheckIn]:
    """The check-ins that nothing replaces and that are no voids, in the order in which they were written."""
    lines = CheckIn.objects.current() if as_of is None else CheckIn.objects.current_at(as_of)
    return lines.filter(event=event).select_related("entry").order_by("number")
