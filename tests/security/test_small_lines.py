"""Lines of the Application Security Verification Standard that no other test is about; ``asvs.md`` names them."""

import pytest
import world
from django.test import Client

import weighin.settings
from weighin.accounts.models import User
from weighin.events.models import Event
from weighin.privacy.domain.words import says

pytestmark = pytest.mark.django_db
ODD = " ŵörds ‘and’ \U0001f41f  spaces "
ALL_SIGNS = f"{ODD}{'x' * 90}"


def sign_in(password: str, client: Client | None = None) -> Client:
    client = client or Client()
    client.post("/sign-in/", {"username": "quill", "password": password})
    return client


def is_in(client: Client) -> bool:
    return client.get("/clubs/").status_code == 200


@pytest.mark.parametrize("password", [ODD, ALL_SIGNS, "x" * 64])
def test_a_password_of_any_signs_and_over_64_of_them_is_checked_as_typed(event: Event, password: str) -> None:
    User.objects.create_user("quill", password=password)
    assert is_in(sign_in(password))
    for other in (password.strip() + "y", password[:-1], password.swapcase(), password[:60]):
        assert not is_in(sign_in(other)), other


def test_passwords_are_kept_by_a_slow_function() -> None:
    assert weighin.settings.PASSWORD_HASHERS[0].endswith("Argon2PasswordHasher")


def test_password_fields_hide_and_may_be_pasted_into(event: Event) -> None:
    User.objects.create_user("quill", password=ODD)
    for page in (Client().get("/sign-in/"), sign_in(ODD).get("/password/")):
        said = page.content.decode()
        assert 'type="password"' in said and "onpaste" not in said
        assert 'autocomplete="current-password"' in said


def test_a_session_is_made_anew_at_sign_in_and_is_long_and_random(event: Event) -> None:
    User.objects.create_user("quill", password=ODD)
    first = sign_in(ODD)
    before = first.cookies["sessionid"].value
    after = sign_in(ODD, first).cookies["sessionid"].value
    others = {sign_in(ODD).cookies["sessionid"].value for _ in range(3)}
    assert len({before, *others}) == 4 and len(before) == len(after) == 32  # 32 of 36 signs are 165 bits
    stranger = Client()
    stranger.cookies["sessionid"] = "a" * 32
    assert sign_in(ODD, stranger).cookies["sessionid"].value != "a" * 32


def test_the_session_s_cookie_is_for_this_site_alone_and_for_no_script(event: Event) -> None:
    User.objects.create_user("quill", password=ODD)
    cookie = sign_in(ODD).cookies["sessionid"]
    assert cookie["httponly"] and cookie["samesite"] == "Lax"


def test_signing_out_is_on_every_page_of_members(event: Event) -> None:
    client = world.member(event.club)
    for page in (
        "/clubs/",
        f"/clubs/{event.club.slug}/",
        f"/events/{event.slug}/",
        f"/events/{event.slug}/teams/",
        "/my-data/",
    ):
        assert 'action="/sign-out/"' in client.get(page).content.decode(), page


@pytest.mark.parametrize(
    "asked", ["' OR 1=1 --", '" OR ""="', "%", "_", "'; DROP TABLE slips_weighslip; --", "\\", "x' UNION SELECT 1"]
)
def test_what_is_searched_is_never_read_as_a_statement(event: Event, asked: str) -> None:
    client = world.member(event.club)
    for page in (
        f"/events/{event.slug}/teams/",
        f"/events/{event.slug}/standings/",
        f"/results/{event.slug}/standings/",
    ):
        answer = client.get(page, {"q": asked})
        assert answer.status_code in (200, 404) and "Open table pair 1<" not in answer.content.decode(), page


def test_signs_of_a_pattern_in_a_name_are_plain_signs() -> None:
    assert says("A. (B)+")("Word of a. (b)+ today") and not says("A.B")("AxB") and not says("(a+)+$")("aaaa")


def test_trace_is_not_answered_and_no_folder_is_listed(event: Event) -> None:
    assert Client().trace("/").status_code == 405
    for address in (
        "/static/",
        "/static/weighin/",
        "/.git/config",
        "/static/../manage.py",
        "/var/",
        "/weighin.sqlite3",
    ):
        assert Client().get(address).status_code == 404, address
