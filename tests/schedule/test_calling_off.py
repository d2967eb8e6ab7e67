"""An event is cancelled or postponed in one act: its days, what every page says, and how the teams are told."""

from datetime import date
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.test import Client
from django.urls import reverse
from slips.table import record

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, is_cancelled
from weighin.letters.models import Letter
from weighin.operations.queries.ledgers import ledger_of
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.services.contacts import keep_contact
from weighin.schedule.models import Notice
from weighin.signup.models import SignUp
from weighin.stations.queries.document import event_head

__all__ = ["clock"]
pytestmark = pytest.mark.django_db


@pytest.fixture
def event(clock: Clock) -> Event:
    clock("2026-06-01T12:00:00-05:00")
    return world.event(days=2)


def call_off(client: Client, event: Event, **said: str) -> str:
    answer = client.post(reverse("schedule:call_off", args=[event.slug]), said, follow=True)
    event.refresh_from_db()
    return answer.content.decode()


def test_cancelled_every_day_is_and_the_text_says_why(event: Event) -> None:
    director, before = world.member(event.club), event.revision
    entry = event.entries.get(boat=1)
    keep_contact(entry, ContactValues(phone="555-0107", email="ash@example.org", emergency="555-0199"), "test")
    page = call_off(director, event, kind="cancelled", reason="Thunderstorms all weekend")
    assert {day.status for day in event.event_days.all()} == {"cancelled"} and is_cancelled(event)
    assert event.revision > before
    assert "Open table on Long Slough, Sat, June 20, 2026, is cancelled." in page
    assert "Reason: Thunderstorms all weekend" in page
    assert "555-0107" in page and "ash@example.org" in page and "555-0199" not in page
    assert "3 teams have neither a phone number nor an e-mail address." in page
    done = HistoryEntry.objects.get(event_id=event.pk, act="event.cancelled")
    assert done.details["reason"] == "Thunderstorms all weekend"
    assert event_head(event, calendar_of(event))["event"]["notice"] == "Cancelled: Thunderstorms all weekend"
    assert ledger_of(event).faults == ()


def test_each_team_with_an_address_gets_one_letter(event: Event, settings: Any) -> None:
    settings.MAIL_FROM = "club@example.org"
    director = world.member(event.club)
    for boat, address in ((1, "ash@example.org"), (2, "wren@example.org")):
        keep_contact(event.entries.get(boat=boat), ContactValues(email=address), "test")
    event.entries.filter(boat=2).update(status="withdrawn")
    SignUp.objects.create(
        event=event, number=1, name="Later pair", email="teal@example.org", phone="555-0111", token_digest="a"
    )
    SignUp.objects.create(event=event, number=2, state=SignUp.State.REFUSED, email="no@example.org", token_digest="b")
    page = call_off(director, event, kind="cancelled", reason="Ice")
    assert "The site writes to 2 teams by e-mail by itself." in page and "555-0111" in page
    assert {letter.address for letter in Letter.objects.all()} == {"ash@example.org", "teal@example.org"}
    first = Letter.objects.all()[0]
    assert first.subject == "Cancelled: Open table" and "Reason: Ice" in first.body and "Bcc" not in page


def test_postponed_all_days_move_together(event: Event) -> None:
    page = call_off(world.member(event.club), event, kind="postponed", reason="High water", to="2026-07-11")
    assert [day.date for day in event.event_days.all()] == [date(2026, 7, 11), date(2026, 7, 12)]
    assert event.date == date(2026, 7, 11)
    assert "moves from Sat, June 20, 2026 to Sat, July 11, 2026, start 6:00 AM." in page
    assert "Postponed from Jun 20 to Jul 11: High water" in page


def test_postponed_without_a_date_and_then_with_one(event: Event) -> None:
    director = world.member(event.club)
    page = call_off(director, event, kind="postponed", reason="High water")
    assert "is postponed. We will tell you the new date." in page
    assert "Postponed, the new date follows: High water" in page
    page = call_off(director, event, kind="takes_place", reason="The water fell")
    assert "Open table takes place after all: Sat, June 20, 2026" in page
    assert "Postponed" not in director.get(reverse("operations:day", args=[event.slug])).content.decode()


def test_a_cancelled_event_is_taken_back_or_gets_another_date(event: Event) -> None:
    director = world.member(event.club)
    call_off(director, event, kind="cancelled", reason="Ice")
    assert "already" in call_off(director, event, kind="cancelled", reason="Ice") or Notice.objects.count() == 1
    call_off(director, event, kind="takes_place", reason="It thawed")
    assert not is_cancelled(event)
    call_off(director, event, kind="cancelled", reason="Ice")
    call_off(director, event, kind="postponed", reason="Ice", to="2026-08-01")
    assert {day.status for day in event.event_days.all()} == {"fished"} and event.date == date(2026, 8, 1)


def test_each_fault_is_said_at_its_field_and_nothing_changes(event: Event) -> None:
    director, where = world.member(event.club), reverse("schedule:call_off", args=[event.slug])
    page = director.post(where, {"kind": "postponed", "reason": " ", "to": "2026-06-20"}).content.decode()
    assert "The reason is missing: write it, since the teams read it." in page
    assert "The new first day must be after 2026-06-20" in page
    page = director.post(where, {"to": "soon"}).content.decode()
    assert "Choose one." in page and "The reason is missing" in page and "Write a date such as" in page
    page = director.post(where, {"kind": "cancelled", "reason": "x" * 301}).content.decode()
    assert "300" in page and "301" in page
    page = director.post(where, {"kind": "takes_place", "reason": "Ice"}).content.decode()
    assert "Select a valid choice" in page
    page = director.post(where, {"kind": "cancelled", "reason": "a\x07b"}).content.decode()
    assert not Notice.objects.exists() and {day.status for day in event.event_days.all()} == {"fished"}


def test_a_boat_that_was_weighed_forbids_it_and_so_does_a_closed_event(event: Event) -> None:
    record(event)
    director, where = world.member(event.club), reverse("schedule:call_off", args=[event.slug])
    assert (
        "boats have been weighed"
        in director.post(where, {"kind": "cancelled", "reason": "Ice"}).content.decode().lower()
    )
    page = director.post(where, {"kind": "postponed", "reason": "Ice", "to": "2026-07-11"}).content.decode().lower()
    assert "boats have been weighed" in page
    assert not Notice.objects.exists()


def test_only_directors_call_off_and_only_those_who_see_contacts_read_them(event: Event) -> None:
    where, told = (reverse(f"schedule:{name}", args=[event.slug]) for name in ("call_off", "notice"))
    assert "Nothing has changed" in world.member(event.club, "desk_official").get(told).content.decode()
    assert world.member(event.club, "desk_official").get(where).status_code == 403
    assert world.member(event.club, "weigh_official").get(told).status_code == 403


def test_the_public_pages_say_it(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(is_public=True)
    call_off(world.member(event.club), event, kind="cancelled", reason="Thunderstorms & wind")
    for name in ("event", "standings", "rules", "crowd", "screen"):
        page = Client().get(reverse(f"public:{name}", args=[event.slug])).content.decode()
        assert "Cancelled: Thunderstorms &amp; wind" in page, name


def test_it_is_not_removed_with_what_the_teams_were_told(event: Event) -> None:
    director = world.member(event.club)
    call_off(director, event, kind="cancelled", reason="Ice")
    page = director.post(
        reverse("events:remove", args=[event.slug]), {"name": event.name, "reason": "by mistake"}
    ).content.decode()
    assert "1 notice to the teams" in page and Event.objects.filter(pk=event.pk).exists()
