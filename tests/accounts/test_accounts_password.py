"""Changing one's own password, and what a password and a user name may be."""

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.accounts.models import User
from weighin.accounts.services.people import make_person
from weighin.audit.models import HistoryEntry
from weighin.rules.faults import Faults

pytestmark = pytest.mark.django_db
PAGE = reverse("accounts:password")
OLD, NEW = "a pass phrase", "quill reservoir at dawn"


@pytest.fixture
def person() -> User:
    return User.objects.create_user("mara", password=OLD, first_name="Mara Lindell")


def test_a_new_password_keeps_this_device_and_signs_the_others_out(person: User) -> None:
    here, there = world.signed_in(person), world.signed_in(person)
    answer = here.post(PAGE, {"old": OLD, "password": NEW, "again": NEW})
    assert answer.status_code == 302
    assert here.get(PAGE).status_code == 200
    assert there.get(PAGE).status_code == 302
    person.refresh_from_db()
    assert person.check_password(NEW)
    entry = HistoryEntry.objects.get(act="person.password")
    assert entry.actor == "mara" and NEW not in entry.sentence + str(entry.details)


@pytest.mark.parametrize(
    ("old", "new", "again", "sentence"),
    [
        ("wrong", NEW, NEW, "This is not your password now"),
        (OLD, "short", "short", "at least 8 characters"),
        (OLD, "password1", "password1", "too common"),
        (OLD, "mara lindell", "mara lindell", "too similar"),
        (OLD, NEW, NEW + "x", "It differs from the new password"),
        (OLD, "", "", "This is blank"),
    ],
)
def test_a_password_that_will_not_do_changes_nothing(
    person: User, old: str, new: str, again: str, sentence: str
) -> None:
    client = world.signed_in(person)
    page = client.post(PAGE, {"old": old, "password": new, "again": again}).content.decode()
    assert sentence in page
    person.refresh_from_db()
    assert person.check_password(OLD)
    assert not HistoryEntry.objects.exists()


@pytest.mark.parametrize("username", ["", "two words", "semi;colon", "x" * 151, "MARA"])
def test_a_user_name_that_will_not_do_is_refused_with_all_other_faults(person: User, username: str) -> None:
    with pytest.raises(Faults) as found:
        make_person(username, "short", "line\nbreak", "test")
    assert [fault.field for fault in found.value.faults] == ["name", "username", "password"]
    assert User.objects.count() == 1


def test_people_are_made_with_their_name_as_others_read_it() -> None:
    made = make_person(" r.castellan ", NEW, "  Rob   Castellan ", "test")
    assert (made.username, str(made)) == ("r.castellan", "Rob Castellan")
    assert HistoryEntry.objects.get().sentence == "r.castellan can sign in"
    assert Client().login(username="r.castellan", password=NEW)
