"""What stands on a boat's card."""

from dataclasses import dataclass

from weighin.events.models import Event
from weighin.events.queries import rules_of
from weighin.roster.models import Entry
from weighin.scale.hints import clock_rules
from weighin.scale.queries import table_of

CHECKS = (
    "Well checked, pump runs, no fish aboard",
    "Ice in as the briefing says",
    "Fish stay in the well until a bag is called",
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
    which = f", day {day}" if len(calendar.days) > 1 else ""
    cards = []
    for entry in entries:
        flight = table.boats.get(entry.boat, "")
        launch = launches.get((flight, day)) or launches.get((flight, None)) or of_day.start
        due = calendar.due(day, flight).astimezone(calendar.zone)
        times = [("Flight", flight)] if flight else []
        times += [("Launch", f"{launch:%H:%M}"), ("Be in by", f"{due:%H:%M}")]
        cards.append(
            BoatCard(
                club=str(event.club),
                where=f"{event.name}, {event.water.name}",
                when=f"{of_day.date:%A} {of_day.date.day} {of_day.date:%B %Y}{which}",
                boat=entry.boat,
                team=entry.name,
                times=tuple(times),
                says=f"Show this at check-in and at the table. {rules}",
                address=address,
            )
        )
    return cards
