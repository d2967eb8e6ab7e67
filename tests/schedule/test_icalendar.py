"""The calendar feed by RFC 5545, read back by the icalendar library."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
import world
from checkin.clock import Clock, clock
from django.test import Client
from django.urls import reverse
from icalendar import Calendar

from weighin.clubs.services.clubs import change_water, open_club
from weighin.events.models import Event
from weighin.events.services.events import DAY_FIELDS, change_day
from weighin.schedule.domain.icalendar import DayOfEvent, calendar_text
from weighin.schedule.services.calling_off import cancel_event, postpone_event

__all__ = ["clock"]
MOMENT = datetime(2026, 6, 20, 11, tzinfo=UTC)
HARD = ("Crappie; walleye, and more \\ less\nsecond line: “Ünïcödé” 🎣 " * 3).strip()


def day(**said: object) -> DayOfEvent:
    known: dict[str, object] = {
        "uid": "a-day-1@club.weighin", "sequence": 1, "stamp": MOMENT, "start": MOMENT, "end": MOMENT.replace(hour=20),
        "summary": "Opener", "location": "Reed Pond", "description": "Start to due", "cancelled": False,
    }  # fmt: skip
    return DayOfEvent(**{**known, **said})  # type: ignore[arg-type]


def test_lines_are_folded_at_75_octets_and_end_in_crlf() -> None:
    """RFC 5545, 3.1; no fold cuts a character in two."""
    text = calendar_text(HARD, [day(summary=HARD, location=HARD, description=HARD)])
    lines = text.encode().split(b"\r\n")
    assert lines[-1] == b"" and max(map(len, lines)) <= 75
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert [line.decode() for line in lines]
    assert all(line[:1] in (b" ", b"") or line[:1].isupper() for line in lines)


def test_texts_come_back_as_they_were() -> None:
    """RFC 5545, 3.3.11."""
    read = Calendar.from_ical(calendar_text("Club", [day(summary=HARD, description="a\x07b\u200dc")]))
    (found,) = read.walk("VEVENT")
    assert str(found["SUMMARY"]) == HARD
    assert str(found["DESCRIPTION"]) == "ab\u200dc"


def feed(club: object) -> list[object]:
    answer = Client().get(reverse("public:calendar", args=[club.slug]))  # type: ignore[attr-defined]
    assert answer.status_code == 200 and answer["Content-Type"] == "text/calendar; charset=utf-8"
    read = Calendar.from_ical(answer.content)
    assert read["VERSION"] == "2.0" and read["PRODID"]
    assert not list(read.errors)
    found = read.walk("VEVENT")
    for one in found:
        assert not one.errors and {"UID", "DTSTAMP", "DTSTART", "DTEND", "SEQUENCE", "STATUS"} <= set(one)
    assert len({str(one["UID"]) for one in found}) == len(found)
    return list(found)


@pytest.fixture
def event(db: None, clock: Clock) -> Event:
    clock("2026-06-01T12:00:00-05:00")
    found = world.event("Slab, night; open", days=3, start_time="20:00", due_time="02:00")
    open_club(found.club, True, "test")
    return found


def test_a_day_is_an_event_from_start_to_due(event: Event) -> None:
    first, second, third = feed(event.club)
    assert str(first["SUMMARY"]) == "Slab, night; open, day 1 of 3" and str(first["LOCATION"]) == "Long Slough"
    chicago = ZoneInfo("America/Chicago")
    assert first["DTSTART"].dt == datetime(2026, 6, 20, 20, tzinfo=chicago)
    assert first["DTEND"].dt == datetime(2026, 6, 21, 2, tzinfo=chicago)
    assert third["DTSTART"].dt.astimezone(chicago).date() == date(2026, 6, 22)
    assert "start 8:00 PM, due 2:00 AM, by the clock of America/Chicago" in str(first["DESCRIPTION"])
    assert {str(one["STATUS"]) for one in (first, second, third)} == {"CONFIRMED"}


def test_over_a_change_of_the_clocks_the_hours_are_those_that_pass(db: None) -> None:
    """Clocks go back an hour on November 1, 2026 in Chicago (tz database): 8 pm to 3 am are eight hours."""
    event = world.event("Fall back", date="2026-10-31", start_time="20:00", due_time="03:00")
    open_club(event.club, True, "test")
    (one,) = feed(event.club)
    assert (one["DTEND"].dt - one["DTSTART"].dt).total_seconds() == 8 * 3600


def test_a_change_keeps_the_uid_and_raises_the_sequence(event: Event) -> None:
    before = {str(one["UID"]): int(one["SEQUENCE"]) for one in feed(event.club)}
    postpone_event(event, date(2026, 7, 4), "High water", "test")
    after = {str(one["UID"]): one for one in feed(event.club)}
    assert set(after) == set(before)
    assert all(int(one["SEQUENCE"]) > before[uid] for uid, one in after.items())
    first = after[min(after)]
    assert first["DTSTART"].dt.astimezone(ZoneInfo("America/Chicago")).date() == date(2026, 7, 4)
    assert "Postponed from Jun 20 to Jul 4: High water" in str(first["DESCRIPTION"])
    assert str(first["STATUS"]) == "CONFIRMED"
    event.refresh_from_db()
    change_water(event.water, "Longer Slough", None, "test")
    found = feed(event.club)
    assert str(found[0]["LOCATION"]) == "Longer Slough"
    assert int(found[0]["SEQUENCE"]) > int(first["SEQUENCE"])


def test_what_is_cancelled_is_said(event: Event) -> None:
    said = {name: getattr(event.event_days.get(number=2), name) for name in DAY_FIELDS}
    change_day(event, 2, {**said, "status": "cancelled"}, "test")
    assert [str(one["STATUS"]) for one in feed(event.club)] == ["CONFIRMED", "CANCELLED", "CONFIRMED"]
    cancel_event(event, "Thunderstorms", "test")
    found = feed(event.club)
    assert {str(one["STATUS"]) for one in found} == {"CANCELLED"}
    assert "Cancelled: Thunderstorms" in str(found[0]["DESCRIPTION"])


def test_postponed_to_no_date_it_is_taken_off_the_old_one(event: Event) -> None:
    postpone_event(event, None, "High water", "test")
    found = feed(event.club)
    assert {str(one["STATUS"]) for one in found} == {"CANCELLED"}
    assert "Postponed, the new date follows: High water" in str(found[0]["DESCRIPTION"])


def test_a_club_without_an_event_has_an_empty_calendar(db: None) -> None:
    club = world.club()
    open_club(club, True, "test")
    assert feed(club) == []
