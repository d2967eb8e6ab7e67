"""What stands on a boat's card."""

from dataclasses import dataclass
from datetime import time

from django.utils.translation import gettext, gettext_lazy

from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.roster.models import Entry
from weighin.slips.domain.hints import clock_rules
from weighin.ui import figures

CHECKS = (
    gettext_lazy("Livewell checked, pump runs, no fish aboard"),
    gettext_lazy("Ice in as the briefing says"),
    gettext_lazy("Fish stay in the livewell until a bag is called"),
)


@dataclass(frozen=True)
class BoatTimes:
    """A boat on one day: its entry with its anglers, its flight (blank without), when it launches and is due."""

    entry: Entry
    flight: str
    launch: time
    due: time


@dataclass(frozen=True)
class BoatCard:
    """A boat's card for one day: the label and value pairs under the team, and what it is shown for."""

    club: str
    where: str
    when: str
    boat: int
    team: str
    times: tuple[tuple[str, str], ...]
    says: str
    address: str


def boat_times(event: Event, day: int) -> list[BoatTimes]:
    """The times of every entered boat on a day, by boat number."""
    entries = list(event.entries.filter(status=Entry.Status.ENTERED).prefetch_related("anglers").order_by("boat"))
    table = table_of(event, entries)
    calendar = table.calendar
    launches = {(f.name, f.day): f.launch for f in event.flights.all() if f.launch}
    found = []
    for entry in entries:
        flight = table.boats.get(entry.boat, "")
        launch = launches.get((flight, day)) or launches.get((flight, None)) or calendar.days[day].start
        found.append(BoatTimes(entry, flight, launch, calendar.due(day, flight).astimezone(calendar.zone).time()))
    return found


def boat_cards(event: Event, day: int, address: str) -> list[BoatCard]:
    """A card for every entered boat, by number; ``address`` is the event's public page."""
    days = {each.number: each.date for each in event.event_days.all()}
    rules = clock_rules(rules_of(event))
    when = figures.day(days[day])
    if len(days) > 1:
        when = gettext("%(date)s, day %(day)s") % {"date": when, "day": day}
    return [
        BoatCard(
            club=str(event.club),
            where=f"{event.name}, {event.water.name}",
            when=when,
            boat=boat.entry.boat,
            team=boat.entry.name,
            times=(
                *([(gettext("Flight"), boat.flight)] if boat.flight else []),
                (gettext("Launch"), figures.clock(boat.launch)),
                (gettext("Be in by"), figures.clock(boat.due)),
            ),
            says=gettext("Show this at check-in and at the table.") + " " + rules,
            address=address,
        )
        for boat in boat_times(event, day)
    ]
