"""Who may speak as a station: tokens and log-ins, what each may do, and the brake on guessing."""

import json
from hashlib import sha256
from io import StringIO
from typing import Any
from unittest.mock import patch

import pytest
import world
from django.core.management import CommandError, call_command
from django.test import Client
from stations.speaking import Speaker, message

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.standings.services import set_closed
from weighin.stations.models import Station
from weighin.stations.services import wrong_tokens
from weighin.stations.services.stations import live_stations, make_station, withdraw_station

POSTS = {"slips": "weigh", "checkins": "checkin", "care": "care"}


def address(event: Event, what: str = "slips") -> str:
    return f"/api/events/{event.slug}/{what}"


def post(client: Client, event: Event, what: str = "slips", body: Any = None, **headers: str) -> Any:
    sent = json.dumps(body or {"slips": [message()]})
    return client.post(address(event, what), sent, content_type="application/json", headers=headers)


def line(answer: Any, status: int) -> str:
    """The one line of a refusal."""
    assert answer.status_code == status, answer.content
    assert answer["Content-Type"] == "application/json" and answer["Cache-Control"] == "no-store"
    assert list(answer.json()) == ["error"] and "\n" not in answer.json()["error"]
    assert ("WWW-Authenticate" in answer.headers) == (status == 401)
    return str(answer.json()["error"])


def test_a_token_is_kept_as_a_digest_only(event: Event) -> None:
    station, token = make_station(event, "Table 1", ["weigh"], "quill")
    assert len(token) == 43 and len(station.token_digest) == 64
    assert token not in repr(Station.objects.values_list()) + repr(HistoryEntry.objects.values_list())
    assert Station.objects.get().token_digest == sha256(token.encode()).hexdigest()
    assert make_station(event, "Table 2", ["weigh"], "quill")[1] != token


@pytest.mark.parametrize("what", ["slips", "checkins", "care", "station", "ramp"])
def test_without_a_token_or_log_in_nothing_is_told(event: Event, what: str) -> None:
    client = Client(enforce_csrf_checks=True)
    for slug in (event.slug, "no-such-event"):
        where = f"/api/events/{slug}/{what}"
        answer = (
            client.get(where)
            if what in ("station", "ramp")
            else client.post(where, "{}", content_type="application/json")
        )
        assert answer.status_code in (401, 403) and list(answer.json()) == ["error"]
        assert event.name not in answer.content.decode()


@pytest.mark.parametrize(
    "said", ["Bearer", "Bearer ", "Bearer x", "Basic cXVpbGw6cGFzcw==", "", "Bearer " + "é" * 43, "Bearer " + "a" * 43, "token"]
)  # fmt: skip
def test_a_wrong_token_is_refused(event: Event, said: str) -> None:
    before = WeighSlip.objects.count()
    line(post(Client(), event, Authorization=said), 401)
    assert WeighSlip.objects.count() == before


def test_the_scheme_is_read_whatever_its_case(event: Event) -> None:
    token = make_station(event, "Table 1", ["weigh"], "quill")[1]
    for scheme in ("Bearer", "bearer", "BEARER"):
        assert post(Client(), event, Authorization=f"{scheme} {token}").status_code == 200


def test_a_token_is_of_one_event(event: Event) -> None:
    table, other = Speaker(event), world.event("Elsewhere")
    for slug in (other.slug, "no-such-event"):
        answer = table.client.get(f"/api/events/{slug}/station", headers={"Authorization": f"Bearer {table.token}"})
        assert "another event" in line(answer, 403) and "Elsewhere" not in answer.content.decode()


@pytest.mark.parametrize("can", ["weigh", "checkin", "care"])
def test_a_station_does_what_it_was_paired_for(event: Event, can: str) -> None:
    table = Speaker(event, can=(can,))
    assert table.ask().status_code == 200
    for what, needed in POSTS.items():
        answer = table.post(what, {})
        if needed == can:
            assert answer.status_code == 400
        else:
            assert "Table 1 cannot" in line(answer, 403)


