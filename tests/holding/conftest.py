"""Who is asked, and of which event."""

import pytest
import world
from django.test import Client

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event


@pytest.fixture
def event(db: None) -> Event:
    return world.event()


@pytest.fixture
def carer(event: Event) -> Client:
    return world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")
