"""What the scale table needs of an event between two slips, kept in the process as long as nothing else was written.

Whatever concerns the event raises its revision, a slip too. So a desk is good for one revision, and whoever keeps
a slip moves it on to the revision that the slip made: rules, clock and boats are the same as before it.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from django.db import connection, transaction

from weighin.audit.database.statements import run
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.records.domain.table import Table


def reading_table(event: Event, entries: Iterable[Any] | None = None) -> Table:
    """As ``table_of`` without the check-in table's lines: enough to read slips, not to score them."""
    boats = {entry.boat: entry.flight_name for entry in (event.entries.all() if entries is None else entries)}
    return Table(calendar_of(event), rules_of(event), boats)


_EVENT = "SELECT revision, closed_at IS NOT NULL FROM events_event WHERE id = %s"
_EVENT_HELD = _EVENT + " FOR UPDATE"


def lock_event(event_id: int) -> tuple[int, bool]:
    """The event's revision and whether it is closed; its row is held until the transaction ends."""
    revision, closed = run(_EVENT if connection.vendor == "sqlite" else _EVENT_HELD, (event_id,))
    return revision, bool(closed)


_desks: dict[int, "Desk"] = {}
MOST_DESKS = 20


@dataclass
class Desk:
    """An event at one revision: its table and its entries by boat. Shared between threads: never changed."""

    event: Event
    table: Table
    entries: dict[int, Any]
    revision: int


def desk_of(event_id: int) -> tuple[Desk, bool]:
    """The event's desk as it is now, and whether the event is closed; call inside ``writing``: the event's row is locked."""
    revision, closed = lock_event(event_id)
    desk = _desks.get(event_id)
    if desk is None or desk.revision != revision:
        desk = _laid(event_id, revision)
    return desk, closed


def moved_on(desk: Desk, revision: int) -> None:
    """Keep the desk for ``revision``, made by what was written just now, once that is safely kept."""
    transaction.on_commit(_keeping(Desk(desk.event, desk.table, desk.entries, revision)))


def forget() -> None:
    """Forget every desk; for tests, whose databases go back in time."""
    _desks.clear()


def _laid(event_id: int, revision: int) -> Desk:
    event = Event.objects.select_related("season", "season__club", "rule_sheet").get(pk=event_id)
    entries = list(event.entries.all())
    return Desk(event, reading_table(event, entries), {entry.boat: entry for entry in entries}, revision)


def _keeping(desk: Desk) -> Callable[[], None]:
    def keep() -> None:
        if len(_desks) >= MOST_DESKS:
            _desks.clear()
        _desks[desk.event.pk] = desk

    return keep
