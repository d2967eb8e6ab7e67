"""What a rehearsal's boats come in by: the due times, rules and line of its copy."""

from datetime import datetime, timedelta
from decimal import Decimal

from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.line.queries import OVER_MINUTES, terms_of
from weighin.planning.domain.quantities import FISH, US, read
from weighin.planning.domain.species import fish_of
from weighin.rehearsal.domain.line import Hour
from weighin.rehearsal.models import Rehearsal
from weighin.roster.models import Entry
from weighin.rules.weights import KG_PER_LB

GRAMS = Decimal(1000)


def boats_of(rehearsal: Rehearsal) -> dict[int, str]:
    """The boats that come in and their flights, in the order in which the teams were entered."""
    entered = Entry.objects.filter(event=rehearsal.event, status=Entry.Status.ENTERED).order_by("number")
    return dict(entered.values_list("boat", "flight_name")[: rehearsal.boats])


def hour_of(rehearsal: Rehearsal) -> Hour:
    """When the boats are due and what the line is run by, in minutes of the day's start."""
    event, calendar = rehearsal.event, calendar_of(rehearsal.event)
    start, terms = calendar.start(rehearsal.day), terms_of(event)
    return Hour(
        due={
            boat: _minutes(calendar.due(rehearsal.day, flight) - start) for boat, flight in boats_of(rehearsal).items()
        },
        opens_min=0.0,
        over_min=float(OVER_MINUTES),
        scales=terms.scales,
        bags=terms.bags,
        boat_min=terms.boat_seconds / 60,
        walk_min=terms.walk_seconds / 60,
        limit_min=float(rules_of(event).care_max_bag_minutes),
    )


def moment_of(calendar: Calendar, day: int, minute: float) -> datetime:
    """A minute after the day's start as a moment of the event's clock, to the second."""
    return (calendar.start(day) + timedelta(seconds=round(minute * 60))).astimezone(calendar.zone)


def mean_weight(event: Event) -> Decimal:
    """The weight of one fish that is planned with, in the event's unit."""
    grams = Decimal(repr(read(fish_of(rules_of(event).species).each, FISH, US).si))
    return grams / GRAMS if event.weight_unit == "kg" else grams / GRAMS / KG_PER_LB


def _minutes(length: timedelta) -> float:
    return length / timedelta(minutes=1)
