"""Angler-hours are each boat's own: flights, moved due times, shortened days, cuts, withdrawals and absences."""

import uuid
from datetime import UTC, datetime, time
from decimal import Decimal
from typing import Any

import pytest
import world
from django.urls import reverse

from weighin.agency.pages.layouts import LAYOUTS, notes, report_lines
from weighin.agency.queries.catch import event_catch
from weighin.checkin.models import CheckIn, DueNotice
from weighin.events.models import Event, EventDay, Flight
from weighin.events.services.due_times import due_clocks
from weighin.roster.models import Angler
from weighin.ui.figures import FILED, written_as

pytestmark = pytest.mark.django_db
Rows = list[dict[str, str]]


def slip(boat: int, day: int = 1, fish: int = 2, gross: str = "2.50") -> dict[str, str]:
    counts = {"fish": str(fish), "alive": str(fish), "dead": "0"}
    return {"day": str(day), "boat": str(boat), **counts, **({"gross": gross} if fish else {})}


def event_of(
    boats: int, slips: Rows, *, days: Rows | None = None, teams: dict[int, dict[str, str]] | None = None, **more: Rows
) -> Event:
    """An event from 6:00 to 14:00 whose boats hold two anglers each; ``teams`` changes the line of a boat."""
    rows = [
        {"boat": str(n), "team": f"Team {n}", "angler_1": f"Angler {n} A", "angler_2": f"Angler {n} B", **(teams or {}).get(n, {})}
        for n in range(1, boats + 1)
    ]  # fmt: skip
    more["Days"] = days or []
    sheets = {name.replace("_", " "): found for name, found in more.items()}
    said = {"date": "2026-06-06", "due_time": "14:00", "entry_fee": "", "lake_temp": ""}
    return world.event("Hours", rows, slips, days=max(1, len(days or [])), more=sheets, **said)


def hours(event: Event) -> Decimal:
    return event_catch(event).angler_hours


def times(event: Event) -> object:
    return dict(report_lines(event_catch(event), LAYOUTS[0]))["Start and stop"]


def notice(event: Event, day: int, due: time, shortened: bool) -> None:
    """A due time moved and the day called shortened, as the roll writes them."""
    moved = {"": [f"{due_clocks(event, day)['']}", f"{due}"]}
    told: dict[str, Any] = {"given_by": "Anna", "how": "horn", "reason": "thunder", "recorded_by": "anna"}
    given = event.event_days.get(number=day).date
    DueNotice.objects.create(
        id=uuid.uuid4(), event=event, number=day, day=day, moved=moved, shortened=shortened,
        given_at=f"{given}T15:00:00Z", **told,
    )  # fmt: skip
    status = EventDay.Status.SHORTENED if shortened else EventDay.Status.FISHED
    event.event_days.filter(number=day).update(due_time=due, status=status)


def test_a_day_whose_due_time_moved_and_that_is_called_shortened_is_halved_once() -> None:
    event = event_of(8, [slip(1)])
    assert hours(event) == 8 * 2 * 8
    notice(event, 1, time(10, 12), shortened=True)
    figures = event_catch(event)
    assert figures.angler_hours == Decimal("4.2") * 2 * 8
    assert times(event) == "Sat, June 6, 2026, 6:00 AM to 10:12 AM" and figures.shortened == 0
    with written_as(FILED):
        assert times(event) == "2026-06-06, 06:00 to 10:12"


def test_a_shortened_day_whose_times_stand_counts_half_and_says_so() -> None:
    event = event_of(8, [slip(1)], days=[{"day": "1", "status": "shortened"}])
    figures = event_catch(event)
    assert (figures.angler_hours, figures.shortened) == (4 * 2 * 8, 1)
    assert any("half the hours" in note for note in notes(figures))


def test_times_written_on_the_day_say_how_short_it_was() -> None:
    event = event_of(8, [slip(1)], days=[{"day": "1", "status": "shortened", "due_time": "11:00"}])
    assert hours(event) == 5 * 2 * 8
    later = event_of(
        8, [slip(1)], days=[{"day": "1", "status": "shortened", "start_time": "09:00"}], Event=_keys("Two")
    )
    assert hours(later) == 5 * 2 * 8


def _keys(name: str) -> Rows:
    keys = {
        "club": "Heron Bend Anglers", "season": "2026", "event": name, "water": "Long Slough", "date": "2026-06-06",
        "days": "1", "weight_unit": "lb", "start_time": "06:00", "due_time": "14:00",
    }  # fmt: skip
    return [{"key": key, "value": value} for key, value in keys.items()]


