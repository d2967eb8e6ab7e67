"""The state of an event and its words: the one place that says it, for every page and file that shows it."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import prefetch_related_objects
from django.utils import timezone
from django.utils.translation import gettext

from weighin.events.domain import entered, weighed
from weighin.events.models import Event, EventDay
from weighin.events.queries.states import Stage, State
from weighin.registration.queries.draws import closed_events
from weighin.schedule.domain.hours import Hours, hours_of
from weighin.schedule.models import Notice
from weighin.schedule.queries.notices import last_notices, waits_for_date
from weighin.signup.domain.opening import Door, door_at
from weighin.signup.models import SignUpTerms
from weighin.standings.models import Posting
from weighin.standings.queries.days import WEIGHED_BY
from weighin.standings.queries.standings import official_stages
from weighin.ui import figures


@dataclass(frozen=True)
class Facts:
    """What is known of several events at once, by primary key. ``official`` has the stage of each official result."""

    now: datetime
    begun: Collection[int]
    teams: Mapping[int, int]
    closed: Collection[int]
    official: Mapping[int, str]
    postings: Mapping[int, Posting]
    sign_ups: Mapping[int, SignUpTerms]
    notices: Mapping[int, Notice]


def states_of(events: Iterable[Event]) -> dict[int, State]:
    """The state of each event, by primary key; the same number of queries for one and for many."""
    rows = list(events)
    keys = [event.pk for event in rows]
    prefetch_related_objects(rows, "event_days")
    facts = Facts(
        now=timezone.now(),
        begun=weighed.begun(keys),
        teams=entered.counts(keys),
        closed=closed_events(keys),
        official=official_stages(rows),
        postings={one.event_id: one for one in Posting.objects.filter(event__in=keys).defer("document").order_by("id")},
        sign_ups={terms.event_id: terms for terms in SignUpTerms.objects.filter(event__in=keys)},
        notices=last_notices(keys),
    )
    return {event.pk: _state(event, facts) for event in rows}


def state_of(event: Event) -> State:
    """The state of one event."""
    return states_of([event])[event.pk]


def _state(event: Event, facts: Facts) -> State:
    """The first that fits. A result goes before the day, the day before what was planned of it."""
    days = list(event.event_days.all())
    fished = [hours_of(event, day) for day in days if day.status != EventDay.Status.CANCELLED]
    notice = facts.notices.get(event.pk)
    if days and not fished:
        return State(Stage.CANCELLED)
    begun, posted = event.pk in facts.begun, facts.postings.get(event.pk)
    going = next((day for day in fished if _is_open(day, facts.now)), None)
    weighing = begun and event.closed_at is None and going is not None and not _is_of(posted, going)
    stage = facts.official.get(event.pk)
    if stage == "" or (stage and not weighing):
        return State(Stage.OFFICIAL, f", {stage}" if stage else "")
    if weighing:
        return State(Stage.WEIGHING)
    if begun:
        return State(Stage.PROVISIONAL, _protests(event, posted, facts.now))
    if waits_for_date(notice):
        return State(Stage.POSTPONED, gettext(", date to follow"))
    today = facts.now.astimezone(ZoneInfo(event.time_zone)).date()
    if any(day.date == today or _is_open(day, facts.now) for day in fished):
        return State(Stage.TODAY)
    if fished and facts.now > fished[-1].due + WEIGHED_BY:
        return State(Stage.PAST)
    if notice is not None and notice.kind == Notice.Kind.POSTPONED:
        return State(Stage.POSTPONED, gettext(" to %(date)s") % {"date": figures.short_day(event.date)})
    door = _door(event, fished, facts)
    if event.pk in facts.closed or door is Door.OVER:
        return State(Stage.ENTRIES_CLOSED)
    return State(Stage.ENTRIES_OPEN if door is Door.OPEN or facts.teams.get(event.pk) else Stage.PLANNED)


def _door(event: Event, fished: Sequence[Hours], facts: Facts) -> Door:
    """How the door of the sign-up stands."""
    terms = facts.sign_ups.get(event.pk)
    if terms is None or not fished:
        return Door.NEVER
    until = min(terms.closes, fished[0].start) if terms.closes else fished[0].start
    return door_at(
        facts.now, is_open=terms.is_open, was_open=terms.was_open, opens=terms.opens, until=until, taken=False
    )


def _is_of(posted: Posting | None, day: Hours) -> bool:
    """Whether the provisional result was posted on that day, whose boats are in then."""
    return posted is not None and posted.posted_at >= day.start


def _protests(event: Event, posted: Posting | None, now: datetime) -> str:
    """Until when protests are taken, while they are."""
    until = None if posted is None else posted.posted_at + timedelta(minutes=posted.minutes)
    if until is None or now >= until:
        return ""
    return gettext(", protests until %(until)s") % {"until": figures.clock(until, ZoneInfo(event.time_zone))}


def _is_open(day: Hours, now: datetime) -> bool:
    """Whether boats are out, or may be weighed after they came in."""
    return day.start <= now <= day.due + WEIGHED_BY
