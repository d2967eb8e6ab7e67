"""Who sends forms by program: stamps, the trap, counts of a network, other sites."""

import pytest
import world
from django.core import signing
from django.core.cache import cache
from django.test import Client
from signup.form import TEAM, address, event, older, send, stamp

from weighin.accounts.domain.roles import Role
from weighin.signup.models import SignUp
from weighin.signup.services import brakes
from weighin.signup.services import sign_ups as services

pytestmark = pytest.mark.django_db


def refused(answer: object, why: bytes) -> None:
    assert answer.status_code == 200 and why in answer.content, why  # type: ignore[attr-defined]
    assert b"Ann Alder" in answer.content and not SignUp.objects.exists()  # type: ignore[attr-defined]


def test_a_form_that_is_sent_at_once_waits_and_then_goes_through() -> None:
    found = event()
    page = Client().get(address(found))
    fast = Client().post(address(found), {"stamp": stamp(page, 0), **TEAM})
    refused(fast, b"faster than anyone can type")
    assert Client().post(address(found), {"stamp": stamp(fast, 5), **TEAM}).status_code == 302


def test_a_page_that_was_open_for_days_comes_back_with_everything_typed_and_a_new_stamp() -> None:
    found = event()
    page = Client().get(address(found))
    old = Client().post(address(found), {"stamp": stamp(page, 90_000), **TEAM})
    refused(old, b"open for too long")
    assert Client().post(address(found), {"stamp": stamp(old), **TEAM}).status_code == 302


@pytest.mark.parametrize("made", ["", "nonsense", "a:b:c"])
def test_a_stamp_that_is_not_the_sites_keeps_nothing(made: str) -> None:
    found = event()
    refused(Client().post(address(found), {"stamp": made, **TEAM}), b"could not be read")


def test_the_stamp_of_another_event_keeps_nothing() -> None:
    found, other = event(), event("Other")
    foreign = older(brakes.new_stamp(other.pk), 60)
    refused(Client().post(address(found), {"stamp": foreign, **TEAM}), b"could not be read")
    odd = signing.dumps("no list", salt=brakes.SALT)
    refused(Client().post(address(found), {"stamp": odd, **TEAM}), b"could not be read")


def test_who_fills_in_the_line_that_nobody_sees_is_sent_back() -> None:
    found = event()
    refused(send(Client(), found, website="http://spam.example"), b"must stay blank")


def test_a_network_signs_up_so_often_an_hour_and_the_desk_as_often_as_it_likes() -> None:
    found = event()
    for n in range(brakes.MOST_AN_HOUR):
        assert send(Client(), found, name=f"Team {n}", angler_1=f"Ann {n}", angler_2="").status_code == 302
    answer = send(Client(), found, name="One more")
    assert answer.status_code == 429 and b'value="One more"' in answer.content
    assert b"too many sign-ups came from your network" in answer.content.lower()
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    assert send(desk, found, name="By the desk").status_code == 302
    elsewhere = Client(REMOTE_ADDR="198.51.100.7")
    assert send(elsewhere, found, name="Elsewhere", angler_1="Zoe", angler_2="").status_code == 302


def test_tries_are_counted_too_and_an_ipv6_network_is_one() -> None:
    for n in range(brakes.MOST_TRIES_AN_HOUR):
        assert not brakes.too_often(f"2001:db8:1:2::{n:x}")
    assert brakes.too_often("2001:db8:1:2:ffff::1")
    assert not brakes.too_often("2001:db8:1:3::1")


def test_a_count_that_runs_out_in_between_begins_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cache, "incr", lambda key: (_ for _ in ()).throw(ValueError))
    assert not brakes.too_often("198.51.100.8")


@pytest.mark.parametrize("approval", ["by_hand", "at_once"])
def test_so_many_are_open_and_no_more(monkeypatch: pytest.MonkeyPatch, approval: str) -> None:
    monkeypatch.setattr(services, "MOST_OPEN", 1)
    found = event(approval=approval)
    send(Client(), found)
    again = send(Client(), found, name="Second")
    assert b"oo many sign-ups wait" in again.content


def test_another_site_cannot_send_it() -> None:
    found = event()
    strict = Client(enforce_csrf_checks=True)
    page = strict.get(address(found))
    assert strict.post(address(found), {"stamp": stamp(page), **TEAM}).status_code == 403
    assert not SignUp.objects.exists()


@pytest.mark.parametrize(
    "said",
    [
        {"name": "x" * 500},
        {"phone": "5" * 100},
        {"emergency": "x" * 300},
        {"email": f"{'x' * 300}@lake.example"},
        {"name": "a\u0000b"},
        {"name": "Herоn"},
        {"minor_1": "perhaps"},
        {"youth": "x"},
    ],
)
def test_what_is_too_long_or_odd_is_a_fault_and_no_crash(said: dict[str, str]) -> None:
    found = event()
    answer = send(Client(), found, **said)
    assert answer.status_code == 200 and b'role="alert"' in answer.content
    assert not SignUp.objects.exists()


def test_markup_is_text() -> None:
    found = event()
    page = Client().get(send(Client(), found, name="<script>alert(1)</script>")["Location"])
    assert b"<script>alert" not in page.content and b"&lt;script&gt;alert" in page.content
