"""What a tablet has not had yet: rows are only added, so the last numbers it had say which those are."""

import json
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any

from django.db.models import Count, Max

from weighin.audit.database.life import database_life
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.records.domain.messages import Sender
from weighin.stations.queries.document import (
    NEEDED_TO,
    ROWS,
    called_boats,
    current_rows,
    event_head,
    event_now,
    species_bounds,
)

_BEGAN = datetime.fromtimestamp(0, UTC)


@dataclass(frozen=True)
class Cursor:
    """How far a tablet's copy goes: of which event and life, the head it has, the last number of each kind of row,
    and of the line how many words until when.
    """

    head: str
    numbers: tuple[int, ...]
    words: int
    until: datetime

    def __str__(self) -> str:
        told = (self.until - _BEGAN) // timedelta(microseconds=1)
        return ".".join(map(str, (self.head, *self.numbers, self.words, told)))

    @classmethod
    def read(cls, text: str) -> "Cursor | None":
        """The cursor that ``text`` writes; None when it writes none."""
        head, *rest = text.split(".")
        if len(rest) != len(ROWS) + 2 or not all(one.isascii() and one.isdigit() and len(one) < 17 for one in rest):
            return None
        *numbers, words, told = map(int, rest)
        return cls(head, tuple(numbers), words, _BEGAN + timedelta(microseconds=told))


def tablet_changes(event: Event, sender: Sender, sees: frozenset[str], since: str) -> dict[str, Any]:
    """The document with its ``cursor``; or, for a tablet whose cursor is ``since``, what was added, the ids that are ``gone``,
    and the boats ``recalled`` of which ``called`` tells anew (null: of all).

    A copy of another head (roster, rule sheet, days; another event or life of the database) gets the whole: those are
    what a row is told beside.
    """
    calendar = calendar_of(event)
    head = {
        **event_head(event, calendar),
        "believable": species_bounds(event),
    }
    named = json.dumps([event.pk, database_life(), sorted(sees), head], sort_keys=True).encode()
    had = Cursor.read(since)
    # Before the rows are read: one that is written meanwhile is told again, and known by its id
    now = _cursor(event, sha256(named).hexdigest()[:16])
    said = {**event_now(event, sender, calendar), "cursor": str(now)}
    if had is None or had.head != now.head:
        return {**head, **said, **current_rows(event, calendar, sees), "called": called_boats(event, calendar.zone)}
    return {**said, **_rows_since(event, calendar, had, sees), **_called_since(event, calendar, had, now)}


def _cursor(event: Event, head: str) -> Cursor:
    last = [record.model.objects.filter(event=event).aggregate(n=Max("number"))["n"] or 0 for record in ROWS.values()]
    line = event.line_words.aggregate(words=Count("id"), until=Max("at"))
    return Cursor(head, tuple(last), line["words"], line["until"] or _BEGAN)


def _rows_since(event: Event, calendar: Calendar, had: Cursor, sees: frozenset[str]) -> dict[str, Any]:
    """Of each kind the current rows of those that were added, and under ``gone`` the ids of those that they replace."""
    table = Table(calendar, rules_of(event), {})
    said: dict[str, Any] = {"gone": {}}
    for (name, record), number in zip(ROWS.items(), had.numbers, strict=True):
        if not NEEDED_TO[name] & sees:
            said[name] = said["gone"][name] = []
            continue
        added = record.model.objects.filter(event=event, number__gt=number).order_by("number")
        rows = list(added.select_related("entry", "replaces", "replaced_by"))
        said[name] = [
            record.as_sent(row, table) for row in rows if not row.void and getattr(row, "replaced_by", None) is None
        ]
        said["gone"][name] = [str(row.replaces_id) for row in rows if row.replaces_id]
    return said


def _called_since(event: Event, calendar: Calendar, had: Cursor, now: Cursor) -> dict[str, Any]:
    """The boats called of which something was said, none where nothing was; all where the clock went back meanwhile."""
    said = event.line_words.filter(at__gt=had.until)
    if said.count() != now.words - had.words:
        return {"called": called_boats(event, calendar.zone), "recalled": None}
    boats = set(said.filter(entry__isnull=False).values_list("entry__boat", flat=True))
    return {"called": called_boats(event, calendar.zone, boats) if boats else [], "recalled": sorted(boats)}
