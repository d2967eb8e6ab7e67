"""The security log: what comes into it, what never does, who reads it, and that nobody fills the disk by it."""

from datetime import timedelta
from typing import Any

import pytest
import world
from django.db import DatabaseError, connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import SecurityEntry, User
from weighin.accounts.services import security_log
from weighin.clubs.models import Membership
from weighin.events.models import Event
from weighin.privacy.services.erasing import erase_account
from weighin.stations.services.stations import make_station, withdraw_station

pytestmark = pytest.mark.django_db
SIGN_IN = reverse("accounts:sign_in")
RIGHT = {"username": "mara", "password": "a pass phrase"}
Kind = SecurityEntry.Kind


def page_of(event: Event) -> str:
    reader = world.member(event.club)
    return reader.get(reverse("clubs:security", args=[event.club.slug])).content.decode()


def entry(kind: str) -> SecurityEntry:
    return SecurityEntry.objects.get(kind=kind)


def test_signing_in_and_out_and_wrong_tries(event: Event) -> None:
    world.member(event.club, username="mara").logout()
    client = Client(REMOTE_ADDR="10.0.0.7")
    for _ in range(3):
        client.post(SIGN_IN, RIGHT | {"password": "wrong one"})
    client.post(SIGN_IN, RIGHT | {"username": "hunter2 is my password"})
    Client(REMOTE_ADDR="10.0.0.8").post(SIGN_IN, RIGHT)
    wrong = SecurityEntry.objects.filter(kind=Kind.WRONG_PASSWORD)
    assert [(one.actor, one.times, one.address) for one in wrong.filter(person_id__isnull=False)] == [
        ("mara", 3, "10.0.0.7")
    ]
    there = Client(REMOTE_ADDR="10.0.0.9")
    there.post(SIGN_IN, RIGHT | {"username": "hunter2 is my password"})
    assert {one.actor for one in wrong.filter(person_id__isnull=True)} == {""}
    there.post(SIGN_IN, RIGHT)
    there.post(reverse("accounts:sign_out"))
    assert entry(Kind.SIGN_OUT).actor == "mara"
    page = page_of(event)
    assert "10.0.0.7" in page and "Wrong password" in page and "an unknown user name" in page
    kept = str(list(SecurityEntry.objects.values()))
    assert "hunter2" not in kept and "wrong one" not in kept and "a pass phrase" not in kept


def test_who_is_refused_what(event: Event) -> None:
    official = world.member(event.club, Role.WEIGH_OFFICIAL, "olaf")
    where = reverse("clubs:members", args=[event.club.slug])
    assert official.get(where).status_code == 403
    stranger = world.stranger()
    assert stranger.get(reverse("standings:live", args=[event.slug])).status_code == 404
    assert stranger.get(reverse("stations:api_station", args=[event.slug])).status_code == 404
    found = SecurityEntry.objects.filter(kind=Kind.REFUSED, club_id=event.club.pk).order_by("id")
    assert found[0].actor == "olaf" and found[0].about == f"GET {where}" and found.count() == 2
    page = page_of(event)
    assert "olaf" in page and "somebody of another club" in page
    assert User.objects.get(memberships__club__name__startswith="Far").username not in page
    assert stranger.get(reverse("clubs:members", args=["nowhere"])).status_code == 404 and found.count() == 2


def test_tokens(event: Event) -> None:
    _, token = make_station(event, "Table", ["weigh"], "mara")
    where = reverse("stations:api_station", args=[event.slug])
    assert Client(HTTP_AUTHORIZATION="Bearer wrong").get(where).status_code == 401
    withdraw_station(event, "Table", "mara")
    for _ in range(3):
        assert Client(HTTP_AUTHORIZATION=f"Bearer {token}").get(where).status_code == 401
    refused = SecurityEntry.objects.filter(kind=Kind.TOKEN_REFUSED).order_by("id")
    assert [(one.actor, one.times) for one in refused] == [("an unknown token", 1), ("station Table, withdrawn", 3)]
    page = page_of(event)
    assert "Tablet paired" in page and "Tablet withdrawn" in page and "Token refused" in page
    assert "tablet Table, withdrawn" in page and "station Table" not in page
    assert token not in page and token not in str(list(SecurityEntry.objects.values()))


