"""What is changed of a club, a water or a member raises the revision of the events on whose pages it stands."""

from collections.abc import Callable

import pytest
import world

from weighin.accounts.models import User
from weighin.clubs.models import Membership, Water
from weighin.clubs.services import clubs, invitations, membership
from weighin.events.models import Event


def revision(event: Event) -> int:
    return Event.objects.values_list("revision", flat=True).get(pk=event.pk)


def rename(event: Event) -> None:
    clubs.rename_club(event.club, "Another Name", "anna")


def measure(event: Event) -> None:
    clubs.change_water(event.water, event.water.name, 1234, "anna")


def add(event: Event) -> None:
    anna, _ = User.objects.get_or_create(username="anna")
    invitations.bring_in(event.club, "newcomer", "New Comer", "weigh_official", anna)


def change(event: Event) -> None:
    add(event)
    membership.change_role(Membership.objects.get(user__username="newcomer"), "club_reviewer", "anna")


def remove(event: Event) -> None:
    add(event)
    membership.remove_member(Membership.objects.get(user__username="newcomer"), "anna")


@pytest.mark.parametrize(("act", "writes"), [(rename, 1), (measure, 1), (add, 1), (change, 2), (remove, 2)])
def test_the_events_of_the_club_are_told(db: None, act: Callable[[Event], None], writes: int) -> None:
    event = world.event("Told", 2)
    other = world.event("Not told", 2, club="Another Club")
    before = revision(event), revision(other)
    act(event)
    assert (revision(event), revision(other)) == (before[0] + writes, before[1])


def test_a_water_tells_its_own_events_alone(db: None) -> None:
    event = world.event("Told", 2)
    elsewhere = world.event("Not told", 2)
    Event.objects.filter(pk=elsewhere.pk).update(water=Water.objects.create(club=event.club, name="Other Water"))
    before = revision(elsewhere)
    measure(event)
    assert revision(elsewhere) == before
