"""A club ready for its events, and what a form of a whole event says."""

import pytest
import world
from django.test import Client

from weighin.clubs.models import Club, Water
from weighin.events.access import find
from weighin.events.models import Event
from weighin.events.services.events import make_event


@pytest.fixture
def club(db: None) -> Club:
    found = world.season().club
    Water.objects.create(club=found, name="Quill Reservoir", elevation_ft=740)
    return found


@pytest.fixture
def director(club: Club) -> Client:
    return world.member(club, username="mara")


@pytest.fixture
def said(club: Club) -> dict[str, str]:
    """The form of an event of two days, as a browser sends it."""
    return {
        "name": "Midsummer Pairs",
        "season": str(club.seasons.get().pk),
        "water": str(club.waters.get().pk),
        "date": "2026-06-20",
        "days": "2",
        "start_time": "06:00",
        "due_time": "15:00",
        "time_zone": "America/Chicago",
        "weight_unit": "lb",
        "handling": "hold_release",
        "entry_fee": "60.00",
        "added_money": "250",
        "lake_temp": "79.6 F",
        "elevation_ft": "",
        "permit": "",
        "note": "",
    }


@pytest.fixture
def event(club: Club, said: dict[str, str]) -> Event:
    """That event, kept."""
    from weighin.events.forms.events import NewEventForm

    form = NewEventForm(said, club=club)
    assert form.is_valid(), form.errors
    found = find(make_event(club, form.cleaned_data, "test").slug)
    assert found is not None
    return found
