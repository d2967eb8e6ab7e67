"""Letters to teams that signed up: which, to whom, how often; and none where no mail is set."""

import re
from collections.abc import Iterator
from datetime import timedelta

import pytest
import world
from django.core import mail
from django.test import Client, override_settings
from django.utils.translation import get_language
from signup.form import TEAM, address, event, send

from weighin.letters.models import Letter
from weighin.letters.services.sending import send_letters
from weighin.registration.services.payments import take_payment
from weighin.roster.models import Entry
from weighin.signup.models import SignUp
from weighin.signup.services import telling
from weighin.signup.services.sign_ups import approve, refuse

pytestmark = pytest.mark.django_db


@pytest.fixture
def _with_mail() -> Iterator[None]:
    with override_settings(MAIL_FROM="desk@lake.example"):
        yield


def hours_go_by() -> None:
    for letter in Letter.objects.all():
        letter.due_at -= timedelta(hours=3)
        letter.sent_at = letter.sent_at and letter.sent_at - timedelta(hours=3)
        letter.save()
    send_letters()


def subjects() -> list[str]:
    return [letter.subject for letter in mail.outbox]


@pytest.mark.usefixtures("_with_mail")
def test_the_link_comes_by_e_mail_and_nothing_that_was_typed() -> None:
    found = event()
    link = send(Client(), found)["Location"]
    send_letters()
    (letter,) = mail.outbox
    assert letter.to == [TEAM["email"]] and letter.subject == "Sign-up for Open water"
    assert f"http://testserver{link}" in letter.body
    for typed in ("Heron pair", "Alder", "Birch", "555"):
        assert typed not in letter.body + letter.subject
    desk = world.member(found.club)
    assert b"The team was sent an e-mail" in desk.get(f"/events/{found.slug}/sign-ups/1/").content


@pytest.mark.usefixtures("_with_mail")
def test_a_letter_has_the_language_of_the_page_that_was_filled_in(monkeypatch: pytest.MonkeyPatch) -> None:
    heard: list[str | None] = []
    monkeypatch.setattr(telling, "link_of", lambda _: heard.append(get_language()) or "/")
    found = event()
    send(Client(headers={"accept-language": "es-MX"}), found)
    approve(SignUp.objects.get(), "desk")
    assert SignUp.objects.get().language == "es" and set(heard) == {"es"}


@pytest.mark.usefixtures("_with_mail")
def test_approval_and_refusal_are_told_an_hour_later_at_the_soonest() -> None:
    found = event()
    link = send(Client(), found)["Location"]
    send_letters()
    approve(SignUp.objects.get(), "mara")
    send_letters()
    assert len(mail.outbox) == 1
    hours_go_by()
    assert subjects()[1:] == ["You are entered: Open water"] and link in mail.outbox[1].body
    send(Client(), found, name="Second", angler_1="Eve", angler_2="", email="eve@lake.example")
    refuse(SignUp.objects.get(name="Second"), "Members only", "mara")
    hours_go_by()
    hours_go_by()
    assert "Your sign-up was not accepted: Open water" in subjects()
    assert not Letter.objects.exclude(address="").exists()


@pytest.mark.usefixtures("_with_mail")
def test_nobodys_mailbox_is_filled_from_here() -> None:
    found = event(approval="at_once")
    for n in range(12):
        send(Client(), found, name=f"Team {n}", angler_1=f"Ann {n}", angler_2="", email="victim@lake.example")
    assert SignUp.objects.count() == 12
    assert Letter.objects.count() == 3
    send_letters()
    send_letters()
    assert len(mail.outbox) == 1


@pytest.mark.usefixtures("_with_mail")
def test_who_moves_up_and_who_must_wait_is_told_whoever_made_it_so() -> None:
    found = event(approval="at_once", places="2")
    for name in ("Ash", "Birch"):
        send(Client(), found, name=name, angler_1=f"{name} Quill", angler_2="", email=f"{name}@lake.example")
    hours_go_by()
    assert subjects() == ["You are entered: Open water", "You are on the waiting list: Open water"]
    entry = Entry.everyone.get(name="Birch")
    paid = {"entry": f"#{entry.number}", "kind": "entry_fee", "amount": "120", "means": "cash"}
    take_payment(found, paid, "mara")
    hours_go_by()
    hours_go_by()
    assert sorted(subjects()[2:]) == ["You are on the waiting list now: Open water", "You have a place now: Open water"]


@pytest.mark.usefixtures("_with_mail")
def test_a_mail_server_that_is_down_hinders_no_sign_up() -> None:
    found = event()
    with override_settings(
        EMAIL_BACKEND="django.core.mail.backends.smtp.EmailBackend", EMAIL_HOST="127.0.0.1", EMAIL_PORT=9
    ):
        assert send(Client(), found).status_code == 302
        assert send_letters().later == 1
    desk = world.member(found.club)
    assert b"waits to be sent" in desk.get(f"/events/{found.slug}/sign-ups/1/").content
    Letter.objects.update(given_up_at="2026-01-01T00:00Z")
    assert b"No e-mail reached the team" in desk.get(f"/events/{found.slug}/sign-ups/1/").content


@pytest.mark.usefixtures("_with_mail")
def test_a_team_without_an_address_is_told_at_the_desk() -> None:
    found = event()
    send(Client(), found, email="")
    assert b"No e-mail was written" in world.member(found.club).get(f"/events/{found.slug}/sign-ups/1/").content
    assert not Letter.objects.exists()


def test_without_a_mail_server_there_is_a_page_to_print() -> None:
    found = event()
    link = send(Client(HTTP_HOST="testserver"), found)["Location"]
    assert not Letter.objects.exists()
    assert b"print it or save its link" in Client().get(address(found)).content
    page = Client().get(link).content.decode()
    assert f"http://testserver{link}" in page and re.search(r"<svg[^>]*class=\"code\"", page)
