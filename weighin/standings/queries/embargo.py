"""What the crowd may see: everything, or the places as they were at a moment."""

from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.utils import timezone

from weighin.events.models import Event
from weighin.standings.models import Holdback


def latest_embargo(event: Event) -> Holdback | None:
    """The word by which places are held back, from now or from a moment to come; None where all may be seen."""
    last = Holdback.objects.filter(event=event).order_by("-id").first()
    return last if last is not None and last.since is not None else None


def embargo_start(event: Event, now: datetime | None = None) -> datetime | None:
    """The moment whose places the crowd sees; None while it sees everything, also before that moment has come."""
    told = latest_embargo(event)
    return told.since if told is not None and told.since is not None and told.since <= (now or timezone.now()) else None


def moment_of(event: Event, clock: time | None) -> datetime:
    """The moment nearest to now at which the event's clock shows this time, since a night has two dates; without one, now."""
    now = timezone.now()
    if clock is None:
        return now
    zone = ZoneInfo(event.time_zone)
    today = now.astimezone(zone).date()
    near = [datetime.combine(today + timedelta(days=days), clock, zone) for days in (-1, 0, 1)]
    return min(near, key=lambda moment: abs(moment - now))
