"""Flights: added, spelled one way, renamed with their teams, removed when empty."""

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from weighin.audit.models import HistoryEntry
from weighin.events.access import find
from weighin.events.models import Event, Flight
from weighin.events.queries.events import calendar_of, flight_names
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import add_entries

A: dict[str, str] = {"name": "A", "day": "", "launch": "06:00", "due_time": "14:30"}


@pytest.fixture
def flight(director: Client, event: Event) -> Flight:
    director.post(reverse("events:flights_new", args=[event.slug]), A)
    return Flight.objects.get()


def due(event: Event, day: int) -> str:
    """When flight A is due, by the water's clocks."""
    calendar = calendar_of(event)
    return f"{calendar.due(day, 'A').astimezone(calendar.zone):%H:%M}"


def errors(answer: Any) -> dict[str, Any]:
    return dict(answer.context["form"].errors)


def test_a_flight_is_due_before_the_day_is(event: Event, flight: Flight, director: Client) -> None:
    found = find(event.slug)
    assert found is not None and found.revision == event.revision + 1
    assert due(found, 1) == "14:30"
    assert HistoryEntry.objects.get(act="flight.added").sentence == "Flight A added, due 2:30 PM"
    assert "one flight, no team yet" in director.get(reverse("events:setup", args=[event.slug])).content.decode()


def test_a_days_own_row_is_spelled_like_the_flight(event: Event, flight: Flight, director: Client) -> None:
    director.post(reverse("events:flights_new", args=[event.slug]), A | {"name": " a", "day": "2", "due_time": "13:00"})
    assert flight_names(event) == ["A"]
    assert due(event, 2) == "13:00"


@pytest.mark.parametrize(
    ("wrong", "field", "sentence"),
    [
        ({"name": "a"}, "name", "has a due time already"),
        ({"name": ""}, "name", "This is blank"),
        ({"name": "x" * 41}, "name", "40 or fewer"),
        ({"due_time": ""}, "due_time", "This is blank"),
        ({"day": "3"}, "day", "Select a valid choice"),
    ],
)
def test_a_flight_that_will_not_do(
    event: Event, flight: Flight, director: Client, wrong: dict[str, str], field: str, sentence: str
) -> None:
    answer = director.post(reverse("events:flights_new", args=[event.slug]), A | wrong)
    assert sentence in str(errors(answer)[field])
    assert Flight.objects.count() == 1


def test_a_due_time_that_the_clocks_skip_is_refused(event: Event, director: Client) -> None:
    event.event_days.filter(number=2).update(date="2026-03-08", start_time="01:00", due_time="15:00")
    answer = director.post(reverse("events:flights_new", args=[event.slug]), A | {"day": "2", "due_time": "02:30"})
    assert "2:30 AM does not exist on Mar 8, 2026" in str(errors(answer)["due_time"])
    assert not Flight.objects.exists()


def test_a_new_name_goes_to_all_rows_and_teams(event: Event, flight: Flight, director: Client) -> None:
    director.post(reverse("events:flights_new", args=[event.slug]), A | {"day": "2"})
    director.post(reverse("events:flights_new", args=[event.slug]), A | {"name": "B"})
    add_entries(event, [EntryValues(1, "Lindell & Amaro", ("Mara Lindell",), flight_name="A")], "test")
    where = reverse("events:flight", args=[event.slug, flight.pk])
    answer = director.post(where, A | {"act": "change", "name": "b"})
    assert "There is a flight B already" in str(errors(answer)["name"])
    director.post(where, A | {"act": "change", "name": "Early"})
    assert flight_names(event) == ["B", "Early"]
    assert event.entries.get().flight_name == "Early"
    assert HistoryEntry.objects.get(act="flight.changed").details["changed"] == {"name": ["A", "Early"]}


def test_a_flight_with_teams_stays(event: Event, flight: Flight, director: Client) -> None:
    add_entries(event, [EntryValues(1, "Lindell & Amaro", ("Mara Lindell",), flight_name="A")], "test")
    where = reverse("events:flight", args=[event.slug, flight.pk])
    page = director.post(where, {"act": "remove"}).content.decode()
    assert "1 team is in flight A: put them into another flight first." in page
    event.entries.update(flight_name="")
    director.post(where, {"act": "remove"})
    assert not Flight.objects.exists()
    assert HistoryEntry.objects.filter(act="flight.removed").count() == 1
    assert director.get(where).status_code == 404
