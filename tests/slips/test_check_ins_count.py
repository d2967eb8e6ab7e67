"""A slip without a time of its own takes the boat's check-in of that day, in whichever order the two are written."""

import pytest
import world
from slips.table import record
from stations.speaking import Speaker, message, new_id

from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.parsing import read_slip
from weighin.standings.queries.standings import standings_of

LATE = "2026-06-20T15:05:00-05:00"


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


def check_in(event: Event, **said: object) -> dict[str, object]:
    answer = Speaker(event, f"Ramp {new_id()[:6]}").one({"id": new_id(), "day": 1, "boat": 1, **said}, "checkins")
    assert answer["state"] in ("kept", "second"), answer
    return answer


def minutes(event: Event) -> int:
    (row,) = (row for row in standings_of(event).outcome.ranked if row.result.team.boat == 1)
    return sum(line.count for day in row.result.days for line in day.score.deductions if line.reason == "late")


@pytest.mark.parametrize("slip_first", [True, False])
def test_in_either_order(event: Event, slip_first: bool) -> None:
    steps = [lambda: record(event), lambda: check_in(event, checked_in=LATE)]
    for step in steps if slip_first else reversed(steps):
        step()
    assert minutes(event) == 5


def test_the_first_time_counts_and_the_excuse_said_last(event: Event) -> None:
    check_in(event, excused_minutes=1)
    check_in(event, checked_in=LATE, excused_minutes=4)
    check_in(event, checked_in="2026-06-20T15:09:00-05:00")
    check_in(event, excused_minutes=2)
    record(event)
    assert minutes(event) == 3


def test_minutes_late_take_no_excuse(event: Event) -> None:
    check_in(event, minutes_late=5)
    check_in(event, excused_minutes=4)
    record(event)
    assert minutes(event) == 5


def test_a_slips_own_time_keeps_its_own_excuse_and_an_excuse_alone_takes_the_tables_time(event: Event) -> None:
    check_in(event, checked_in=LATE, excused_minutes=5)
    record(event, checked_in="15:03")
    assert minutes(event) == 3
    record(event, boat="2", excused_minutes="1")
    check_in(event, boat=2, checked_in=LATE, excused_minutes=5)
    row = next(row for row in standings_of(event).outcome.ranked if row.result.team.boat == 2)
    assert row.result.days[0].score.deductions[0].count == 4


def test_an_excuse_without_any_time_costs_and_saves_nothing(event: Event) -> None:
    check_in(event, excused_minutes=5)
    record(event)
    assert minutes(event) == 0


def test_an_excuse_beside_minutes_late_is_a_fault(event: Event) -> None:
    both = {"minutes_late": "3", "excused_minutes": "2"}
    with pytest.raises(Faults, match="excused_minutes stand beside minutes_late") as found:
        record(event, **both)
    assert [fault.field for fault in found.value.faults] == ["excused_minutes"]
    said = {"id": new_id(), "day": 1, "boat": 1, "minutes_late": 3, "excused_minutes": 2}
    assert Speaker(event).one(said, "checkins")["state"] == "refused"


def test_a_slip_is_sound_whatever_the_check_in_comes_to(event: Event) -> None:
    """A day lost for lateness asks for no weights of removed fish; the check-in may change, so the slip has them."""
    event = world.event("Removing", rules={"short_fish": "lose_largest"})
    check_in(event, checked_in="2026-06-20T16:00:00-05:00")
    with pytest.raises(Faults, match="the rules take away"):
        read_slip(
            {"day": "1", "boat": "1", "fish": "3", "alive": "3", "dead": "0", "short": "1", "gross": "4"},
            table_of(event),
        )


def test_a_check_in_on_a_cancelled_day_counts_nowhere(event: Event) -> None:
    event.event_days.filter(number=2).update(status="cancelled")
    said = {"id": new_id(), "day": 2, "boat": 1, "checked_in": "2026-06-21T15:05:00-05:00"}
    assert Speaker(event).one(said, "checkins")["state"] == "kept"
    assert minutes(event) == 0


def test_a_station_is_told_the_lateness_by_neither(event: Event) -> None:
    check_in(event, checked_in=LATE)
    assert Speaker(event).one(message())["state"] == "kept"
    assert minutes(event) == 5
