"""The due times of one day: as they are, and moved all together."""

from collections.abc import Mapping
from datetime import datetime, time, timedelta

from weighin.audit.services import log_history
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.faults import DAY_MOVED_FAR, DAY_OTHER_MOMENT, FLIGHT_MOVED_FAR, FLIGHT_OTHER_MOMENT
from weighin.events.models import Event, EventDay, Flight
from weighin.events.queries.events import calendar_of
from weighin.events.queries.seals import event_seals
from weighin.events.services.revision import raise_revision_of_due_times
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.ui import figures

MOST_MOVED = timedelta(hours=8)  # 2:40 written for 14:40 is twelve hours off
Clocks = dict[str, time]


def due_clocks(event: Event, day: int) -> Clocks:
    """The clock at which each flight is due on ``day``; the empty name is the day's own."""
    return _clocks(calendar_of(event), day)


def later_by(event: Event, day: int, minutes: int) -> Clocks:
    """The day's due clocks ``minutes`` later (negative: earlier), as moments move: also over a change of the clocks.

    Raises Faults (field ``minutes``) where a clock cannot say that moment: one that comes twice, or one beyond
    midnight in a day that is due before it.
    """
    calendar = calendar_of(event)
    step = timedelta(minutes=minutes)
    before = _clocks(calendar, day)
    was = {flight: calendar.at(day, clock) for flight, clock in before.items()}
    moved = {flight: (moment + step).astimezone(calendar.zone).time() for flight, moment in was.items()}
    try:
        now = moments_of(event, day, moved)
    except Wrong as error:
        raise Faults([error.at("minutes")]) from None
    for flight, moment in now.items():
        if moment - was[flight] != step:
            clock = figures.clock(moved[flight])
            other = (
                FLIGHT_OTHER_MOMENT.says(clock=clock, flight=flight) if flight else DAY_OTHER_MOMENT.says(clock=clock)
            )
            raise Faults([Fault("minutes", other)])
    return moved


def at_one_time(event: Event, day: int, clock: time) -> Clocks:
    """Every flight of the day due at ``clock``."""
    return dict.fromkeys(due_clocks(event, day), clock)


def moments_of(event: Event, day: int, clocks: Mapping[str, time]) -> dict[str, datetime]:
    """The moments of due ``clocks``, were they the day's. Raises ValueError where the clocks skip one."""
    calendar = _as_moved(event, day, clocks)
    return {flight: calendar.due(day, flight) for flight in clocks}


def move_due_times(event: Event, day: int, clocks: Mapping[str, time], by: str, sentence: str) -> None:
    """Write the due ``clocks`` of a day, all together, with one entry in the history.

    ``event`` is held by ``locked``; call inside ``writing``. A flight that has a due time for every day gets one of
    its own for this day. Raises Faults (field ``to``) where a clock does not exist that day, or more than eight
    hours away, or where slips forbid it.
    """
    before = due_clocks(event, day)
    _check(event, day, clocks)
    event.event_days.filter(number=day).update(due_time=clocks[""])
    rows = {(flight.name, flight.day): flight for flight in event.flights.all()}
    for name, clock in clocks.items():
        if not name:
            continue
        own, of_every_day = rows.get((name, day)), rows.get((name, None))
        if own is not None:
            Flight.objects.filter(pk=own.pk).update(due_time=clock)
        elif of_every_day is not None:
            Flight.objects.create(event=event, name=name, day=day, launch=of_every_day.launch, due_time=clock)
    raise_revision_of_due_times(event)
    moved = {name or "day": [f"{before[name]}", f"{clock}"] for name, clock in clocks.items()}
    log_history(
        by, "event.due_times", sentence, club_id=event.season.club_id, event_id=event.pk, subject=f"day {day}",
        details={"day": day, "due": moved}, bound=event_seals(event.pk),
    )  # fmt: skip


def call_shortened(event: Event, day: int) -> None:
    """Mark a day that is fished as shortened; its due times, moved in the same act, say when it ends."""
    fished = event.event_days.filter(number=day, status=EventDay.Status.FISHED)
    fished.update(status=EventDay.Status.SHORTENED)


def _clocks(calendar: Calendar, day: int) -> Clocks:
    names = sorted({name for name, of_day in calendar.flights if of_day in (None, day)})
    flights = calendar.flights
    own = {name: flights.get((name, day), flights.get((name, None), calendar.days[day].due)) for name in names}
    return {"": calendar.days[day].due, **own}


def _as_moved(event: Event, day: int, clocks: Mapping[str, time]) -> Calendar:
    days = list(event.event_days.all())
    for one in days:
        if one.number == day:
            one.due_time = clocks[""]
    calendar = calendar_of(event, days)
    calendar.flights.update({(name, day): clock for name, clock in clocks.items() if name})
    return calendar


def _check(event: Event, day: int, clocks: Mapping[str, time]) -> None:
    was = moments_of(event, day, due_clocks(event, day))
    try:
        now = moments_of(event, day, clocks)
    except Wrong as error:
        raise Faults([error.at("to")]) from None
    for name, moment in now.items():
        if abs(moment - was[name]) > MOST_MOVED:
            clock = figures.clock(clocks[name])
            far = FLIGHT_MOVED_FAR.says(clock=clock, flight=name) if name else DAY_MOVED_FAR.says(clock=clock)
            raise Faults([Fault("to", far)])