def test_withdrawing_takes_effect_at_the_next_request(event: Event) -> None:
    table, other = Speaker(event), Speaker(event, "Table 2")
    assert table.ask().status_code == 200
    withdraw_station(event, "Table 1", "quill")
    for _ in range(30):
        assert "withdrawn" in line(table.post("slips", {"slips": [message()]}), 401)
    assert other.ask().status_code == 200
    assert [station.name for station in live_stations(event)] == ["Table 2"]
    assert not WeighSlip.objects.exists()


def test_pairing_again_under_a_name_withdraws_the_token_before(event: Event) -> None:
    old = Speaker(event)
    new = Speaker(event)
    line(old.ask(), 401)
    assert new.ask().status_code == 200
    assert list(HistoryEntry.objects.filter(act__startswith="station.").values_list("act", flat=True)) == [
        "station.paired",
        "station.withdrawn",
        "station.paired",
    ]


def test_closing_the_event_ends_its_tokens_for_good(event: Event) -> None:
    table, other = Speaker(event), Speaker(world.event("Elsewhere"))
    set_closed(event, True, "quill")
    line(table.ask(), 401)
    set_closed(event, False, "quill", "a slip was left out")
    line(table.ask(), 401)
    assert other.ask().status_code == 200
    assert Speaker(event).ask().status_code == 200


def test_no_station_for_a_closed_event(event: Event) -> None:
    set_closed(event, True, "quill")
    with pytest.raises(CommandError, match="closed"):
        call_command("pair_station", event.slug, "Table 1", stdout=StringIO())


@pytest.mark.parametrize("method", ["get", "put", "patch", "delete", "options"])
def test_other_methods(event: Event, method: str) -> None:
    table = Speaker(event)
    headers = {"Authorization": f"Bearer {table.token}"}
    for what in POSTS:
        answer = getattr(table.client, method)(address(event, what), headers=headers)
        line(answer, 405)
        assert answer["Allow"] == "POST"
    line(table.client.post(address(event, "station"), "{}", content_type="application/json", headers=headers), 405)


# The page at the table: the log-in session, with Django's token against forged requests


def test_a_page_needs_its_csrf_token(event: Event) -> None:
    client = Client(enforce_csrf_checks=True)
    client.force_login(world.User.objects.create_user("quill"))
    event.club.memberships.create(user=world.User.objects.get(username="quill"), role=Role.WEIGH_OFFICIAL)
    assert "security token" in line(post(client, event), 403)
    assert not WeighSlip.objects.exists()
    client.get("/sign-in/")
    client.cookies["csrftoken"] = "a" * 32
    assert post(client, event, **{"X-CSRFToken": "a" * 32}).status_code == 200
    assert WeighSlip.objects.get().recorded_by == "quill"


def test_a_session_with_a_token_goes_by_the_token(event: Event) -> None:
    client = world.member(event.club, Role.DIRECTOR)
    line(post(client, event, Authorization="Bearer " + "a" * 43), 401)


@pytest.mark.parametrize("role", list(Role))
def test_members_do_what_their_role_can(event: Event, role: Role) -> None:
    client = world.member(event.club, role)
    assert client.get(address(event, "station")).status_code == 200
    for what in POSTS:
        officials = (Role.DIRECTOR, Role.FISH_CARE_OFFICIAL if what == "care" else Role.WEIGH_OFFICIAL)
        answer = client.post(address(event, what), "{}", content_type="application/json")
        if role in officials:
            assert answer.status_code == 400
        else:
            line(answer, 403)


def test_strangers_are_told_that_nothing_is_there(event: Event) -> None:
    client = world.stranger()
    for what in POSTS:
        line(client.post(address(event, what), "{}", content_type="application/json"), 404)
    answers = [client.get(f"/api/events/{slug}/station") for slug in (event.slug, "no-such-event")]
    assert line(answers[0], 404) == line(answers[1], 404)


