"""How long each boat fished: the hours that an agency's catch rates are divided by."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.utils import timezone

from weighin.checkin.models import CheckIn
from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event, EventDay, Flight
from weighin.roster.models import Entry
from weighin.standings.queries.standings import Standings

SHORTENED = Decimal("0.5")  # common practice, no source: a shortened day whose times nobody moved counts half its hours
ON_THE_WATER = ("launched", "in_by_water", "in_by_road")
BoatDay = tuple[int, int]


@dataclass(frozen=True)
class Span:
    """When a boat may fish on a day, and the part of it that counts."""

    start: datetime
    stop: datetime
    share: Decimal

    @property
    def hours(self) -> Decimal:
        """Hours that count, never negative."""
        seconds = Decimal(int((self.stop - self.start).total_seconds()))
        return max(Decimal(0), seconds / 3600 * self.share)


class Schedule:
    """The spans of an event's flights and days, due times as they were moved."""

    def __init__(self, event: Event, calendar: Calendar, days: Mapping[int, EventDay]):
        self.calendar, self.days, self.event = calendar, days, event
        self.flights = {(flight.name, flight.day): flight for flight in event.flights.all()}
        self.noticed = set(event.due_notices.values_list("day", flat=True))

    def span(self, day: int, flight: str = "") -> Span:
        """From the flight's launch, else the day's start, to the flight's due time, else the day's."""
        rows = (self.flights.get((flight, day)), self.flights.get((flight, None)))
        launch = next((row.launch for row in rows if row is not None and row.launch), None)
        start = self.calendar.at(day, launch) if launch else self.calendar.start(day)
        shortened = self.days[day].status == EventDay.Status.SHORTENED and not self._has_own_times(day, *rows)
        return Span(start, self.calendar.due(day, flight), SHORTENED if shortened else Decimal(1))

    def _has_own_times(self, day: int, own: Flight | None, usual: Flight | None) -> bool:
        """Whether somebody wrote when the day began or ended: then those times say how short it was."""
        found = self.days[day]
        written = (
            found.start_time not in (None, self.event.start_time)
            or found.due_time not in (None, self.event.due_time)
            or (own is not None and (usual is None or own.due_time != usual.due_time))
        )
        return written or day in self.noticed


def boat_hours(event: Event, standings: Standings, schedule: Schedule) -> dict[BoatDay, Decimal]:
    """Hours of every boat on every day it fished, as the event was scheduled for that boat.

    A boat fishes a day that was not cancelled when it was entered and had not missed the cut; one that withdrew or was
    absent fishes the days of which there is a slip, a check-in, a launch or a first fish. Where more than half of the
    boats awaited on a day were noted as launched, a boat of which there is no word at all that day stayed ashore.
    Hours run from the flight's launch (else the day's start) to its due time as moved, for every boat alike: single
    check-ins are known for some boats only and hold the wait at the dock, and agencies compare scheduled hours
    (common practice, no source). A day that is still to come counts nothing. A shortened day counts to the time it was shortened to, and half its hours where
    nobody wrote that time. Lateness and excused minutes do not count.
    """
    seen, launched = _seen(event, standings)
    cut = standings.rules.cut_after_day
    missed = {row.result.team.boat for row in standings.outcome.ranked if row.made_cut is False}
    hours: dict[BoatDay, Decimal] = {}
    for day in standings.table.calendar.fished:
        if standings.table.calendar.start(day) > timezone.now() and not any(day == on for _, on in seen):
            continue
        awaited = {
            boat
            for boat, entry in standings.entries.items()
            if entry.status in (Entry.Status.ENTERED, Entry.Status.DISQUALIFIED)
            and not (cut is not None and day > cut and boat in missed)
        }
        field_launched = 2 * len({boat for boat in awaited if (boat, day) in launched}) > len(awaited)
        for boat, entry in standings.entries.items():
            if (boat, day) in seen or (boat in awaited and not field_launched):
                hours[boat, day] = schedule.span(day, entry.flight_name).hours
    return hours


def _seen(event: Event, standings: Standings) -> tuple[set[BoatDay], set[BoatDay]]:
    """(boat, day) that something shows to have been on the water, and those noted as launched."""
    lines = list(CheckIn.objects.current().filter(event=event).select_related("entry"))
    launched = {(line.entry.boat, line.day) for line in lines if line.whereabouts == CheckIn.Whereabouts.LAUNCHED}
    seen = set(standings.slips) | {
        (line.entry.boat, line.day)
        for line in lines
        if line.whereabouts in ON_THE_WATER or line.checked_in is not None or line.minutes_late is not None
    }
    for note in event.care_notes.select_related("entry"):
        if note.launched or note.first_fish:
            seen.add((note.entry.boat, note.day))
        if note.launched:
            launched.add((note.entry.boat, note.day))
    return seen, launched


def by_boat(hours: Mapping[BoatDay, Decimal]) -> dict[int, Decimal]:
    """The hours of each boat that fished, over all its days."""
    found: dict[int, Decimal] = {}
    for (boat, _), span in hours.items():
        found[boat] = found.get(boat, Decimal(0)) + span
    return found
