"""Signing in and out: the page asked for, wrong tries, and the brake that never locks anyone out."""

import pytest
from django.test import Client
from django.urls import reverse

from weighin.accounts.models import User
from weighin.accounts.services import throttle

pytestmark = pytest.mark.django_db
SIGN_IN = reverse("accounts:sign_in")
RIGHT = {"username": "r.castellan", "password": "bump table at noon"}
WRONG = RIGHT | {"password": "not this one"}


@pytest.fixture
def person() -> User:
    return User.objects.create_user("r.castellan", password=RIGHT["password"], first_name="Rob Castellan")


def test_an_empty_site_begins_with_its_first_director() -> None:
    assert Client().get(SIGN_IN)["Location"] == reverse("clubs:begin")


def test_signing_in_leads_to_the_page_that_was_asked_for(person: User) -> None:
    client = Client()
    asked = client.get("/password/")
    assert asked["Location"] == f"{SIGN_IN}?next=/password/"
    assert 'name="next" value="/password/"' in client.get(asked["Location"]).content.decode()
    assert client.post(SIGN_IN, RIGHT | {"next": "/password/"})["Location"] == "/password/"
    assert client.get("/password/").status_code == 200


@pytest.mark.parametrize("elsewhere", ["https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)", ""])
def test_nobody_is_led_to_another_site(person: User, elsewhere: str) -> None:
    assert Client().post(SIGN_IN, RIGHT | {"next": elsewhere})["Location"] == reverse("events:mine")


def test_capitals_in_a_user_name_do_not_matter(person: User) -> None:
    assert Client().post(SIGN_IN, RIGHT | {"username": "R.Castellan "}).status_code == 302


@pytest.mark.parametrize("username", ["r.castellan", "nobody"])
def test_a_wrong_try_says_the_same_whether_the_name_is_known_or_not(person: User, username: str) -> None:
    page = Client().post(SIGN_IN, WRONG | {"username": username}).content.decode()
    assert "Not signed in." in page and "do not go together" in page
    assert f'value="{username}"' in page
    assert WRONG["password"] not in page


def test_someone_taken_out_of_service_does_not_get_in(person: User) -> None:
    User.objects.update(is_active=False)
    assert "do not go together" in Client().post(SIGN_IN, RIGHT).content.decode()


def test_wrong_tries_wait_a_little_and_then_the_right_one_signs_in(
    person: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = [1_000_000.0]
    monkeypatch.setattr(throttle, "time", lambda: now[0])
    client = Client()
    for _ in range(throttle.FREE_TRIES):
        assert "do not go together" in client.post(SIGN_IN, WRONG).content.decode()
    assert "Wait 1 s" in client.post(SIGN_IN, RIGHT).content.decode()
    now[0] += 1.1
    assert client.post(SIGN_IN, RIGHT).status_code == 302


def test_the_wait_never_grows_beyond_four_seconds(person: User, monkeypatch: pytest.MonkeyPatch) -> None:
    now = [1_000_000.0]
    monkeypatch.setattr(throttle, "time", lambda: now[0])
    for _ in range(50):
        throttle.wrong_try("r.castellan", "127.0.0.1")
    assert throttle.seconds_to_wait("r.castellan", "127.0.0.1") == throttle.LONGEST_WAIT
    now[0] += throttle.LONGEST_WAIT
    assert Client().post(SIGN_IN, RIGHT).status_code == 302


def test_wrong_tries_from_one_address_leave_the_same_person_elsewhere_alone(person: User) -> None:
    for _ in range(10):
        throttle.wrong_try("r.castellan", "10.0.0.66")
    assert Client(REMOTE_ADDR="10.0.0.7").post(SIGN_IN, RIGHT).status_code == 302


def test_an_address_that_tries_many_names_waits_a_second(person: User) -> None:
    for number in range(throttle.FREE_TRIES_ADDRESS):
        throttle.wrong_try(f"name-{number}", "10.0.0.66")
    wait = throttle.seconds_to_wait("another", "10.0.0.66")
    assert 0 < wait <= throttle.WAIT_ADDRESS
    assert throttle.seconds_to_wait("another", "10.0.0.67") == 0


def test_signing_out_takes_a_post(person: User) -> None:
    client = Client()
    client.post(SIGN_IN, RIGHT)
    assert client.get(reverse("accounts:sign_out")).status_code == 405
    page = client.post(reverse("accounts:sign_out"), follow=True).content.decode()
    assert "You are signed out." in page
    assert client.get("/password/").status_code == 302


def test_forms_need_their_token(person: User) -> None:
    assert Client(enforce_csrf_checks=True).post(SIGN_IN, RIGHT).status_code == 403


def test_a_stranger_behind_the_same_address_keeps_nobody_from_a_browser_of_theirs(person: User) -> None:
    theirs, other = Client(), Client()
    assert theirs.post(SIGN_IN, RIGHT).status_code == 302
    cookie = theirs.cookies["known"]
    assert cookie["httponly"] and cookie["samesite"] == "Lax" and person.username not in cookie.value
    theirs.post(reverse("accounts:sign_out"))
    for _ in range(throttle.FREE_TRIES_ADDRESS):
        throttle.wrong_try(person.username, "127.0.0.1")
    assert "Wait 4 s" in other.post(SIGN_IN, RIGHT).content.decode()
    assert theirs.post(SIGN_IN, RIGHT | {"username": "R.Castellan"}).status_code == 302


def test_a_browser_of_theirs_waits_after_wrong_tries_of_its_own_and_helps_no_other_name(person: User) -> None:
    theirs = Client()
    theirs.post(SIGN_IN, RIGHT)
    theirs.post(reverse("accounts:sign_out"))
    for _ in range(throttle.FREE_TRIES + 2):
        said = theirs.post(SIGN_IN, WRONG).content.decode()
    assert "Too many wrong tries" in said
    for _ in range(throttle.FREE_TRIES):
        throttle.wrong_try("somebody", "127.0.0.1")
    assert "Too many wrong tries" in theirs.post(SIGN_IN, WRONG | {"username": "somebody"}).content.decode()
