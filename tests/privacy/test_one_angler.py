"""One angler of a club: found wherever the name stands, taken out as a file, erased; what stays is said before."""

import json
from pathlib import Path

import pytest
import world
from django.test import Client

from weighin.accounts.domain.roles import Role
from weighin.audit.models import AppendOnly
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.privacy.queries.mentions import _models, mentions
from weighin.roster.models import Angler
from weighin.standings.services import publish_result
from weighin.workbooks.parsing.reading import read_workbook

pytestmark = pytest.mark.django_db
NAME = "Mara Quennell"
# Tables of ours in which nobody can write a name, or that belong to no club
WITHOUT_NAMES = {"PublishedOnce", "DatabaseLife", "User", "Membership", "Club", "ClubPrivacy"} | {
    "Device",
    "SecondFactor",
    "RecoveryCode",
}


@pytest.fixture
def event() -> Event:
    teams = [
        {"boat": "7", "team": "Quennell pair", "angler_1": NAME, "angler_2": "Ines Quarrie", "youth": "yes"},
        {"boat": "8", "team": "Others", "angler_1": "Kit Quayle", "note": f"{NAME} lends the boat"},
    ]
    slips = [
        world.slip(boat="7", note=f"{NAME} asked twice", official="mara  QUENNELL"),
        world.slip(boat="8", gross="7.00"),
    ]
    found = world.event("First", teams, slips)
    world.event("Second", [{"boat": "3", "team": "Alone", "angler_1": f" {NAME.upper()} "}])
    publish_result(found, "test")
    found.refresh_from_db()
    return found


@pytest.fixture
def client(event: Event) -> Client:
    return world.member(event.club)


def where(event: Event) -> str:
    return f"/clubs/{event.club.slug}/privacy/angler/"


def test_every_text_of_the_club_is_searched(event: Event) -> None:
    found = mentions(event.club, NAME)
    assert {(one.kept_in, one.field, one.erased) for one in found} == {
        ("angler", "name", True),
        ("kept aside", "words", True),  # what the history says of the team of the second event
        ("entry", "note", True),
        ("weigh slip", "note", False),
        ("weigh slip", "official", False),
    }
    assert {one.event for one in found} == {"First", "Second"} and len(found) == 6


def test_no_table_with_texts_is_left_out() -> None:
    from django.apps import apps
    from django.db.models import CharField, JSONField, TextField

    searched = set(_models())
    for model in apps.get_models():
        if model.__module__.startswith("weighin.") and model.__name__ not in WITHOUT_NAMES:
            texts = [f for f in model._meta.concrete_fields if isinstance(f, CharField | TextField | JSONField)]
            assert model in searched or not [f for f in texts if not f.choices and not f.primary_key], model
    assert sum(issubclass(model, AppendOnly) for model in searched) > 5


def test_the_page_says_what_goes_and_what_stays_before_the_act(event: Event, client: Client) -> None:
    page = client.post(where(event), {"act": "find", "name": NAME}).content.decode()
    assert "stands in 6 places" in page and "asked twice" in page and "only ever added" in page
    assert "cannot be undone" in page and "Backups keep it longer" in page
    assert "Ines Quarrie" not in page
    assert "stands nowhere" in client.post(where(event), {"act": "find", "name": "Nobody Here"}).content.decode()


def test_the_file_holds_what_is_kept(event: Event, client: Client) -> None:
    answer = client.post(where(event), {"act": "file", "name": NAME})
    assert answer["Content-Disposition"] == 'attachment; filename="angler.json"'
    told = json.loads(answer.content)
    assert [(one["event"], one["boat"], one["youth_team"]) for one in told["fished"]] == [
        ("First", 7, True),
        ("Second", 3, None),
    ]
    assert len(told["said_in"]) == 6 and "Quarrie" not in answer.content.decode()


def test_erasing_takes_it_from_every_event_and_leaves_results(event: Event, client: Client) -> None:
    before = Client().get(f"/api/events/{event.slug}").json()
    assert client.post(where(event), {"act": "erase", "name": "mara quennell"}).status_code == 302
    assert list(Angler.objects.order_by("pk").values_list("name", flat=True)) == [
        "Angler 1 of boat 7", "Ines Quarrie", "Kit Quayle", "Angler 1 of boat 3",
    ]  # fmt: skip
    assert not [one for one in mentions(event.club, NAME) if one.erased]
    assert Client().get(f"/api/events/{event.slug}").json() == before
    for one in Event.objects.all():
        assert not ledger_of(one).faults
    assert "No team of this club" in client.post(where(event), {"act": "erase", "name": NAME}).content.decode()


def test_the_erased_event_is_still_a_workbook_that_comes_in_again(event: Event, client: Client, tmp_path: Path) -> None:
    client.post(where(event), {"act": "erase", "name": NAME})
    file = tmp_path / "event.xlsx"
    file.write_bytes(client.get(f"/events/{event.slug}/files/xlsx").content)
    plan, report = read_workbook(file)
    assert plan is not None, report.faults
    assert plan.entries[0].anglers == ("Angler 1 of boat 7", "Ines Quarrie", "")
    assert NAME not in str(plan.entries)


def test_only_a_director_and_only_their_club(event: Event) -> None:
    for role in (Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER):
        assert world.member(event.club, role).post(where(event), {"act": "find", "name": NAME}).status_code == 403
    assert world.stranger().post(where(event), {"act": "find", "name": NAME}).status_code == 404
    far = Event.objects.get(pk=world.event("Far", [{"boat": "1", "team": "X", "angler_1": NAME}], club="Heron Bend").pk)
    world.member(event.club).post(where(event), {"act": "erase", "name": NAME})
    assert Angler.objects.get(entry__event=far).name == NAME