def test_changes_of_members_and_passwords(event: Event) -> None:
    director = world.member(event.club, username="mara")
    who = User.objects.create_user("ines", password="a pass phrase")
    member = Membership.objects.create(user=who, club=event.club, role=Role.CLUB_REVIEWER)
    where = reverse("clubs:member", args=[event.club.slug, member.pk])
    director.post(where, {"act": "role", "role": Role.WEIGH_OFFICIAL})
    director.post(where, {"act": "password"})
    director.post(where, {"act": "remove"})
    assert [one.about for one in SecurityEntry.objects.filter(kind=Kind.ROLE)] == [
        f"ines is no longer a member of {event.club}",
        "ines is now weigh official, was club reviewer",
    ]
    assert (entry(Kind.PASSWORD).actor, entry(Kind.PASSWORD).about) == ("ines", "by mara")


def test_only_directors_read_it_and_only_of_their_club(event: Event) -> None:
    security_log.log_security(Kind.ROLE, actor="quill", club_id=event.club.pk, about="something here")
    where = reverse("clubs:security", args=[event.club.slug])
    assert Client().get(where).status_code == 302
    for role in set(Role) - {Role.DIRECTOR}:
        assert world.member(event.club, role).get(where).status_code == 403
    other = world.stranger()
    club = Membership.objects.exclude(club=event.club).get().club
    assert other.get(where).status_code == 404
    page = other.get(reverse("clubs:security", args=[club.slug])).content.decode()
    assert "something here" not in page and "olaf" not in page
    assert "something here" in page_of(event)


def test_the_page_asks_the_database_as_often_for_one_as_for_three_hundred(event: Event) -> None:
    reader = world.member(event.club)
    where = reverse("clubs:security", args=[event.club.slug])

    def queries(entries: int) -> int:
        SecurityEntry.objects.bulk_create(
            SecurityEntry(kind=Kind.SIGN_IN, actor="x", club_id=event.club.pk) for _ in range(entries)
        )
        with CaptureQueriesContext(connection) as asked:
            assert reader.get(where).status_code == 200
        return len(asked)

    queries(1)
    assert queries(0) == queries(299)
    assert "page=2" in reader.get(where).content.decode()


def test_an_attack_counts_up_and_old_entries_go(event: Event, monkeypatch: Any) -> None:
    for number in range(500):
        security_log.log_security(Kind.TOKEN_REFUSED, club_id=event.club.pk, about=f"token {number}")
    assert entry(Kind.TOKEN_REFUSED).times == 500
    SecurityEntry.objects.update(last_at=timezone.now() - timedelta(days=security_log.KEPT_DAYS, minutes=1))
    monkeypatch.setattr(security_log, "MOST_ENTRIES", 10)
    for number in range(15):
        security_log.log_security(Kind.ROLE, actor="mara", club_id=event.club.pk, about=f"act {number}")
    security_log.prune()
    assert [one.about for one in SecurityEntry.objects.order_by("id")] == [f"act {n}" for n in range(5, 15)]


def test_a_refusal_stands_also_where_nothing_can_be_written(event: Event, monkeypatch: Any) -> None:
    def full(*said: Any, **more: Any) -> None:
        raise DatabaseError("database or disk is full")

    official = world.member(event.club, Role.WEIGH_OFFICIAL)
    monkeypatch.setattr(security_log, "log_security", full)
    assert official.get(reverse("clubs:members", args=[event.club.slug])).status_code == 403
    assert Client(HTTP_AUTHORIZATION="Bearer wrong").get(
        reverse("stations:api_station", args=[event.slug])
    ).status_code == 401  # fmt: skip


def test_an_account_that_is_erased_leaves_no_name_and_no_address_in_it(event: Event) -> None:
    world.member(event.club)
    who = User.objects.create_user("ines.amaro", password="a pass phrase", first_name="Ines", last_name="Amaro")
    Membership.objects.create(user=who, club=event.club, role=Role.CLUB_REVIEWER)
    Client(REMOTE_ADDR="10.9.8.7").post(SIGN_IN, {"username": "ines.amaro", "password": "a pass phrase"})
    security_log.log_security(Kind.ROLE, actor="ines.amaro", club_id=event.club.pk, about="Ines Amaro is director")
    called = erase_account(who, "ines.amaro", "mara")
    kept = str(list(SecurityEntry.objects.values()))
    assert called in kept and not any(said in kept for said in ("ines", "Ines", "Amaro", "10.9.8.7"))
