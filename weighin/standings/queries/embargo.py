"""What the crowd may see: everything, or the places as they were at a moment."""

from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.core.cache import cache
from django.utils import timezone

from weighin.events.models import Event
from weighin.standings.models import Holdback

KEPT_SECONDS = 60 * 60


def latest_embargo(event: Event) -> Holdback | None:
    """The word by which places are held back, from now or from a moment to come; None where all may be seen."""
    last = Holdback.objects.filter(event=event).order_by("-id").first()
    return last if last is not None and last.since is not None else None


def embargo_start(event: Event, now: datetime | None = None) -> datetime | None:
    """The moment whose places the crowd sees; None while it sees everything, also before that moment has come."""
    since = _since(event)
    return since if since is not None and since <= (now or timezone.now()) else None


def _since(event: Event) -> datetime | None:
    """What the last word says, asked of the database once a revision: every word raises it."""
    key = f"held-back:{event.pk}:{event.revision}"
    kept = cache.get(key)
    if kept is None:
        told = latest_embargo(event)
        kept = (told.since if told is not None else None,)
        cache.set(key, kept, KEPT_SECONDS)
    since: datetime | None = kept[0]
    return since


def moment_of(event: Event, clock: time | None) -> datetime:
    """The moment nearest to now at which the event's clock shows this time, since a night has two dates; without one, now."""
    now = timezone.now()
    if clock is None:
        return now
    zone = ZoneInfo(event.time_zone)
    today = now.astimezone(zone).date()
    near = [datetime.combine(today + timedelta(days=days), clock, zone) for days in (-1, 0, 1)]
    return min(near, key=lambda moment: abs(moment - now))
