"""Local times: night events, clocks that change, times that do not exist, and what is written is read again."""

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighin.events.domain.calendar import Calendar, Day, read_clock

CHICAGO = ZoneInfo("America/Chicago")
SPRING, AUTUMN = date(2026, 3, 8), date(2026, 11, 1)  # the clocks of the United States change in these nights


def day(when: date, start: str = "06:00", due: str = "15:00", number: int = 1) -> Day:
    return Day(number, when, time.fromisoformat(start), time.fromisoformat(due))


def calendar(*days: Day, **flights: str) -> Calendar:
    return Calendar(
        CHICAGO,
        days or [day(date(2026, 6, 20))],
        {(name, None): time.fromisoformat(at) for name, at in flights.items()},
    )


def test_a_day_event_keeps_its_date_and_a_night_event_runs_into_the_next() -> None:
    found = calendar(day(date(2026, 6, 20)), day(date(2026, 6, 21), "19:00", "02:00", 2))
    assert found.read(1, "05:00").astimezone(CHICAGO).date() == date(2026, 6, 20)
    assert found.read(2, "01:30").astimezone(CHICAGO).date() == date(2026, 6, 22)
    assert found.read(2, "19:00").astimezone(CHICAGO).date() == date(2026, 6, 21)
    assert found.due(2).astimezone(CHICAGO).isoformat() == "2026-06-22T02:00:00-05:00"


def test_durations_are_real_time_across_a_change_of_clocks() -> None:
    spring = calendar(day(SPRING, "00:30", "09:00"))
    assert spring.read(1, "03:30") - spring.read(1, "01:30") == timedelta(hours=1)
    autumn = calendar(day(AUTUMN, "00:30", "09:00"))
    assert autumn.read(1, "03:30") - autumn.read(1, "00:30") == timedelta(hours=4)


def test_a_time_that_does_not_exist_is_refused_and_one_that_exists_twice_is_the_first() -> None:
    with pytest.raises(ValueError, match=r"2:30 AM does not exist on Mar 8, 2026"):
        calendar(day(SPRING, "00:30", "09:00")).read(1, "02:30")
    assert calendar(day(AUTUMN, "00:30", "09:00")).read(1, "01:30").isoformat() == "2026-11-01T06:30:00+00:00"


def test_a_flight_has_its_row_for_the_day_before_its_row_for_every_day() -> None:
    found = Calendar(
        CHICAGO,
        [day(date(2026, 6, 20)), day(date(2026, 6, 21), number=2)],
        {("A", None): time(14), ("A", 2): time(13)},
    )
    hours = [found.due(number, flight).astimezone(CHICAGO).hour for number in (1, 2) for flight in ("A", "B")]
    assert hours == [14, 15, 13, 15]


@pytest.mark.parametrize("text", ["24:00", "7", "07.30", "noon", "12:60", "2026-06-20", "1:2", "12:00:60", ""])
def test_other_words_are_no_times(text: str) -> None:
    with pytest.raises(ValueError, match=r"write"):
        calendar().read(1, text)


def test_a_time_far_from_its_day_is_refused() -> None:
    with pytest.raises(ValueError, match=r"Jun 23, 2026, 6:00 AM is more than two days from day 1"):
        calendar().read(1, "2026-06-23 06:00")
    assert calendar().read(1, "2026-06-22T12:00:00-05:00")


def test_clock_reads_seconds() -> None:
    assert read_clock("7:05:09") == time(7, 5, 9)


@given(
    st.datetimes(datetime(2026, 10, 31, 12), datetime(2026, 11, 2, 12)),
    st.sampled_from([("06:00", "15:00"), ("19:00", "02:00"), ("00:10", "09:00")]),
)
def test_what_is_written_is_read_again(local: datetime, hours: tuple[str, str]) -> None:
    found = calendar(day(AUTUMN, *hours))
    moment = found.moment(local)
    assert found.read(1, found.write(1, moment)) == moment
    later = moment + timedelta(hours=1)
    assert found.read(1, found.write(1, later)) == later
