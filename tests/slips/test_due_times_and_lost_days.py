"""A day lost for lateness asks for no largest weights; due times that move later must not leave a slip without its score."""

from datetime import time

import pytest
import world
from slips.table import record

from weighin.audit.services import writing
from weighin.events.models import Event, EventDay
from weighin.events.services.due_times import move_due_times
from weighin.events.services.events import change_day
from weighin.events.services.flights import add_flight, change_flight
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip
from weighin.standings.queries.standings import standings_of

pytestmark = [pytest.mark.django_db, pytest.mark.database]
LATE = {"short": "1", "checked_in": "15:25", "weighed": "15:40"}


def late_event(days: int = 1, **rules: str) -> tuple[Event, WeighSlip]:
    """Ten minutes beyond what loses the day, and one short fish that takes the largest from a day that counts."""
    event = world.event(days=days, rules={"short_fish": "lose_largest", **rules})
    return event, record(event, **LATE)


def move(event: Event, clock: time) -> None:
    with writing():
        move_due_times(Event.objects.get(pk=event.pk), 1, {"": clock}, "quill", "Fog")


def lost(event: Event) -> list[str | None]:
    found = standings_of(Event.objects.get(pk=event.pk))
    return [day.score.lost for row in found.outcome.ranked for day in row.result.days]


def test_due_times_wait_for_a_slip_that_could_not_be_scored() -> None:
    event, slip = late_event()
    with pytest.raises(Faults, match=rf"slip {slip.number} of boat 1, day 1, would no longer be lost .* largest"):
        move(event, time(15, 30))
    assert lost(event) == ["late"]
    move(event, time(15, 5))  # still lost
    correct_slip(slip, world.slip(**LATE, largest_weights="1.50", reason="weights written"), "quill")
    move(event, time(15, 30))
    assert lost(event) == [None]


def test_a_day_and_a_flight_wait_too() -> None:
    event, _ = late_event()
    day = EventDay.objects.get(event=event)
    kept = ("date", "start_time", "lake_temp", "air_temp", "weather", "status", "note")
    said = {name: getattr(day, name) for name in kept}
    with pytest.raises(Faults, match="could not be scored"):
        change_day(event, 1, {**said, "due_time": time(15, 30)}, "quill")
    flight = add_flight(event, {"name": "B", "day": None, "launch": None, "due_time": time(15, 5)}, "quill")
    Entry.objects.filter(event=event, boat=1).update(flight_name="B")
    with pytest.raises(Faults, match="could not be scored"):
        change_flight(flight, {"name": "B", "day": None, "launch": None, "due_time": time(16)}, "quill")
    assert lost(event) == ["late"]


def test_a_first_reading_that_lost_its_score_gives_way() -> None:
    event, slip = late_event(cut_after_day="1", cut_keep="1", days=2)
    correct_slip(slip, world.slip(**LATE, largest_weights="1.50", reason="weights written"), "quill")
    move(event, time(15, 30))
    assert lost(event) == [None]
    record(event, day="2", weighed="15:40")
    assert lost(event) == [None, None]
