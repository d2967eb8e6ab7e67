"""What is known of an event: its rule sheet read, its calendar, its temperatures, its place in a list."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import QuerySet
from django.utils import timezone

from weighin.clubs.models import Club
from weighin.events.domain import entered, temperatures, weighed
from weighin.events.domain.calendar import Calendar, Day
from weighin.events.domain.temperatures import Temperature
from weighin.events.models import Event, EventDay, Flight
from weighin.events.queries.states import BEFORE, Stage, State, states_of
from weighin.rules import rulebook
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet.keys import OF_SEASON_ALONE
from weighin.rules.sheets.changes import changes_in, written_at, written_on


def club_events(club: Club) -> QuerySet[Event]:
    """A club's events, newest first, with season and water."""
    return Event.objects.filter(season__club=club).select_related("season", "season__club", "water")


def events_in(clubs: Iterable[int]) -> QuerySet[Event]:
    """The events of several clubs, newest first."""
    return Event.objects.filter(season__club__in=clubs).select_related("season", "season__club", "water")


def latest_zone(club: Club) -> str | None:
    """The time zone of the club's latest event; None while it has none."""
    latest = Event.objects.filter(season__club=club).order_by("-date")
    return latest.values_list("time_zone", flat=True).first()


def public_events() -> QuerySet[Event]:
    """Events that anyone may read."""
    return Event.objects.filter(is_public=True).select_related("season", "season__club", "water")


def rules_of(event: Event, as_of: datetime | None = None) -> Rulebook:
    """The event's rule sheet, read; with ``as_of`` as it was then."""
    sheet = event.rule_sheet
    written = sheet.written if as_of is None else written_at(as_of, sheet.written, changes_in(sheet.versions))
    return rulebook.read(written, event.weight_unit)


def rules_by_day(event: Event) -> dict[int, Rulebook]:
    """The sheet of each day that was fished under another than the event has now; mostly none."""
    sheet, changes = event.rule_sheet, changes_in(event.rule_sheet.versions)
    through = max((change.through or 0 for change in changes), default=0)
    sheets = {day: written_on(day, sheet.written, changes) for day in range(1, through + 1)}
    return {day: rulebook.read(was, event.weight_unit) for day, was in sheets.items() if was != sheet.written}


def rules_said(event: Event) -> Rulebook:
    """As ``rules_of``, with what its season says of all its events: how many count, and what separates ties. For reading."""
    of_season = {key: event.season.rules[key] for key in OF_SEASON_ALONE if key in event.season.rules}
    return rulebook.read({**event.rule_sheet.written, **of_season}, event.weight_unit)


def calendar_of(
    event: Event, days: Iterable[EventDay] | None = None, flights: Iterable[Flight] | None = None
) -> Calendar:
    """The event's days and flights in its time zone; ``days`` and ``flights`` may be given as they would be."""
    found = [
        Day(
            number=day.number,
            date=day.date,
            start=day.start_time or event.start_time,
            due=day.due_time or event.due_time,
            cancelled=day.status == EventDay.Status.CANCELLED,
        )
        for day in (event.event_days.all() if days is None else days)
    ]
    rows = event.flights.all() if flights is None else flights
    return Calendar(ZoneInfo(event.time_zone), found, {(flight.name, flight.day): flight.due_time for flight in rows})


def lake_temperatures(event: Event) -> dict[int, Temperature | None]:
    """The lake's temperature by day: the day's, else the event's, else None."""
    return {
        day.number: temperatures.water(day.lake_temp or event.lake_temp) if (day.lake_temp or event.lake_temp) else None
        for day in event.event_days.all()
    }


def is_cancelled(event: Event) -> bool:
    """Whether every day was cancelled: such an event counts nowhere in the season."""
    days = list(event.event_days.all())
    return bool(days) and all(day.status == EventDay.Status.CANCELLED for day in days)


def status_of(event: Event, has_slips: bool) -> str:
    """The status in files and JSON: ``cancelled``, ``published``, ``closed``, ``open`` (slips are kept) or ``planned``."""
    if is_cancelled(event):
        return "cancelled"
    if event.is_public:
        return "published"
    if event.closed_at:
        return "closed"
    return "open" if has_slips else "planned"


def first_slip(event: Event) -> int | None:
    """The number of the slip that locked the rule sheet, or None while there is none."""
    return weighed.first(event)


@dataclass(frozen=True)
class Listed:
    """An event in a list: its state, its days, how many teams are entered, and whether a slip is kept."""

    event: Event
    state: State
    days: int
    teams: int
    begun: bool

    @property
    def said(self) -> str:
        """The state in words."""
        return self.state.words

    @property
    def ahead(self) -> bool:
        """Whether it is still to come or going on."""
        shut = self.state.stage == Stage.CANCELLED or self.event.closed_at is not None
        return not shut and (not self.event.is_public or self.state.stage in BEFORE)

    @property
    def going(self) -> bool:
        """Whether slips are kept of it and nothing is published."""
        return self.ahead and self.begun

    @property
    def is_today(self) -> bool:
        """Whether one of its days is today at the lake."""
        today = timezone.now().astimezone(ZoneInfo(self.event.time_zone)).date()
        return any(day.date == today for day in self.event.event_days.all())

    @property
    def over(self) -> bool:
        """Whether its last day is past, and the night after it, with slips kept and nothing published."""
        last = max((day.date for day in self.event.event_days.all()), default=self.event.date)
        today = timezone.now().astimezone(ZoneInfo(self.event.time_zone)).date()
        return self.going and today > last + timedelta(days=1)


def listed(events: QuerySet[Event]) -> list[Listed]:
    """The events of a list in their order; the same number of queries for one and for many."""
    rows = list(events.prefetch_related("event_days"))
    keys = [event.pk for event in rows]
    begun, teams, states = weighed.begun(keys), entered.counts(keys), states_of(rows)
    return [Listed(e, states[e.pk], len(e.event_days.all()), teams.get(e.pk, 0), e.pk in begun) for e in rows]


def flight_names(event: Event) -> list[str]:
    """The event's flights, each once."""
    return list(dict.fromkeys(event.flights.order_by("name").values_list("name", flat=True)))


def fishes_today(clubs: Iterable[int]) -> bool:
    """Whether one of these clubs has an event that is not closed with a day that is today by its clock or was yesterday,
    as a night event is."""
    now = timezone.now()
    today = now.date()
    days = EventDay.objects.filter(
        event__season__club__in=list(clubs),
        event__closed_at__isnull=True,
        event__rehearsal_of=None,
        date__range=(today - timedelta(days=2), today + timedelta(days=1)),
    )
    for date, zone in days.values_list("date", "event__time_zone"):
        here = now.astimezone(ZoneInfo(zone)).date()
        if here - timedelta(days=1) <= date <= here:
            return True
    return False
