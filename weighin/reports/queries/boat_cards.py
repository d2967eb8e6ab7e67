"""What stands on a boat's card."""

from dataclasses import dataclass

from django.utils.dateformat import format as date_format
from django.utils.translation import gettext, gettext_lazy

from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.roster.models import Entry
from weighin.slips.domain.hints import clock_rules

CHECKS = (
    gettext_lazy("Well checked, pump runs, no fish aboard"),
    gettext_lazy("Ice in as the briefing says"),
    gettext_lazy("Fish stay in the well until a bag is called"),
)


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


def boat_cards(event: Event, day: int, address: str) -> list[BoatCard]:
    """A card for every entered boat, by number; ``address`` is the event's public page."""
    entries = list(event.entries.filter(status=Entry.Status.ENTERED).order_by("boat"))
    table = table_of(event, entries)
    calendar = table.calendar
    of_day = calendar.days[day]
    launches = {(f.name, f.day): f.launch for f in event.flights.all() if f.launch}
    rules = clock_rules(rules_of(event))
    when = date_format(of_day.date, "l j F Y")
    if len(calendar.days) > 1:
        when = gettext("%(date)s, day %(day)s") % {"date": when, "day": day}
    cards = []
    for entry in entries:
        flight = table.boats.get(entry.boat, "")
        launch = launches.get((flight, day)) or launches.get((flight, None)) or of_day.start
        due = calendar.due(day, flight).astimezone(calendar.zone)
        times = [(gettext("Flight"), flight)] if flight else []
        times += [(gettext("Launch"), f"{launch:%H:%M}"), (gettext("Be in by"), f"{due:%H:%M}")]
        cards.append(
            BoatCard(
                club=str(event.club),
                where=f"{event.name}, {event.water.name}",
                when=when,
                boat=entry.boat,
                team=entry.name,
                times=tuple(times),
                says=gettext("Show this at check-in and at the table.") + " " + rules,
                address=address,
            )
        )
    return cards