def test_a_closed_event_refuses_a_members_slips_one_by_one(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    sent = message()
    post(client, event, body={"slips": [sent]})
    set_closed(event, True, "quill")
    again, new = post(client, event, body={"slips": [sent, message(boat=2)]}).json()["slips"]
    assert (again["state"], new["state"], new["slip"]) == ("already", "refused", None)
    assert "closed" in new["faults"][0]["message"]


# Guessing


@pytest.fixture
def clock() -> Any:
    with patch.object(wrong_tokens, "time") as now:
        now.return_value = 1_000_000.0
        yield now


def guesses(event: Event, count: int, **more: str) -> list[int]:
    return [
        post(Client(REMOTE_ADDR=more.get("address", "192.0.2.7")), event, Authorization=f"Bearer {n:043}").status_code
        for n in range(count)
    ]


def test_about_twenty_wrong_tokens_a_minute(event: Event, clock: Any) -> None:
    assert guesses(event, 25) == [401] * 20 + [429] * 5
    answer = post(Client(REMOTE_ADDR="192.0.2.7"), event, Authorization="Bearer x")
    assert line(answer, 429) and 1 <= int(answer["Retry-After"]) <= 60
    clock.return_value += int(answer["Retry-After"])
    assert guesses(event, 1) == [401]


def test_a_steady_guesser_gets_no_more_than_twenty_a_minute(event: Event, clock: Any) -> None:
    tried = 0
    for _ in range(180):
        clock.return_value += 1
        tried += guesses(event, 1) == [401]
    assert tried <= 3 * 20 + 1


def test_a_right_token_is_never_held_back(event: Event, clock: Any) -> None:
    table = Speaker(event)
    table.client = Client(REMOTE_ADDR="192.0.2.7")
    guesses(event, 25)
    for _ in range(30):
        assert table.ask().status_code == 200
    assert table.one(message())["state"] == "kept"


def test_other_addresses_are_not_held_back_and_no_header_names_another(event: Event, clock: Any) -> None:
    guesses(event, 25)
    assert guesses(event, 1, address="192.0.2.8") == [401]
    said = {"X-Forwarded-For": "192.0.2.9", "Forwarded": "for=192.0.2.9", "Authorization": "Bearer x"}
    line(post(Client(REMOTE_ADDR="192.0.2.7"), event, **said), 429)


# The command


def pair(*words: str) -> list[str]:
    out = StringIO()
    call_command("pair_station", *words, stdout=out)
    return out.getvalue().splitlines()


def test_the_command_prints_the_token_alone_on_the_last_line(event: Event) -> None:
    lines = pair(event.slug, "Table 1")
    assert post(Client(), event, Authorization=f"Bearer {lines[-1]}").status_code == 200
    assert Station.objects.get().cans == {"weigh", "checkin", "care"}
    pair(event.slug, "Table 2", "--can", "checkin, care")
    assert Station.objects.get(name="Table 2").cans == {"checkin", "care"}


def test_the_command_withdraws(event: Event) -> None:
    token = pair(event.slug, "Table 1")[-1]
    assert "Table 1" in pair(event.slug, "Table 1", "--withdraw")[-1]
    line(post(Client(), event, Authorization=f"Bearer {token}"), 401)
    with pytest.raises(CommandError, match="has no tablet Table 1: its tablets are none"):
        pair(event.slug, "Table 1", "--withdraw")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("no-such-event", "Table 1"), "no event no-such-event"),
        (("SLUG", ""), "no name"),
        (("SLUG", "x" * 81), "81 characters"),
        (("SLUG", "a\nb"), "line breaks"),
        (("SLUG", "Table 1", "--can", "weigh,fly"), "'fly' is nothing a tablet can do"),
        (("SLUG", "Table 1", "--can", ","), "could do nothing"),
    ],
)
def test_the_command_says_what_is_wrong(event: Event, words: tuple[str, ...], said: str) -> None:
    with pytest.raises(CommandError, match=said):
        pair(*(event.slug if word == "SLUG" else word for word in words))
    assert not Station.objects.exists()
