"""What the scale table needs of an event between two slips, kept in the process as long as nothing else was written.

Whatever concerns the event raises its revision, a slip too. So a desk is good for one revision, and whoever keeps
a slip moves it on to the revision that the slip made: rules, clock and boats are the same as before it.
"""

from collections.abc import Callable
from dataclasses import dataclass

from django.db import transaction

from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.scale.queries import reading_table
from weighin.scale.reading import Table
from weighin.scale.statements import lock_event

_desks: dict[int, "Desk"] = {}
MOST_DESKS = 20


@dataclass
class Desk:
    """An event at one revision: its table and its entries by boat. Shared between threads: never changed."""

    event: Event
    table: Table
    entries: dict[int, Entry]
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
