"""Somebody who signs in: a file of what is kept about them, and the erasing of the account; what they wrote stays."""

import json

import pytest
import world
from django.contrib.sessions.models import Session
from django.test import Client

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.accounts.services.people import make_person
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club, Membership
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import record_slip

pytestmark = pytest.mark.django_db


@pytest.fixture
def official(event: Event) -> Client:
    client = world.member(event.club, Role.WEIGH_OFFICIAL, "quill")
    User.objects.filter(username="quill").update(first_name="Rosalind Quenby", email="rosalind@example.org")
    record_slip(event, world.slip(boat="1"), "quill")
    record_slip(event, world.slip(boat="2"), "other")
    return client


def test_the_file_is_all_that_is_theirs_and_no_more(event: Event, official: Client) -> None:
    answer = official.get("/my-data.json")
    told = json.loads(answer.content)
    assert (
        answer["Content-Disposition"] == 'attachment; filename="my-data.json"' and "no-store" in answer["Cache-Control"]
    )
    assert (told["account"]["user_name"], told["account"]["name"]) == ("quill", "Rosalind Quenby")
    assert told["account"]["e_mail"] == "rosalind@example.org"
    assert told["memberships"] == [{"club": event.club.name, "role": "weigh_official"}]
    assert "security_log" in told and "kept_with_the_account" in told
    assert [row["what"] for row in told["rows_written"]] == ["weigh slip"]
    assert {act["act"] for act in told["acts_in_the_history"]} == {"slip.recorded"}
    assert "argon" not in str(told) and "md5" not in str(told) and "other" not in str(told["acts_in_the_history"])


def test_the_page_says_the_same_in_a_sentence(official: Client) -> None:
    page = official.get("/my-data/").content.decode()
    assert "1 club that you are a member of" in page
    assert "Your data" in official.get("/clubs/").content.decode()


def test_strangers_are_asked_to_sign_in(db: None) -> None:
    for where in ("/my-data/", "/my-data.json"):
        assert Client().get(where)["Location"].startswith("/sign-in/")


def test_a_person_erases_their_own_account(event: Event, official: Client) -> None:
    world.member(event.club)
    page = official.get("/my-data/").content.decode()
    assert "cannot be undone" in page and "keep the user name" in page and "Backups keep it longer" in page
    session = official.cookies["sessionid"].value
    assert "Not saved." in official.post("/my-data/", {"typed": "quil"}).content.decode()
    assert official.post("/my-data/", {"typed": " Quill "}).status_code == 302
    assert (
        not User.objects.filter(username="quill").exists()
        and not Membership.objects.filter(role="weigh_official").exists()
    )
    assert official.get("/my-data/").status_code == 302
    line = HistoryEntry.objects.get(act="account.erased")
    assert line.actor == line.subject == "former official 1" and "quill" not in line.sentence
    assert WeighSlip.objects.filter(recorded_by="quill").count() == 1 and not ledger_of(event).faults
    assert not Session.objects.filter(session_key=session).exists()


def test_nobody_takes_the_user_name_afterwards(event: Event, official: Client) -> None:
    official.post("/my-data/", {"typed": "quill"})
    for taken in ("quill", "QUILL"):
        with pytest.raises(Faults) as found:
            make_person(taken, "four words are easy", "Somebody Else", "mara")
        assert [fault.field for fault in found.value.faults] == ["username"]


def test_a_director_erases_somebody_who_left(event: Event, official: Client) -> None:
    director = world.member(event.club, username="mara")
    member = Membership.objects.get(user__username="quill")
    where = f"/clubs/{event.club.slug}/privacy/members/{member.pk}/"
    assert "Erase the account of Rosalind Quenby?" in director.get(where).content.decode()
    assert director.post(where, {"typed": "quill"}).status_code == 302
    assert HistoryEntry.objects.get(act="account.erased").actor == "mara"
    assert director.get(where).status_code == 404
    assert world.stranger().get(where).status_code == 404
    assert world.member(event.club, Role.CLUB_REVIEWER).get(where).status_code == 403


def test_not_whoever_is_a_member_of_another_club(event: Event, official: Client) -> None:
    director = world.member(event.club)
    other = Club.objects.create(name="Far Bank", slug="far-bank")
    Membership.objects.create(user=User.objects.get(username="quill"), club=other, role=Role.WEIGH_OFFICIAL)
    member = Membership.objects.get(user__username="quill", club=event.club)
    page = director.post(f"/clubs/{event.club.slug}/privacy/members/{member.pk}/", {"typed": "quill"}).content.decode()
    assert "member of another club" in page and User.objects.filter(username="quill").exists()


def test_the_only_director_stays(event: Event) -> None:
    alone = world.member(event.club, username="mara")
    page = alone.post("/my-data/", {"typed": "mara"}).content.decode()
    assert "give another member that role first" in page and User.objects.filter(username="mara").exists()
    world.member(event.club)
    assert alone.post("/my-data/", {"typed": "mara"}).status_code == 302


def test_former_officials_are_counted_on(event: Event, official: Client) -> None:
    official.post("/my-data/", {"typed": "quill"})
    world.member(event.club, Role.WEIGH_OFFICIAL, "second").post("/my-data/", {"typed": "second"})
    assert list(HistoryEntry.objects.filter(act="account.erased").values_list("subject", flat=True)) == [
        "former official 1",
        "former official 2",
    ]
