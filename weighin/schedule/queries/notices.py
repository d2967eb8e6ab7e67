"""What teams were told about an event: cancelled, postponed, or taking place after all."""

from collections.abc import Iterable

from weighin.events.models import Event
from weighin.schedule.domain.words import said_of
from weighin.schedule.models import Notice


def last_notices(events: Iterable[int]) -> dict[int, Notice]:
    """The last notice of each event (primary keys) that has one; one query."""
    return {notice.event_id: notice for notice in Notice.objects.filter(event__in=list(events)).order_by("id")}


def standing_notice(event: Event) -> Notice | None:
    """The last notice of an event while it says more than that it takes place; None else."""
    notice = last_notices([event.pk]).get(event.pk)
    return None if notice is None or notice.kind == Notice.Kind.TAKES_PLACE else notice


def waits_for_date(notice: Notice | None) -> bool:
    """Whether an event is postponed and its new date is not known yet."""
    return notice is not None and notice.kind == Notice.Kind.POSTPONED and notice.to is None


def told_of(event: Event) -> str:
    """The sentence of the notice that stands; empty while the event takes place."""
    notice = standing_notice(event)
    return said_of(event, notice) if notice else ""
