"""What is held back stays so when the server's clock goes back, and rulings of the hold wait for its end as slips do."""

from datetime import datetime, timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from public.test_embargo import HELD, bodies, opened, slip_of

from weighin.events.models import Event
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry
from weighin.slips.services.slips import correct_slip
from weighin.standings.models import Holdback
from weighin.standings.queries.embargo import embargo_start
from weighin.standings.services import lift_embargo, start_embargo

pytestmark = pytest.mark.django_db


def at(clock: pytest.MonkeyPatch, moment: datetime) -> None:
    clock.setattr("django.utils.timezone.now", lambda: moment)


def opened_by_day(clock: pytest.MonkeyPatch) -> tuple[Event, datetime]:
    """An event, and a moment after it about noon at its water: the big screen goes dark by the hour."""
    now = timezone.now().replace(hour=18)
    at(clock, now - timedelta(minutes=1))
    event = opened()
    at(clock, now)
    return event, now


def corrected(event: Event, gross: str) -> None:
    correct_slip(slip_of(event), {**HELD, "gross": gross}, "test")


def become(event: Event, status: str) -> None:
    entry = event.entries.get(boat=2)
    names = tuple(angler.name for angler in entry.anglers.all())
    change_entry(entry, EntryValues(2, entry.name, names, None, entry.flight_name, True, status=status), "test")


def test_slips_kept_by_a_clock_that_went_back_stay_held(monkeypatch: pytest.MonkeyPatch) -> None:
    event, now = opened_by_day(monkeypatch)
    start_embargo(event, now, "test")
    before = bodies(event)
    at(monkeypatch, now - timedelta(minutes=20))
    assert embargo_start(event) == now
    for number in range(5):
        corrected(event, f"1.4{number}")
    assert bodies(event) == before
    lift_embargo(event, "test")
    assert any(b"1.44" in body for body in bodies(event).values())


def test_a_hold_of_a_moment_to_come_has_begun_once_something_came_after_it(monkeypatch: pytest.MonkeyPatch) -> None:
    event, now = opened_by_day(monkeypatch)
    start_embargo(event, now + timedelta(minutes=30), "test")
    assert embargo_start(event) is None
    at(monkeypatch, now + timedelta(minutes=40))
    before = bodies(event)
    corrected(event, "1.41")
    at(monkeypatch, now + timedelta(minutes=10))
    corrected(event, "1.42")
    assert embargo_start(event) is not None and bodies(event) == before


def test_what_was_kept_before_the_word_and_after_its_moment_is_held_too() -> None:
    event = opened()
    corrected(event, "1.41")
    start_embargo(event, timezone.now() - timedelta(hours=1), "test")
    assert not any(b"1.41" in body for body in bodies(event).values())


def test_a_ruling_of_the_held_hour_waits_for_its_end() -> None:
    """The page says that all is as it stood then, so who is out since then is still in: the ruling is read out too."""
    event = opened()
    become(event, "withdrawn")
    become(event, "entered")
    start_embargo(event, timezone.now(), "test")
    before = bodies(event)
    become(event, "disqualified")
    assert bodies(event) == before
    become(event, "withdrawn")
    assert bodies(event) == before
    where = reverse("public:api_event", args=[event.slug])
    (row,) = [row for row in Client().get(where).json()["standings"] if row["boat"] == 2]
    assert row["status"] != "withdrawn"
    lift_embargo(event, "test")
    (row,) = [row for row in Client().get(where).json()["standings"] if row["boat"] == 2]
    assert row["status"] == "withdrawn"


def test_a_hold_of_a_version_that_kept_no_positions_goes_by_the_clock() -> None:
    event = opened()
    Holdback.objects.create(event=event, since=timezone.now(), by="test")
    Event.objects.filter(pk=event.pk).update(revision=event.revision + 1)
    before = bodies(event)
    corrected(event, "1.41")
    assert bodies(event) == before
