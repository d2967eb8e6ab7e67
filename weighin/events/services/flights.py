"""Add, change and remove flights. A flight is its name; it may have a due time of its own on single days."""

from collections.abc import Mapping
from typing import Any

from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.events.domain import entered
from weighin.events.domain.faults import (
    FLIGHT_DUE_ALREADY,
    FLIGHT_DUE_THAT_DAY,
    FLIGHT_GONE,
    FLIGHT_TAKEN,
    FLIGHT_WITHOUT_NAME,
    NO_SUCH_DAY,
    TEAMS_IN_FLIGHT,
)
from weighin.events.models import Event, Flight
from weighin.events.queries.faults import clock_faults
from weighin.events.queries.seals import event_seals
from weighin.events.services.revision import lock_open_event, raise_revision_of_due_times
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.ui import figures

FIELDS = ("name", "day", "launch", "due_time")


def add_flight(event: Event, said: Mapping[str, Any], by: str) -> Flight:
    """Add a flight, or a day's own due time of a flight. Raises Faults with field names."""
    with writing():
        held = lock_open_event(event)
        flights = list(held.flights.all())
        flight = Flight(event=held, **{name: said[name] for name in FIELDS})
        flight.name = _spelling(said["name"], flights)
        _check(held, flight, flights)
        flight.save()
        _noted(
            held,
            "flight.added",
            f"Flight {flight.name} added, due {figures.clock(flight.due_time)}{_of_day(flight)}",
            flight,
            by,
            {},
        )
    return flight


def change_flight(flight: Flight, said: Mapping[str, Any], by: str) -> None:
    """Change a flight's row; a new name is given to all its rows and teams. Raises Faults with field names."""
    with writing():
        held = lock_open_event(flight.event)
        flights = list(held.flights.all())
        mine = next((f for f in flights if f.pk == flight.pk), None)
        if mine is None:
            raise Faults([FLIGHT_GONE.at("", flight=flight.name)])
        before = {name: getattr(mine, name) for name in FIELDS}
        others = [f for f in flights if f.pk != mine.pk]
        strangers = [f for f in others if f.name != mine.name]
        for name in FIELDS:
            setattr(mine, name, said[name])
        mine.name = " ".join(said["name"].split())
        taken = next((f.name for f in strangers if values.folded(f.name) == values.folded(mine.name)), None)
        if taken:
            raise Faults([FLIGHT_TAKEN.at("name", flight=taken)])
        for other in others:
            if other.name == before["name"]:
                other.name = mine.name
        _check(held, mine, others)
        held.flights.filter(name=before["name"]).update(name=mine.name)
        mine.save()
        moved = entered.rename_flight(held, before["name"], mine.name)
        found = changes(before, {name: getattr(mine, name) for name in FIELDS})
        if found:
            _noted(held, "flight.changed", f"Flight {before['name']}: {in_words(found)}", mine, by, found, moved)


def remove_flight(flight: Flight, by: str) -> None:
    """Remove a flight's row. Raises Faults while it is the only one of a flight that has teams."""
    with writing():
        held = lock_open_event(flight.event)
        teams = entered.count(held, flight.name)
        if teams and not held.flights.filter(name=flight.name).exclude(pk=flight.pk).exists():
            raise Faults([TEAMS_IN_FLIGHT.at("", n=teams, flight=flight.name)])
        held.flights.filter(pk=flight.pk).delete()
        _noted(held, "flight.removed", f"Flight {flight.name} removed{_of_day(flight)}", flight, by, {})


def _check(event: Event, flight: Flight, others: list[Flight]) -> None:
    faults = []
    try:
        if not values.line(flight.name, 40):
            faults.append(FLIGHT_WITHOUT_NAME.at("name"))
    except Wrong as error:
        faults.append(error.at("name"))
    days = list(event.event_days.all())
    if flight.day is not None and flight.day not in {day.number for day in days}:
        faults.append(NO_SUCH_DAY.at("day", day=flight.day, days=len(days)))
    if any(f.name == flight.name and f.day == flight.day for f in others):
        due = FLIGHT_DUE_ALREADY.says(flight=flight.name)
        if flight.day is not None:
            due = FLIGHT_DUE_THAT_DAY.says(flight=flight.name, day=flight.day)
        faults.append(Fault("name", due))
    faults = faults or clock_faults(event, days, [*others, flight])
    if faults:
        raise Faults(faults)


def _spelling(name: str, flights: list[Flight]) -> str:
    """The flight's name as its other rows write it."""
    spaced = " ".join(name.split())
    return next((f.name for f in flights if values.folded(f.name) == values.folded(spaced)), spaced)


def _of_day(flight: Flight) -> str:
    return "" if flight.day is None else f" on day {flight.day}"


def _noted(
    event: Event,
    act: str,
    sentence: str,
    flight: Flight,
    by: str,
    found: Mapping[str, Any],
    also: Mapping[str, str | None] | None = None,
) -> None:
    raise_revision_of_due_times(event)
    log_history(
        by, act, sentence, club_id=event.season.club_id, event_id=event.pk, subject=f"flight {flight.name}",
        details={"changed": dict(found)} if found else {name: str(getattr(flight, name)) for name in FIELDS},
        bound={**event_seals(event.pk), **(also or {})},
    )  # fmt: skip
