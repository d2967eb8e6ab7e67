"""How long sessions last, the list of one's own, and what leaves no session."""

from datetime import timedelta
from typing import Any

import pytest
import world
from django.contrib.sessions.models import Session
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.domain.devices import device_words
from weighin.accounts.domain.roles import Role
from weighin.accounts.models import Device, User
from weighin.accounts.services import sessions
from weighin.clubs.models import Club

pytestmark = pytest.mark.django_db
SIGN_IN, DEVICES, PASSWORD = (reverse(f"accounts:{name}") for name in ("sign_in", "devices", "password"))
RIGHT = {"username": "mara", "password": "a pass phrase"}
ANDROID = (
    "Mozilla/5.0 (Linux; Android 14; Pixel) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0 Mobile Safari/537.36"
)


@pytest.fixture
def club() -> Club:
    return world.club()


def signed_in(agent: str = ANDROID, address: str = "10.0.0.7", **more: str) -> Client:
    client = Client(HTTP_USER_AGENT=agent, REMOTE_ADDR=address)
    assert client.post(SIGN_IN, RIGHT | more).status_code == 302
    return client


def hours_left() -> float:
    return (Session.objects.get().expire_date - timezone.now()).total_seconds() / 3600


@pytest.mark.parametrize(("role", "hours"), [(Role.DIRECTOR, 2), (Role.WEIGH_OFFICIAL, 12)])
def test_twelve_hours_or_two_for_a_director(club: Club, role: Role, hours: int) -> None:
    world.member(club, role, "mara").logout()
    signed_in()
    assert hours_left() == pytest.approx(hours, abs=0.02)


def test_a_directors_two_hours_begin_anew_with_a_page_and_end_after_twelve(club: Club, monkeypatch: Any) -> None:
    world.member(club, username="mara").logout()
    client, began = signed_in(), timezone.now()

    def ends_after(minutes: int, **headers: str) -> float:
        """Minutes from the sign-in to the end of the session, after a page was asked for then."""
        monkeypatch.setattr(sessions.timezone, "now", lambda: began + timedelta(minutes=minutes))
        assert client.get(DEVICES, **headers).status_code == 200  # type: ignore[arg-type]
        return (Session.objects.get().expire_date - began).total_seconds() / 60

    assert ends_after(3) == pytest.approx(120, abs=1)
    assert ends_after(60, HTTP_HX_REQUEST="true") == pytest.approx(120, abs=1)
    for minutes in (60, 170, 280, 390, 500):
        assert ends_after(minutes) == pytest.approx(minutes + 120, abs=1)
    for minutes in (610, 700):
        assert ends_after(minutes) == pytest.approx(12 * 60, abs=1)
    monkeypatch.setattr(sessions.timezone, "now", lambda: began + timedelta(minutes=721))
    assert client.get(DEVICES).status_code == 302


def test_ones_own_sessions_are_listed_and_ended(club: Club) -> None:
    world.member(club, Role.WEIGH_OFFICIAL, "mara").logout()
    world.member(club, Role.WEIGH_OFFICIAL, "ines")
    here, tablet, third = signed_in(), signed_in("Mozilla/5.0 (iPad) Safari/604.1", "10.0.0.8"), signed_in("curl/8")
    page = here.get(DEVICES).content.decode()
    for said in (
        "2 other devices",
        "Chrome on Android",
        "Safari on iPad",
        "10.0.0.8",
        "another program",
        "this device",
    ):
        assert said in page
    of_tablet = Device.objects.get(address="10.0.0.8")
    assert "1 device is signed out." in here.post(DEVICES, {"device": of_tablet.pk}, follow=True).content.decode()
    assert tablet.get(DEVICES).status_code == 302 and third.get(DEVICES).status_code == 200
    here.post(DEVICES, {"device": "others"})
    assert third.get(DEVICES).status_code == 302 and here.get(DEVICES).status_code == 200
    assert Device.objects.count() == 1


@pytest.mark.parametrize("device", ["", "x", "0", "99999999999999999999", "²"])
def test_nobody_ends_a_session_of_somebody_else(club: Club, device: str) -> None:
    other = world.member(club, Role.DIRECTOR, "ines")
    other.logout()
    theirs = signed_in(username="ines")
    world.member(club, Role.WEIGH_OFFICIAL, "mara")
    signed_in().post(DEVICES, {"device": device or Device.objects.get(user__username="ines").pk})
    assert theirs.get(DEVICES).status_code == 200


def test_another_password_ends_the_other_sessions(club: Club) -> None:
    world.member(club, username="mara").logout()
    here, there = signed_in(), signed_in()
    new = "quill reservoir at dawn"
    here.post(PASSWORD, {"old": RIGHT["password"], "password": new, "again": new})
    assert there.get(DEVICES).status_code == 302
    assert "You are signed in here only." in here.get(DEVICES).content.decode()
    assert Session.objects.count() == 1 and Device.objects.count() == 1


def test_signing_out_forgets_the_device(club: Club) -> None:
    world.member(club, username="mara").logout()
    signed_in().post(reverse("accounts:sign_out"))
    assert not Device.objects.exists() and not Session.objects.exists()


@pytest.mark.parametrize("name", ["clubs:begin", "accounts:sign_out", "accounts:sign_in", "accounts:sign_in_step"])
def test_whoever_passes_by_leaves_no_session(club: Club, name: str) -> None:
    User.objects.create_user("mara")
    for _ in range(3):
        client = Client()
        client.get(reverse(name), follow=True)
        client.post(reverse(name), {"username": "mara", "password": "wrong"}, follow=True)
    assert not Session.objects.exists()


def test_ended_sessions_are_cleared_once_a_day_at_a_sign_in(club: Club) -> None:
    world.member(club, username="mara").logout()
    old = timezone.now() - timedelta(minutes=1)
    Session.objects.create(session_key="old", session_data="", expire_date=old)
    Device.objects.create(user=User.objects.get(), session_key="old", words="", address="")
    signed_in()
    assert not Session.objects.filter(pk="old").exists() and Device.objects.count() == 1
    Session.objects.create(session_key="old", session_data="", expire_date=old)
    signed_in()
    assert Session.objects.filter(pk="old").exists()
    cache.clear()
    signed_in()
    assert not Session.objects.filter(pk="old").exists()


@pytest.mark.parametrize(
    ("agent", "words"),
    [
        ("Mozilla/5.0 (Windows NT 10.0; Win64) Chrome/126.0 Safari/537.36 Edg/126.0", "Edge on Windows"),
        ("Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15) Version/17.5 Safari/605.1", "Safari on Mac"),
        ("Mozilla/5.0 (X11; Linux x86_64; rv:127.0) Gecko/20100101 Firefox/127.0", "Firefox on Linux"),
        ("", "a script or another program"),
    ],
)
def test_a_browser_in_words(agent: str, words: str) -> None:
    assert device_words(agent) == words
