"""Boats in a line: an event without slips, check-ins, and words said in the line."""

import uuid
from datetime import datetime
from typing import Any

import world
from django.db.models import Max

from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.line.models import LineWord
from weighin.line.services.words import say
from weighin.roster.models import Entry
from weighin.slips.services.slips import record_slip


def checked_in(event: Event, boat: int, at: datetime, **values: Any) -> CheckIn:
    """Boat ``boat`` came to the check-in table."""
    number = (CheckIn.objects.filter(event=event).aggregate(most=Max("number"))["most"] or 0) + 1
    entry = Entry.objects.get(event=event, boat=boat)
    line = CheckIn(
        event=event, entry=entry, number=number, day=1, checked_in=at, received_at=at, recorded_by="ramp", **values
    )
    line.save()
    return line


def said(event: Event, word: str, boat: int | None = None, by: str = "anna", **more: Any) -> LineWord:
    """Say something in the line of day 1, with an id of its own."""
    return say(event, 1, word, by, word_id=more.pop("word_id", uuid.uuid4()), boat=boat, **more)


def weighed(event: Event, boat: int, at: datetime, **more: str) -> Any:
    """Keep a slip of seven live fish."""
    return record_slip(event, world.slip(boat=str(boat), weighed=at.isoformat(), **more), "scales")
