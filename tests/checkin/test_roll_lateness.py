"""Minutes late by the second: the time on the roll against the due time, over midnight and changes of the clocks."""

from datetime import UTC, datetime, timedelta
from fractions import Fraction

import pytest
import world

from weighin.checkin.domain.arrival import Arrival, arrival_of, late
from weighin.checkin.models import CheckIn
from weighin.checkin.queries.arrivals import table_of
from weighin.checkin.queries.roll import roll_of
from weighin.events.models import Event


def event_at(date: str, start: str, due: str, zone: str = "America/Chicago", **rules: str) -> Event:
    """One day, two boats of no flight."""
    said = {"date": date, "start_time": start, "due_time": due, "time_zone": zone}
    return world.event(f"Day of {date}", world.pairs(2), rules=rules, **said)


def came(event: Event, moment: str, excused: str = ""):  # type: ignore[no-untyped-def]
    arrival = Arrival(1, datetime.fromisoformat(moment), None, excused)
    found = late(arrival, table_of(event), "")
    assert found is not None
    return found


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("clock", "said", "begun", "lost"),
    [
        ("14:59:59", "0 s", 0, False),
        ("15:00:00", "0 s", 0, False),
        ("15:00:01", "1 s", 1, False),
        ("15:01:00", "1 min", 1, False),
        # The worked example of the scoring contract: 2 min 10 s late count as 3
        ("15:02:10", "2 min 10 s", 3, False),
        ("15:15:00", "15 min", 15, False),
        ("15:15:01", "15 min 1 s", 16, True),
    ],
)
def test_every_minute_begun_counts(clock: str, said: str, begun: int, lost: bool) -> None:
    found = came(event_at("2026-06-20", "06:00", "15:00"), f"2026-06-20T{clock}-05:00")
    assert (found.said, found.begun, found.day_lost) == (said, begun, lost)


@pytest.mark.django_db
def test_grace_and_excused_minutes_come_off() -> None:
    event = event_at("2026-06-20", "06:00", "15:00", late_grace_minutes="5")
    assert came(event, "2026-06-20T15:05:00-05:00").begun == 0
    assert came(event, "2026-06-20T15:05:01-05:00").begun == 1
    assert came(event, "2026-06-20T15:25:01-05:00", excused="20").begun == 1
    assert came(event, "2026-06-20T15:10:00-05:00", excused="20").minutes == 0
    # Excused minutes may have decimals: 12.5 of 20 min leave 7 min 30 s
    assert came(event, "2026-06-20T15:20:00-05:00", excused="12.5").minutes == Fraction(15, 2)


@pytest.mark.django_db
def test_a_night_event_is_due_on_the_next_date() -> None:
    event = event_at("2026-06-20", "19:00", "00:30")
    assert came(event, "2026-06-20T23:59:59-05:00").begun == 0
    assert came(event, "2026-06-21T00:30:00-05:00").begun == 0
    assert came(event, "2026-06-21T00:31:30-05:00").begun == 2


@pytest.mark.django_db
def test_the_hour_that_the_clocks_skip_makes_nobody_late() -> None:
    # In the night to 8 March 2026 Chicago goes from 01:59:59 CST to 03:00:00 CDT: due 03:10, half past one is 40 minutes early
    event = event_at("2026-03-07", "19:00", "03:10")
    due = roll_of(event, 1).flights[0].due
    assert due == datetime(2026, 3, 8, 8, 10, tzinfo=UTC)
    assert came(event, "2026-03-08T01:59:59-06:00").minutes == 0
    assert came(event, "2026-03-08T03:12:30-05:00").begun == 3


@pytest.mark.django_db
def test_of_the_hour_that_comes_twice_the_first_passing_is_due() -> None:
    # In the night to 1 November 2026 the hour from 01:00 comes twice: due 01:30 CDT, so 01:30 CST is an hour late
    event = event_at("2026-10-31", "19:00", "01:30", late_disqualify_after_minutes="none")
    assert came(event, "2026-11-01T01:30:00-05:00").minutes == 0
    again = came(event, "2026-11-01T01:30:00-06:00")
    assert (again.begun, again.said) == (60, "1 h")


@pytest.mark.django_db
def test_another_zone_than_the_servers() -> None:
    event = event_at("2026-06-20", "06:00", "15:00", zone="Australia/Lord_Howe")  # half an hour of summer time
    assert roll_of(event, 1).flights[0].due == datetime(2026, 6, 20, 4, 30, tzinfo=UTC)


def line(number: int, **values: object) -> CheckIn:
    return CheckIn(number=number, day=1, **values)


def test_the_first_time_and_the_excuse_said_last_are_a_boats_arrival() -> None:
    first, second = (datetime(2026, 6, 20, 20, 0, 10, tzinfo=UTC) + timedelta(minutes=n) for n in (0, 4))
    lines = [line(1, whereabouts="launched"), line(2, excused_minutes="10"), line(3, checked_in=first)]
    assert arrival_of(1, lines) == Arrival(1, first, None, "10")
    assert arrival_of(1, [*lines, line(4, checked_in=second, excused_minutes="20")]) == Arrival(1, first, None, "20")
    assert arrival_of(1, [line(1, minutes_late=4)]) == Arrival(1, None, 4, "")
    assert arrival_of(1, [line(1, whereabouts="phoned", word="from the dam")]) is None
