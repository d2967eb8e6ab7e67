"""The calendar of a club as anyone may have it: name, water, days, times and state of every event."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Max

from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.models import Event, EventDay
from weighin.events.queries.events import club_events
from weighin.events.queries.states import Stage, State
from weighin.schedule.domain.hours import Hours, hours_of
from weighin.schedule.models import Notice
from weighin.schedule.queries.notices import last_notices, waits_for_date
from weighin.schedule.queries.states import states_of


@dataclass(frozen=True)
class Dated:
    """An event of the calendar with its state and days. ``notice`` is its last, ``written_at`` when anything of it was
    written last, where either is known."""

    event: Event
    state: State
    days: Sequence[EventDay]
    notice: Notice | None
    written_at: datetime | None

    def hours(self, day: EventDay) -> Hours:
        """The start and due time of a day of the event."""
        return hours_of(self.event, day)

    def is_off(self, day: EventDay) -> bool:
        """Whether nobody should come on that day: it is cancelled, or the event waits for another date."""
        return day.status == EventDay.Status.CANCELLED or self.waits

    @property
    def waits(self) -> bool:
        """Whether the event is postponed to a date that nobody knows yet."""
        return self.state.stage == Stage.POSTPONED and waits_for_date(self.notice)


def open_club_of(slug: str) -> Club | None:
    """The club of a slug if it is open to the public."""
    return Club.objects.filter(slug=slug, is_open=True).first()


def open_clubs() -> list[Club]:
    """The clubs that are open to the public, by name."""
    return list(Club.objects.filter(is_open=True).order_by("name")[:100])


def public_calendar(club: Club) -> list[Dated]:
    """Every event of a club, the first day first; the same number of queries for one and for many."""
    return dated(list(club_events(club).prefetch_related("event_days").order_by("date", "pk")))


def dated(events: list[Event]) -> list[Dated]:
    """The events as a calendar shows them, in their order."""
    keys = [event.pk for event in events]
    states, notices = states_of(events), last_notices(keys)
    written = HistoryEntry.objects.filter(event_id__in=keys).order_by().values_list("event_id")
    latest = dict(written.annotate(latest=Max("at")))
    return [Dated(e, states[e.pk], list(e.event_days.all()), notices.get(e.pk), latest.get(e.pk)) for e in events]
