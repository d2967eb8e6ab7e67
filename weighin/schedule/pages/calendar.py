"""A club's calendar as a feed, and an event as search engines read it."""

from collections.abc import Sequence
from typing import Any
from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.translation import gettext

from weighin.clubs.models import Club
from weighin.events.models import EventDay
from weighin.events.queries.states import Stage
from weighin.schedule.domain.icalendar import DayOfEvent, calendar_text
from weighin.schedule.domain.words import said_of
from weighin.schedule.models import Notice
from weighin.schedule.queries.calendar import Dated
from weighin.ui import figures

STATUS = "https://schema.org/Event"


def feed(club: Club, events: Sequence[Dated]) -> str:
    """The club's calendar by RFC 5545: a VEVENT a day, start to due."""
    return calendar_text(club.name, [_day(one, day) for one in events for day in one.days])


def about(one: Dated) -> dict[str, Any]:
    """An event in the words of schema.org, with the offsets of its own clock.

    Postponed to a date that is known it is ``EventRescheduled``, to one that is not ``EventPostponed``, as schema.org
    tells the two apart.
    """
    event, zone = one.event, ZoneInfo(one.event.time_zone)
    takes_place = [day for day in one.days if day.status != EventDay.Status.CANCELLED] or one.days
    hours = [one.hours(day) for day in takes_place]
    said: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Event",
        "name": event.name,
        "eventStatus": f"{STATUS}{_status(one)}",
        "eventAttendanceMode": "https://schema.org/OfflineEventAttendanceMode",
        "location": {"@type": "Place", "name": event.water.name, "address": event.water.county or event.water.name},
        "organizer": {"@type": "Organization", "name": event.club.name},
    }
    if hours:
        said["startDate"] = hours[0].start.astimezone(zone).isoformat()
        said["endDate"] = max(day.due for day in hours).astimezone(zone).isoformat()
    if one.notice is not None and one.notice.kind == Notice.Kind.POSTPONED:
        said["previousStartDate"] = one.notice.was.isoformat()
    return said


def _status(one: Dated) -> str:
    if one.state.stage == Stage.CANCELLED:
        return "Cancelled"
    if one.waits:
        return "Postponed"
    moved = one.notice is not None and one.notice.kind == Notice.Kind.POSTPONED
    return "Rescheduled" if moved else "Scheduled"


def _day(one: Dated, day: EventDay) -> DayOfEvent:
    event, hours = one.event, one.hours(day)
    several = len(one.days) > 1
    names = {"event": event.name, "day": day.number, "last": len(one.days)}
    return DayOfEvent(
        uid=f"{event.slug}-day-{day.number}@{event.club.slug}.weighin",
        sequence=event.revision,
        stamp=one.written_at or hours.start,
        start=hours.start,
        end=hours.due,
        summary=gettext("%(event)s, day %(day)s of %(last)s") % names if several else event.name,
        location=event.water.name,
        description=_description(one, day),
        cancelled=one.is_off(day),
    )


def _description(one: Dated, day: EventDay) -> str:
    event = one.event
    times = gettext("%(date)s: start %(start)s, due %(due)s, by the clock of %(zone)s.") % {
        "date": figures.day(day.date),
        "start": figures.clock(day.start_time or event.start_time),
        "due": figures.clock(day.due_time or event.due_time),
        "zone": event.time_zone,
    }
    notice = one.notice
    if notice is None or notice.kind == Notice.Kind.TAKES_PLACE:
        return times
    return f"{said_of(event, notice)}\n{times}"


def by_time(events: Sequence[Dated]) -> tuple[list[Dated], list[Dated]]:
    """Events to come, today's among them, the next first; and those that are over, the latest first."""
    now = timezone.now()
    ahead: list[Dated] = []
    over: list[Dated] = []
    for one in events:
        today = now.astimezone(ZoneInfo(one.event.time_zone)).date()
        last = max((day.date for day in one.days), default=one.event.date)
        (ahead if last >= today else over).append(one)
    return ahead, over[::-1]
