"""Invitations by a link: once, within a week, withdrawn at will; who opens it says yes with it."""

import re
from datetime import timedelta
from hashlib import sha256
from typing import Any

import pytest
import world
from django.contrib.sessions.models import Session
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import SecurityEntry, User
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Invitation, Membership

pytestmark = pytest.mark.django_db
ROB = {"act": "link", "name": "Rob", "role": Role.WEIGH_OFFICIAL}
NEW = {
    "name": "Rob Castellan",
    "username": "r.castellan",
    "password": "bump table at noon",
    "again": "bump table at noon",
}


@pytest.fixture
def director() -> Client:
    return world.member(world.club(), username="mara")


def invite(director: Client, **said: str) -> str:
    page = director.post(reverse("clubs:members_new", args=["alder"]), ROB | said).content.decode()
    found = re.search(r"http://testserver(/join/[\w-]{43}/)<", page)
    assert found and "<svg" in page and "Rob is invited" in page
    return found[1]


def test_who_opens_it_chooses_a_name_and_a_password(director: Client) -> None:
    link = invite(director)
    token = link.split("/")[2]
    assert Invitation.objects.get().digest == sha256(token.encode()).hexdigest()
    kept = str(list(HistoryEntry.objects.values())) + str(list(SecurityEntry.objects.values()))
    assert token not in kept
    client = Client()
    before = Session.objects.count()
    assert "asks you to join as weigh official" in client.get(link).content.decode()
    assert Session.objects.count() == before
    page = client.post(link, NEW | {"password": "alder-crappie1", "again": "alder-crappie1"}).content.decode()
    assert "would try first" in page and not User.objects.filter(username="r.castellan").exists()
    assert "You are a member of Alder Crappie Club now." in client.post(link, NEW, follow=True).content.decode()
    member = Membership.objects.get(user__username="r.castellan")
    assert member.role == Role.WEIGH_OFFICIAL and not member.user.first_password
    assert (SecurityEntry.objects.get(kind="invitation_used").about) == "made by mara"
    assert HistoryEntry.objects.get(act="member.added").actor == "mara"


def test_a_link_of_this_machine_alone_says_so(director: Client, settings: Any) -> None:
    settings.ALLOWED_HOSTS = ["localhost", "testserver"]
    new, said = reverse("clubs:members_new", args=["alder"]), "This link opens on this machine only."
    for host, warned in (("localhost:8000", True), ("[::1]:8000", True), ("[::1]", True), ("testserver", False)):
        settings.ALLOWED_HOSTS = [*settings.ALLOWED_HOSTS, "[::1]"]
        assert (said in director.post(new, ROB, HTTP_HOST=host).content.decode()) is warned, host


def test_it_opens_once(director: Client) -> None:
    link = invite(director)
    Client().post(link, NEW)
    other = Client().post(link, NEW | {"username": "other"})
    assert other.status_code == 404 and "opens nothing anymore" in other.content.decode()
    assert Membership.objects.count() == 2


def test_who_has_a_user_name_signs_in_and_says_yes(director: Client) -> None:
    link = invite(director)
    world.stranger()
    known = User.objects.exclude(username="mara").get()
    client = Client()
    assert f"?next={link}" in client.get(link).content.decode()
    right = {"username": known.username, "password": "a pass phrase", "next": link}
    page = client.post(reverse("accounts:sign_in"), right, follow=True).content.decode()
    assert "Yes, join" in page and not known.memberships.filter(club__slug="alder").exists()
    client.post(link)
    assert known.memberships.filter(club__slug="alder").exists()
    again = invite(director)
    assert "is a member of Alder Crappie Club already" in client.post(again, follow=True).content.decode()
    assert Invitation.objects.filter(closed_at__isnull=True).count() == 1


def test_it_ends_after_a_week(director: Client) -> None:
    link = invite(director)
    Invitation.objects.update(ends_at=timezone.now() - timedelta(seconds=1))
    assert Client().post(link, NEW).status_code == 404 and Membership.objects.count() == 1


def test_a_director_sees_open_ones_and_withdraws_them(director: Client) -> None:
    link = invite(director)
    members = reverse("clubs:members", args=["alder"])
    where = re.search(r'action="(/clubs/alder/invitations/\d+/withdraw/)"', director.get(members).content.decode())
    assert where
    assert world.stranger().post(where[1]).status_code == 404
    assert "is withdrawn" in director.post(where[1], follow=True).content.decode()
    assert Client().get(link).status_code == 404
    assert "withdrawn already" in director.post(where[1], follow=True).content.decode()
    assert "/withdraw/" not in director.get(members).content.decode()


@pytest.mark.parametrize("token", ["x", "0" * 43, "²", "a" * 500])
def test_a_link_that_nobody_made(director: Client, token: str) -> None:
    assert Client().get(reverse("clubs:join", args=[token])).status_code == 404


@pytest.mark.parametrize("said", [{"name": ""}, {"role": ""}, {"role": "king"}, {"name": "R\u200bob"}])
def test_faults_of_an_invitation(director: Client, said: dict[str, str]) -> None:
    director.post(reverse("clubs:members_new", args=["alder"]), ROB | said)
    assert not Invitation.objects.exists()
