"""An event while a row about it is written: held, and read beside what it is at its revision.

Whatever concerns the event raises its revision, a row of a boat too. So a context is good for one revision, and a write
that leaves rules, clock and boats as they are moves it on to the revision that the write made.
"""

import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from django.db import connection, transaction

from weighin.audit.database.statements import run
from weighin.events.domain.table import Table
from weighin.events.domain.value_faults import EVENT_IS_CLOSED
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.events.services.revision import raise_revision
from weighin.records.services.record_type import Context, End, Scope
from weighin.roster.models import Entry

_EVENT = "SELECT revision, closed_at, name FROM events_event WHERE id = %s"
MOST_KEPT = 20
MOMENT_SECONDS = 0.05  # none comes where the write was undone
_kept: dict[int, "EventContext"] = {}
_moving: dict[int, tuple[int, threading.Event]] = {}  # with the thread that moves it on


@dataclass(frozen=True, kw_only=True)
class EventContext(Table, Context):
    """An event at one revision, with its entries by boat. Shared between threads."""

    event: Event
    entries: Mapping[int, Entry]


class EventScope(Scope):
    """Rows about one event; the key is its id."""

    def lock(self, key: int) -> EventContext:
        # Written out, since every row waits for it
        found = run(_EVENT if connection.vendor == "sqlite" else f"{_EVENT} FOR UPDATE", (key,))
        if found is None:
            raise Event.DoesNotExist
        revision, closed_at, name = found
        context = _kept.get(key)
        if context is None or context.revision != revision:
            # On PostgreSQL the row is free a moment before the one who held it has moved the context on
            holder, moved = _moving.pop(key, (0, None))
            others = moved is not None and holder != threading.get_ident()  # our own comes when we end
            context = _kept.get(key) if moved is not None and others and moved.wait(MOMENT_SECONDS) else None
            if context is None or context.revision != revision:
                context = _laid(key, revision)
        closed = EVENT_IS_CLOSED.says(event=name) if closed_at is not None else None
        return context if closed == context.closed else replace(context, closed=closed)

    def changed(self, context: EventContext, stays: bool, ends: Mapping[str, End]) -> int:
        revision = raise_revision(context.event)
        if stays and revision == context.revision + 1:
            moved = threading.Event()
            _moving[context.event.pk] = (threading.get_ident(), moved)
            transaction.on_commit(_keeping(replace(context, revision=revision, ends=ends), moved))
        return revision

    def ends_at(self, revision: int, context: EventContext, ends: Mapping[str, End]) -> None:
        def move() -> None:
            kept = _kept.get(context.event.pk)
            if kept is not None and kept.revision == revision:
                _kept[context.event.pk] = replace(kept, ends={**kept.ends, **ends})

        transaction.on_commit(move)


EVENT = EventScope()


def forget() -> None:
    """Forget every context; for tests, whose databases go back in time."""
    _kept.clear()
    _moving.clear()


def _laid(event_id: int, revision: int) -> EventContext:
    event = Event.everyone.select_related("season", "season__club", "rule_sheet").get(pk=event_id)
    entries = {entry.boat: entry for entry in Entry.objects.filter(event=event)}
    return EventContext(
        revision=revision,
        closed=None,
        club_id=event.season.club_id,
        event_id=event.pk,
        calendar=calendar_of(event),
        rules=rules_of(event),
        boats={boat: entry.flight_name for boat, entry in entries.items()},
        event=event,
        entries=entries,
    )


def _keeping(context: EventContext, moved: threading.Event) -> Callable[[], None]:
    def keep() -> None:
        if len(_kept) >= MOST_KEPT:
            _kept.clear()
        _kept[context.event.pk] = context
        moved.set()

    return keep
