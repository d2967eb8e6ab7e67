"""What the crowd may see: everything, or the places as they were at a moment."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

from django.utils import timezone

from weighin.events.models import Event
from weighin.standings.models import Holdback


def told_holdback(event: Event) -> Holdback | None:
    """The word by which places are held back, from now or from a moment to come; None where all may be seen."""
    last = Holdback.objects.filter(event=event).order_by("-id").first()
    return last if last is not None and last.since is not None else None


def held_since(event: Event, now: datetime | None = None) -> datetime | None:
    """The moment whose places the crowd sees; None while it sees everything, also before that moment has come."""
    told = told_holdback(event)
    since = None if told is None else told.since
    return since if since is not None and since <= (now or timezone.now()) else None


def moment_of(event: Event, clock: time | None) -> datetime:
    """A time of today where the event is held; without one, now."""
    now = timezone.now()
    if clock is None:
        return now
    return datetime.combine(now.astimezone(ZoneInfo(event.time_zone)).date(), clock, ZoneInfo(event.time_zone))
