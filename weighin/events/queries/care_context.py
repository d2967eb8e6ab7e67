"""What the pages of an event's tanks, releases and studies must know of it: its days, rules, water and the time now."""

from collections.abc import Iterable
from datetime import datetime

from django.utils import timezone

from weighin.events.domain.care_context import CareContext
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, lake_temperatures, rules_of
from weighin.rules import values


def care_context_of(event: Event, now: datetime | None = None) -> CareContext:
    """The scene of an event, in three queries."""
    return CareContext(
        event=event,
        calendar=calendar_of(event),
        rules=rules_of(event),
        lakes=lake_temperatures(event),
        elevation_ft=elevation_of(event),
        now=now or timezone.now(),
    )


def elevation_of(event: Event) -> float | None:
    """The lake's elevation in ft: the event's, else its water's, else None."""
    written: Iterable[str] = (event.elevation_ft, str(event.water.elevation_ft or ""))
    for text in written:
        try:
            return float(values.decimal(text, least=-1500, most=18_000))
        except ValueError:
            continue
    return None
