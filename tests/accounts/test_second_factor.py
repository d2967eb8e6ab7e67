"""The second factor: codes as RFC 6238 has them, each good once, recovery codes, and ways back for a lost phone."""

import re
from base64 import b32encode
from io import StringIO
from typing import Any

import pyotp
import pytest
import world
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from weighin.accounts.domain import codes
from weighin.accounts.domain.roles import Role
from weighin.accounts.models import RecoveryCode, SecondFactor, SecurityEntry, User
from weighin.accounts.services import second_factors, throttle
from weighin.clubs.models import Club, Membership

SIGN_IN, STEP, PAGE = (reverse(f"accounts:{name}") for name in ("sign_in", "sign_in_step", "second_factor"))
RIGHT = {"username": "mara", "password": "a pass phrase"}
NOW = 1_780_000_000

# RFC 6238, appendix B: (seconds since 1970, code of eight figures) for SHA-1, key "12345678901234567890"
VECTORS = [
    (59, "94287082"), (1111111109, "07081804"), (1111111111, "14050471"), (1234567890, "89005924"),
    (2000000000, "69279037"), (20000000000, "65353130"),
]  # fmt: skip
KEY = b32encode(b"12345678901234567890").decode()


@pytest.mark.parametrize(("seconds", "code"), VECTORS)
def test_codes_are_those_of_the_rfc(seconds: int, code: str) -> None:
    """Ours have six figures: the same number modulo 10^6 (RFC 4226, section 5.3)."""
    assert pyotp.HOTP(KEY, digits=8).at(seconds // 30) == code
    assert codes.code_at(KEY, seconds // 30) == code[-6:]
    assert codes.step_of(code[-6:], KEY, seconds) == seconds // 30


@pytest.mark.parametrize(("off", "good"), [(-2, False), (-1, True), (0, True), (1, True), (2, False)])
def test_a_clock_may_be_one_step_off(off: int, good: bool) -> None:
    code = codes.code_at(KEY, NOW // 30 + off)
    assert (codes.step_of(code, KEY, NOW) is not None) is good


@pytest.mark.parametrize("code", ["", "12345", "1234567", "١٢٣٤٥٦", "abcdef"])
def test_what_is_no_code_opens_nothing(code: str) -> None:
    assert codes.step_of(code, KEY, NOW) is None


def test_keys_and_recovery_codes_are_random_bytes_of_the_system(monkeypatch: pytest.MonkeyPatch) -> None:
    """160 bits (RFC 4226, R6 wants 128 at least) and 120."""
    asked = []
    monkeypatch.setattr(codes.secrets, "token_bytes", lambda n: asked.append(n) or bytes(range(n)))
    assert codes.new_key() == b32encode(bytes(range(20))).decode()
    assert {one.replace("-", "") for one in codes.new_recovery_codes()} == {b32encode(bytes(range(15))).decode()}
    assert asked == [20] + [15] * 10


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    now = [float(NOW)]
    monkeypatch.setattr(second_factors, "time", lambda: now[0])
    monkeypatch.setattr(throttle, "time", lambda: now[0])
    return now


@pytest.fixture
def director(db: None) -> User:
    world.member(world.club(), username="mara")
    return User.objects.get(username="mara")


def set_up(client: Client) -> tuple[str, list[str]]:
    """The key and the recovery codes of a second factor that was turned on through the page."""
    page = client.get(PAGE).content.decode()
    found = re.search(r'<p class="address">([A-Z2-7 ]+)</p>', page)
    assert found and "<svg" in page
    key = found[1].replace(" ", "")
    page = client.post(PAGE, {"code": "000000"}).content.decode()
    assert "not the code of this key" in page and "recovery code" not in page
    page = client.post(PAGE, {"code": codes.code_at(key, NOW // 30)}).content.decode()
    shown = re.findall(r'<li class="address">([A-Z2-7-]+)</li>', page)
    assert len(shown) == len(set(shown)) == 10
    return key, shown


def begin(client: Client) -> Client:
    assert client.post(SIGN_IN, RIGHT | {"next": "/password/"})["Location"] == STEP
    assert client.get("/password/").status_code == 302
    return client


def test_after_the_password_a_code_is_asked_for(director: User, clock: list[float]) -> None:
    key, shown = set_up(world.signed_in(director))
    kept = str(list(RecoveryCode.objects.values())) + str(list(SecurityEntry.objects.values()))
    assert not any(one in kept or one.replace("-", "") in kept for one in (*shown, key))
    client = begin(Client())
    assert "does not open" in client.post(STEP, {"code": "123"}).content.decode()
    clock[0] += 30
    assert client.post(STEP, {"code": codes.code_at(key, NOW // 30 + 1)})["Location"] == STEP
    assert client.get(STEP)["Location"] == "/password/"
    assert client.get("/password/").status_code == 200


def test_a_code_opens_once(director: User, clock: list[float]) -> None:
    key, _ = set_up(world.signed_in(director))
    clock[0] += 60
    code = {"code": codes.code_at(key, NOW // 30 + 2)}
    assert begin(Client()).post(STEP, code).status_code == 302
    assert "does not open" in begin(Client()).post(STEP, code).content.decode()
    earlier = {"code": codes.code_at(key, NOW // 30 + 1)}
    assert "does not open" in begin(Client()).post(STEP, earlier).content.decode()


def test_a_recovery_code_opens_once_in_place_of_the_phone(director: User, clock: list[float]) -> None:
    _, shown = set_up(world.signed_in(director))
    written = {"code": shown[3].lower().replace("-", " ")}
    assert begin(Client()).post(STEP, written, follow=True).status_code == 200
    assert "does not open" in begin(Client()).post(STEP, written).content.decode()
    assert "9 recovery codes are left" in world.signed_in(director).get(PAGE).content.decode()
    assert SecurityEntry.objects.get(kind="recovery").about == "9 left"


def test_guessing_codes_waits(director: User, clock: list[float]) -> None:
    set_up(world.signed_in(director))
    client = begin(Client())
    for number in range(throttle.FREE_TRIES):
        assert "does not open" in client.post(STEP, {"code": f"00000{number}"}).content.decode()
    assert "Too many wrong codes" in client.post(STEP, {"code": "000009"}).content.decode()
    assert SecurityEntry.objects.get(kind="wrong_code").times == throttle.FREE_TRIES


def test_a_password_alone_is_nobodys_session(director: User, clock: list[float]) -> None:
    """Neither its page nor its tablet's document opens, and after ten minutes not even the step."""
    set_up(world.signed_in(director))
    client = begin(Client())
    assert client.get("/clubs/alder/members/").status_code == 302
    director.set_password("quill reservoir at dawn")
    director.save()
    assert "said=late" in client.get(STEP)["Location"]


def test_it_is_turned_off_with_a_code(director: User, clock: list[float]) -> None:
    client = world.signed_in(director)
    _, shown = set_up(client)
    assert "does not open" in client.post(PAGE, {"code": "000000"}).content.decode()
    assert "Your second factor is off" in client.post(PAGE, {"code": shown[0]}, follow=True).content.decode()
    assert Client().post(SIGN_IN, RIGHT)["Location"] == reverse("events:mine")
    assert not RecoveryCode.objects.exists()


def test_whoever_owns_the_machine_takes_it_off(director: User, clock: list[float]) -> None:
    with pytest.raises(CommandError, match="has no second factor"):
        call_command("second_factor_off", "mara")
    with pytest.raises(CommandError, match="Nobody signs in"):
        call_command("second_factor_off", "nobody")
    set_up(world.signed_in(director))
    call_command("second_factor_off", "MARA", stdout=StringIO())
    assert not SecondFactor.objects.exists()
    assert SecurityEntry.objects.get(kind="factor_off").about == "by command line"


def test_a_club_asks_its_directors_for_it(director: User, clock: list[float]) -> None:
    here = world.signed_in(director)
    members = reverse("clubs:members", args=["alder"])
    assert "Set yours up now" in here.post(members, {"asked": "on"}, follow=True).content.decode()
    assert Club.objects.get(slug="alder").asks_second_factor
    other = User.objects.create_user("ines", password="a pass phrase")
    Membership.objects.create(user=other, club=Club.objects.get(), role=Role.WEIGH_OFFICIAL)
    assert Client().post(SIGN_IN, RIGHT | {"username": "ines"})["Location"] == reverse("events:mine")
    client = Client()
    client.post(SIGN_IN, RIGHT)
    page = client.get(STEP).content.decode()
    assert "asks its directors for a second factor" in page
    key = re.search(r'<p class="address">([A-Z2-7 ]+)</p>', page)
    assert key and client.get(members).status_code == 302
    page = client.post(STEP, {"code": codes.code_at(key[1].replace(" ", ""), NOW // 30)}).content.decode()
    assert "Print these ten codes" in page
    assert client.get(members).status_code == 200
    assert "it stays on" in client.get(PAGE).content.decode()
    here.post(members, {})
    assert not Club.objects.get(slug="alder").asks_second_factor


def test_nobody_is_shut_out_on_the_day_of_an_event(db: None, monkeypatch: Any) -> None:
    from weighin.events.queries import events

    event = world.event()
    world.member(event.club, username="mara")
    Club.objects.update(asks_second_factor=True)
    assert Client().post(SIGN_IN, RIGHT)["Location"] == STEP
    day = event.event_days.get()
    late = events.timezone.now().replace(year=day.date.year, month=day.date.month, day=day.date.day, hour=20)
    monkeypatch.setattr(events.timezone, "now", lambda: late)
    assert events.fishes_today([event.club.pk])
    assert Client().post(SIGN_IN, RIGHT)["Location"] == reverse("events:mine")
