"""Who is asked, and of which event."""

import pytest
import world
from django.test import Client

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def director(event: Event) -> Client:
    return world.member(event.club, Role.DIRECTOR, "marrow")


@pytest.fixture
def official(event: Event) -> Client:
    return world.member(event.club, Role.WEIGH_OFFICIAL, "quill")