def test_each_flight_has_its_launch_and_its_due_time() -> None:
    event = event_of(
        3,
        [slip(1)],
        teams={1: {"flight": "1"}, 2: {"flight": "2"}},
        Flights=[
            {"flight": "1", "launch": "06:15", "due_time": "14:15"},
            {"flight": "2", "launch": "06:30", "due_time": "15:00"},
        ],
    )
    assert hours(event) == (8 + Decimal("8.5") + 8) * 2
    with written_as(FILED):
        assert times(event) == "2026-06-06, 06:00 to 14:00 (no flight); 06:15 to 14:15 (1); 06:30 to 15:00 (2)"
    Flight.objects.create(event=event, name="2", day=1, launch=time(6, 30), due_time=time(13))  # moved on this day
    assert hours(event) == (8 + Decimal("6.5") + 8) * 2


def test_after_the_cut_only_those_that_made_it_fish() -> None:
    days = [{"day": "1"}, {"day": "2"}]
    slips = [slip(n, gross=f"{n + 2}.00") for n in range(1, 9)] + [slip(8, 2), slip(7, 2)]
    rules = [{"key": "cut_after_day", "value": "1"}, {"key": "cut_keep", "value": "2"}]
    figures = event_catch(event_of(8, slips, days=days, Rules=rules))
    assert figures.angler_hours == 8 * 2 * 8 + 8 * 2 * 2
    assert figures.boats == 8


def test_a_boat_that_withdrew_counts_the_days_it_fished() -> None:
    """Boat 2 weighed on day 1 and withdrew; boat 3 withdrew before; boat 4 was absent; boat 5 caught nothing."""
    days = [{"day": "1"}, {"day": "2"}]
    teams = {2: {"status": "withdrawn"}, 3: {"status": "withdrawn"}, 4: {"status": "absent"}}
    figures = event_catch(event_of(5, [slip(1), slip(2), slip(1, 2)], days=days, teams=teams))
    assert figures.angler_hours == (2 + 1 + 2) * 8 * 2
    assert (figures.boats, figures.anglers) == (3, 6)


def test_a_boat_that_withdrew_on_the_water_is_known_by_its_launch() -> None:
    teams = {2: {"status": "withdrawn"}, 3: {"status": "withdrawn"}}
    care = [{"day": "1", "boat": "3", "pump_ok": "yes"}]  # checked on the ramp and never launched
    event = event_of(3, [slip(1)], teams=teams, Fish_care=care)
    assert hours(event) == 8 * 2
    gone = event.entries.get(boat=2)
    CheckIn.objects.create(event=event, entry=gone, number=1, day=1, whereabouts="launched", recorded_by="anna")
    assert hours(event) == 2 * 8 * 2


def test_a_boat_of_which_nothing_is_heard_when_the_field_launched_stayed_ashore() -> None:
    event = event_of(
        4,
        [slip(1)],
        Fish_care=[{"day": "1", "boat": str(n), "launched": "06:05"} for n in (1, 2, 3)],
    )
    assert hours(event) == 3 * 8 * 2
    few = event_of(4, [slip(1)], Fish_care=[{"day": "1", "boat": "1", "launched": "06:05"}], Event=_keys("Few"))
    assert hours(few) == 4 * 8 * 2  # one note of four says nothing of the others


def test_a_day_still_to_come_counts_nothing_until_somebody_is_on_the_water() -> None:
    event = event_of(2, [slip(1), slip(2)], days=[{"day": "1"}, {"day": "2"}])
    assert hours(event) == 64
    ahead = event.date.replace(year=2126)
    event.event_days.filter(number=2).update(date=ahead)
    event = Event.objects.get(pk=event.pk)
    assert hours(event) == 32
    launched = datetime.combine(ahead, time(6, 10), UTC)
    event.care_notes.create(day=2, entry=event.entries.get(boat=1), launched=launched)
    assert hours(event) == 64


def test_a_cancelled_day_counts_nothing() -> None:
    days = [{"day": "1"}, {"day": "2", "status": "cancelled"}]
    assert hours(event_of(2, [slip(1)], days=days)) == 2 * 8 * 2


def test_a_boat_without_names_counts_two_and_the_report_says_so() -> None:
    event = event_of(3, [slip(1)], teams={3: {"angler_2": ""}})
    Angler.objects.filter(entry__event=event, entry__boat=2).delete()
    figures = event_catch(event)
    assert (figures.anglers, figures.unnamed, figures.angler_hours) == (5, 1, 5 * 8)
    said = " ".join(notes(figures))
    assert "1 boat names no angler" in said and "2 a boat are counted" in said
    client = world.member(event.club)
    assert (
        "counted for 1 of 3 boats without names"
        in client.get(reverse("agency:event_catch", args=[event.slug])).content.decode()
    )
    page = client.get(reverse("planning:event_planner", args=[event.slug])).content.decode()
    assert "5 anglers (1 boat without names, counted as two anglers each)" in page
