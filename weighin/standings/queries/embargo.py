"""What the crowd may see: everything, or the places as they were at a moment."""

from collections.abc import Iterable
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Max, Min
from django.utils import timezone

from weighin.audit.models import HistoryEntry
from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.records.models import Since
from weighin.slips.models import WeighSlip
from weighin.standings.models import Holdback


def latest_embargo(event: Event) -> Holdback | None:
    """The word by which places are held back, from now or from a moment to come; None where all may be seen."""
    last = Holdback.objects.filter(event=event).order_by("-id").first()
    return last if last is not None and last.since is not None else None


def embargo_start(event: Event, now: datetime | None = None) -> Since | None:
    """The moment whose places the crowd sees; None while it sees everything, also before that moment has come."""
    told = latest_embargo(event)
    if told is None or told.since is None or not has_begun(event.pk, told.since, told.ends is not None, now):
        return None
    return Since.of(told.since, ends_at(event, told.since) if told.ends is None else told.ends)


def held_events(events: Iterable[int]) -> set[int]:
    """Those of the events (primary keys) whose places the crowd sees as they were at a moment; one query without any."""
    last = {hold.event_id: hold for hold in Holdback.objects.filter(event__in=list(events)).order_by("id")}
    return {
        pk for pk, hold in last.items() if hold.since is not None and has_begun(pk, hold.since, hold.ends is not None)
    }


def has_begun(event_id: int, since: datetime, said_after: bool, now: datetime | None = None) -> bool:
    """Whether a hold's moment has come; it stays so when the clock goes back, once a slip came after it."""
    if said_after or since <= (now or timezone.now()):
        return True
    return WeighSlip.objects.filter(event=event_id, received_at__gt=since).exists()


def ends_at(event: Event, since: datetime | None = None) -> dict[str, int]:
    """The last places of the event's rows now; with ``since`` those before the first that came after it, by kind."""
    found: dict[str, int] = {}
    for rows, place, clock in (
        (WeighSlip.objects.filter(event=event), "position", "received_at"),
        (CheckIn.objects.filter(event=event), "number", "received_at"),
        (HistoryEntry.objects.filter(event_id=event.pk), "id", "at"),
    ):
        if since is None:
            end = rows.aggregate(end=Max(place))["end"] or 0
        else:
            first = rows.filter(**{f"{clock}__gt": since}).aggregate(first=Min(place))["first"]
            end = None if first is None else first - 1
        if end is not None:
            found[rows.model._meta.label] = end
    return found


def moment_of(event: Event, clock: time | None) -> datetime:
    """The moment nearest to now at which the event's clock shows this time, since a night has two dates; without one, now."""
    now = timezone.now()
    if clock is None:
        return now
    zone = ZoneInfo(event.time_zone)
    today = now.astimezone(zone).date()
    near = [datetime.combine(today + timedelta(days=days), clock, zone) for days in (-1, 0, 1)]
    return min(near, key=lambda moment: abs(moment - now))
