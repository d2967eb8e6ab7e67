"""The page of what to bring to the lake, and what to do when something dies."""

import pytest
import world
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("role", [Role.DIRECTOR, Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL])
def test_officials_are_led_to_it_and_read_the_cautions_first(event: Event, role: Role) -> None:
    client = world.member(event.club, role)
    address = reverse("operations:lake", args=[event.slug])
    assert address in client.get(event.get_absolute_url()).content.decode()
    page = client.get(address).content.decode()
    words = ("Lightning", "GFCI", "generator outdoors only", "Laptop", "Router", "Printer", "Numbered paper slips")
    assert [word for word in words if word not in page] == []
    assert page.index("Safety first") < page.index("Bring") < page.index("When it dies")
