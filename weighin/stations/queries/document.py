"""Everything a tablet needs to work alone for a day, in plain JSON values; slips in the form in which they are sent."""

from collections.abc import Collection
from dataclasses import asdict
from datetime import tzinfo
from typing import Any

from django.utils import timezone

from weighin.audit.database.life import database_life
from weighin.checkin.services.check_ins import CHECK_IN
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.table import Table
from weighin.events.models import Event, EventDay
from weighin.events.queries.events import calendar_of, rules_of
from weighin.events.queries.states import told_of
from weighin.line.models import LineWord
from weighin.records.domain.messages import Sender
from weighin.records.services.record_type import RecordType
from weighin.roster.models import Angler
from weighin.rules.species import believable
from weighin.slips.services.slips import SLIP

# What a tablet is told of as rows, each by the name it has in the document
ROWS: dict[str, RecordType[Any]] = {"slips": SLIP, "checkins": CHECK_IN}
# Who writes care notes has no need of weights, which may be held back from the crowd
NEEDED_TO = {"slips": {"weigh"}, "checkins": {"weigh", "checkin"}}


def tablet_document(event: Event, sender: Sender, sees: frozenset[str]) -> dict[str, Any]:
    """Event, days, rule sheet, roster, current slips (both of a doubled day), current check-ins, boats called, and the site's clock.

    ``sees``: what it must be able to do; the rows that this does not need are left out.
    """
    calendar = calendar_of(event)
    return {
        **event_document(event, sender, calendar),
        **current_rows(event, calendar, sees),
        "called": called_boats(event, calendar.zone),
        "believable": species_bounds(event),
    }


def current_rows(event: Event, calendar: Calendar, sees: frozenset[str]) -> dict[str, list[dict[str, Any]]]:
    """The current slips and check-ins, as they would be sent; none of a kind that who ``sees`` so much has no need of."""
    table = Table(calendar, rules_of(event), {})
    return {
        name: [
            record.as_sent(row, table)
            for row in record.model.objects.current()
            .filter(event=event)
            .select_related("entry", "replaces")
            .order_by("day", "entry__boat", "number")
        ]
        if NEEDED_TO[name] & sees
        else []
        for name, record in ROWS.items()
    }


def event_document(event: Event, sender: Sender, calendar: Calendar) -> dict[str, Any]:
    """What every tablet needs of an event: its days, rule sheet and roster, who asks, and the site's clock."""
    return {**event_head(event, calendar), **event_now(event, sender, calendar)}


def event_head(event: Event, calendar: Calendar) -> dict[str, Any]:
    """What seldom changes during a day: days, rule sheet and roster."""
    roster = _roster(event)
    flights = sorted({entry["flight"] for entry in roster if entry["flight"]})
    return {
        "event": _event_part(event),
        "days": [_day_part(day, calendar, flights) for day in event.event_days.all()],
        "rules": rules_of(event).written(),
        "roster": roster,
    }


def event_now(event: Event, sender: Sender, calendar: Calendar) -> dict[str, Any]:
    """Who asks, and how far the event and the site's clock are."""
    return {
        "station": {"name": sender.name, "can": sorted(sender.cans)},
        "revision": event.revision,
        "life": database_life(),
        "server_time": timezone.now().astimezone(calendar.zone).isoformat(timespec="milliseconds"),
    }


def species_bounds(event: Event) -> dict[str, str] | None:
    """What one fish of the event's kind may weigh, as text in the event's unit; null where the kind is not known."""
    asked = believable(rules_of(event).species, event.weight_unit)
    return None if asked is None else {name: str(value) for name, value in asdict(asked).items()}


def called_boats(event: Event, zone: tzinfo, boats: Collection[int] | None = None) -> list[dict[str, Any]]:
    """The boats (or those of ``boats``) whose bag is out, as the line says, with the moment it went out and the one when they stood at the scales."""
    called: dict[tuple[int, int], dict[str, Any]] = {}
    words = event.line_words.filter(entry__isnull=False).order_by("at", "id")
    if boats is not None:
        words = words.filter(entry__boat__in=boats)
    for day, boat, said, at in words.values_list("day", "entry__boat", "said", "at"):
        moment = at.astimezone(zone).isoformat()
        if said == LineWord.Said.BAG_ISSUED:
            called[day, boat] = {"day": day, "boat": boat, "bag_issued": moment, "at_scales": None}
        elif said == LineWord.Said.AT_SCALES and (day, boat) in called:
            called[day, boat]["at_scales"] = moment
        elif said in (LineWord.Said.BAG_BACK, LineWord.Said.LEFT):
            called.pop((day, boat), None)
    return list(called.values())


def _event_part(event: Event) -> dict[str, Any]:
    return {
        "slug": event.slug,
        "name": event.name,
        "club": event.club.name,
        "season": event.season.name,
        "water": event.water.name,
        "date": event.date.isoformat(),
        "weight_unit": event.weight_unit,
        "time_zone": event.time_zone,
        "handling": event.handling,
        "lake_temp": event.lake_temp or None,
        "closed": event.closed_at is not None,
        "notice": told_of(event) or None,
    }


def _day_part(day: EventDay, calendar: Calendar, flights: list[str]) -> dict[str, Any]:
    """A day with the moments at which it starts and each flight is due."""

    def due(flight: str = "") -> str:
        return calendar.due(day.number, flight).astimezone(calendar.zone).isoformat()

    return {
        "day": day.number,
        "date": day.date.isoformat(),
        "status": day.status,
        "start": calendar.start(day.number).astimezone(calendar.zone).isoformat(),
        "due": due(),
        "flights": {flight: due(flight) for flight in flights},
        "lake_temp": day.lake_temp or None,
    }


def _roster(event: Event) -> list[dict[str, Any]]:
    """The teams by boat; a team's note is nobody's business at the table. Plain values: tablets ask after every slip."""
    anglers: dict[int, list[str]] = {}
    for entry, name in Angler.objects.filter(entry__event=event).order_by("position").values_list("entry_id", "name"):
        anglers.setdefault(entry, []).append(name)
    return [
        {"boat": boat, "team": team, "anglers": anglers.get(entry, []), "flight": flight or None, "status": status}
        for entry, boat, team, flight, status in event.entries.values_list(
            "pk", "boat", "name", "flight_name", "status"
        )
    ]
