"""Make the next event from one that is there: its teams, flights, rules and days, moved to the new date."""

from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.events import DAY_FIELDS, FIELDS, change_day, make_event
from weighin.events.services.flights import FIELDS as FLIGHT_FIELDS
from weighin.events.services.flights import add_flight
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import add_entries

OF_THAT_DAY = {"lake_temp": "", "air_temp": "", "weather": "", "status": "fished", "note": ""}


def make_next(event: Event, said: Mapping[str, Any], by: str) -> Event:
    """The next event, all of it or nothing. ``said`` holds ``name``, ``season`` and ``date``.

    What was agreed with a team goes along, boat number and flight too; what is of one event does not: paid, the big fish
    pot, lots, rulings, notes, weather and temperatures, slips and everything written of the day. Teams that withdrew stay
    behind. Raises Faults with field names.
    """
    days = list(event.event_days.all())
    values = {name: getattr(event, name) for name in FIELDS} | {"lake_temp": "", "permit": "", "note": ""}
    with writing():
        made = make_event(event.club, {**values, **said, "days": len(days)}, by, rules_from=event)
        for day in days:
            times = {name: getattr(day, name) for name in DAY_FIELDS} | OF_THAT_DAY
            times["date"] = made.date + timedelta(days=(day.date - event.date).days)
            change_day(made, day.number, times, by)
        for flight in event.flights.order_by("pk"):
            add_flight(made, {name: getattr(flight, name) for name in FLIGHT_FIELDS}, by)
        everyone = Entry.everyone.filter(event=event).exclude(status=Entry.Status.WITHDRAWN)
        staying = everyone.order_by("number").prefetch_related("anglers")
        entries = [
            EntryValues(
                boat=entry.boat,
                name=entry.name,
                anglers=tuple(angler.name for angler in entry.anglers.all()),
                youth=entry.youth,
                flight_name=entry.flight_name,
            )
            for entry in staying
        ]
        if entries:
            add_entries(made, entries, by)
        sentence = gettext("%(made)s made from %(before)s: its teams, flights, rules and days") % {
            "made": made.name,
            "before": event.name,
        }
        log_history(by, "event.made_from", sentence, club_id=event.club.pk, event_id=made.pk, subject=made.slug)
    return made
