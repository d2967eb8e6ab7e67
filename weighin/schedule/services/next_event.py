"""Make the next event from one that is there: its set-up moved to the new date, without what happened on the day."""

from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.events import DAY_FIELDS, FIELDS, change_day, make_event
from weighin.events.services.flights import FIELDS as FLIGHT_FIELDS
from weighin.events.services.flights import add_flight
from weighin.registration.models import SidePot
from weighin.registration.services.side_pots import SIDE_POT_RECORD, declare_side_pot
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.queries import contacts_of
from weighin.roster.services.teams import enter_teams
from weighin.rules.faults import Faults
from weighin.schedule.domain.faults import NEXT_OF_A_REHEARSAL
from weighin.schedule.queries.next_event import going_along
from weighin.schedule.services.permits import copy_checklist

OF_THAT_DAY = {"lake_temp": "", "air_temp": "", "weather": "", "status": "fished", "note": ""}


def make_next(event: Event, said: Mapping[str, Any], by: str, teams: bool = True) -> Event:
    """The next event, all of it or nothing. ``said`` holds ``name``, ``season`` and ``date``, and may hold more of ``FIELDS``.

    What was agreed with a team goes along: boat number, flight, how it is reached; so do rules, days, flights, side pots
    and the permit checklist, undone. Tanks, and what the line and so the care plan go by, are offered by the club's last. What is of one event does not: payments, lots, rulings,
    notes, weather and temperatures, slips and everything written of the day. Teams that withdrew stay behind, erased
    anglers too, and all teams without ``teams``. Raises Faults with field names.
    """
    if event.rehearsal_of is not None:
        raise Faults([NEXT_OF_A_REHEARSAL.at("", event=event.rehearsal_of.name)])
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
        if teams:
            _copy_teams(event, made, by)
        for pot in SidePot.objects.filter(event=event).order_by("pk"):
            declare_side_pot(made, SIDE_POT_RECORD.texts(pot) | {"reason": ""}, by)
        copy_checklist(event, made, by)
        sentence = gettext("%(made)s added from %(before)s") % {"made": made.name, "before": event.name}
        log_history(by, "event.made_from", sentence, club_id=event.club.pk, event_id=made.pk, subject=made.slug)
    return made


def _copy_teams(event: Event, made: Event, by: str) -> None:
    staying = going_along(event)
    reached = contacts_of(event)
    entries = [
        EntryValues(boat=entry.boat, name=entry.name, anglers=anglers, youth=entry.youth, flight_name=entry.flight_name)
        for entry, anglers in staying
    ]
    if entries:
        enter_teams(made, entries, by, [reached.get(entry.pk, ContactValues()) for entry, _ in staying])
