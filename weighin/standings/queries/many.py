"""Many events worked out at once: the same few queries whatever their number and size."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from weighin.checkin.models import CheckIn
from weighin.checkin.queries.arrivals import arrivals_in
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.roster.queries import reading_table
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import first_of_each
from weighin.standings.queries.standings import Standings, worked_out

Row = TypeVar("Row", Entry, CheckIn, WeighSlip)


def standings_of_many(events: Sequence[Event]) -> dict[int, Standings]:
    """As ``standings_of`` of each event, by primary key; the events bring rule sheet, days and flights with them."""
    keys = [event.pk for event in events]
    entries = _by_event(Entry.objects.filter(event__in=keys).select_related("team"))
    lines = CheckIn.objects.current().filter(event__in=keys).select_related("entry").order_by("number")
    arrivals = _by_event(lines)
    known = {entry.pk: entry for of_event in entries.values() for entry in of_event}
    slips = _by_event(
        _with_entries(WeighSlip.objects.current().filter(event__in=keys).order_by("day", "number"), known)
    )
    tables = {
        event.pk: replace(reading_table(event, entries[event.pk]), arrivals=arrivals_in(arrivals[event.pk]))
        for event in events
    }
    cuts = {pk: table.rules.cut_after_day for pk, table in tables.items() if table.rules.cut_after_day is not None}
    written = WeighSlip.objects.filter(event__in=list(cuts), void=False).order_by("number") if cuts else []
    first = _by_event(slip for slip in _with_entries(written, known) if slip.day <= (cuts[slip.event_id] or 0))
    return {
        event.pk: worked_out(
            event,
            {entry.boat: entry for entry in entries[event.pk]},
            tables[event.pk],
            sorted(slips[event.pk], key=lambda slip: (slip.day, slip.entry.boat, slip.number)),
            first_of_each(first[event.pk]),
        )
        for event in events
    }


def _with_entries(slips: Iterable[WeighSlip], known: dict[int, Entry]) -> Iterable[WeighSlip]:
    for slip in slips:
        if slip.entry_id in known:  # else it was entered since, and is read with its slip
            slip.entry = known[slip.entry_id]
        yield slip


def _by_event(rows: Iterable[Row]) -> dict[int, list[Row]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        found[row.event_id].append(row)
    return found
