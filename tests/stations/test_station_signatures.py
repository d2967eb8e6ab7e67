"""Requests signed with a token: what a listener on the Wi-Fi can do with what was heard, and what not."""

import json
from datetime import UTC, datetime, timedelta
from typing import Any
from unittest.mock import patch

import javascript
import pytest
from django.test import Client
from stations.speaking import Speaker, message, new_id

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.stations.models import Station
from weighin.stations.services.signatures import signature
from weighin.stations.services.stations import withdraw_station

NOW = datetime(2026, 6, 20, 20, 10, tzinfo=UTC)


@pytest.fixture(autouse=True)
def clock() -> Any:
    with patch("django.utils.timezone.now", return_value=NOW) as now:
        yield now


def send(event: Event, shown: str, body: str, what: str = "slips") -> Any:
    headers = {"Authorization": f"Signed {shown}"}
    return Client().post(f"/api/events/{event.slug}/{what}", body, content_type="application/json", headers=headers)


def signed(table: Speaker, body: str, at: datetime = NOW, what: str = "slips") -> str:
    path = f"/api/events/{table.event.slug}/{what}"
    return signature(table.token, "POST", path, int(at.timestamp()), body.encode())


def one(**values: Any) -> str:
    return json.dumps({"slips": [message(**values)], "sent": NOW.isoformat()})


def test_a_signed_body_is_taken_in_as_its_stations(event: Event) -> None:
    table, body = Speaker(event), one()
    answer = send(event, signed(table, body), body)
    assert answer.status_code == 200 and answer.json()["slips"][0]["state"] == "kept"
    assert WeighSlip.objects.get().recorded_by == "station Table 1"
    assert table.token not in signed(table, body)


def test_what_was_heard_signs_nothing_else(event: Event) -> None:
    table, body = Speaker(event), one()
    shown = signed(table, body)
    for other in (body.replace("8.50", "9.50"), one(boat=2), body + " "):
        assert send(event, shown, other).status_code == 401
    assert send(event, shown, body, "checkins").status_code == 401
    assert (
        Client().get(f"/api/events/{event.slug}/slips", headers={"Authorization": f"Signed {shown}"}).status_code == 405
    )
    name, at, mark = shown.split(":")
    for changed in (
        f"{name}:{int(at) + 1}:{mark}",
        f"{name}:{at}:{mark[:-1]}",
        f"{name}:{at}:",
        name,
        "",
        f"{name}:x:{mark}",
    ):
        assert send(event, changed, body).status_code == 401
    assert not WeighSlip.objects.exists()


def test_sent_once_more_it_counts_once(event: Event) -> None:
    table, body = Speaker(event), one()
    shown = signed(table, body)
    assert [send(event, shown, body).json()["slips"][0]["state"] for _ in range(3)] == ["kept", "already", "already"]


@pytest.mark.parametrize(("minutes", "status"), [(-3, 401), (-1, 200), (0, 200), (1, 200), (3, 401), (60 * 24, 401)])
def test_a_signature_of_another_time_is_refused_in_words(event: Event, minutes: int, status: int) -> None:
    table, body = Speaker(event), one()
    answer = send(event, signed(table, body, NOW + timedelta(minutes=minutes)), body)
    assert answer.status_code == status
    if status == 401:
        assert f"{abs(minutes) * 60} s from now by the site's clock" in answer.json()["error"]


def test_a_withdrawn_station_signs_in_vain_and_wrong_signatures_are_counted(event: Event) -> None:
    table, body = Speaker(event), one()
    shown = signed(table, body)
    withdraw_station(event, "Table 1", "quill")
    assert "withdrawn" in send(event, shown, body).json()["error"]
    name = shown.partition(":")[0]
    answered = [send(event, f"{name}:{n}:{'0' * 64}", body).status_code for n in range(22)]
    assert answered[0] == 401 and answered[-1] == 429


def test_the_site_and_the_tablet_sign_alike(event: Event) -> None:
    table = Speaker(event)
    cases = [
        {"token": table.token, "method": "POST", "path": "/api/events/x/slips", "at": 1782000000, "body": '{"note": "Łukasz ½"}'},
        {"token": table.token, "method": "GET", "path": "/api/events/x/station?since=a.1", "at": 1, "body": ""},
    ]  # fmt: skip
    work = "cases.map((one) => signing.shown(one.token, one.method, one.path, one.at, one.body))"
    wanted = [signature(one["token"], one["method"], one["path"], one["at"], one["body"].encode()) for one in cases]
    assert javascript.run(work, cases, signing="device/signing") == wanted


# Tokens end


@pytest.mark.parametrize(
    ("moment", "status"),
    [("2026-06-20T23:59-05:00", 200), ("2026-06-21T23:59-05:00", 200), ("2026-06-22T00:01-05:00", 401)],
)
def test_a_token_ends_the_day_after_the_event(event: Event, clock: Any, moment: str, status: int) -> None:
    table = Speaker(event)
    Station.objects.update(made_at=NOW)
    clock.return_value = datetime.fromisoformat(moment)
    assert table.ask().status_code == status
    if status == 401:
        assert "has ended, a day after the event" in table.ask().json()["error"]


def test_one_that_is_made_later_has_its_day_too(event: Event, clock: Any) -> None:
    clock.return_value = made = datetime.fromisoformat("2026-09-01T12:00-05:00")
    table = Speaker(event)
    Station.objects.update(made_at=made)
    assert table.ask().status_code == 200
    clock.return_value = datetime.fromisoformat("2026-09-03T00:01-05:00")
    assert table.ask().status_code == 401


# What a token sees


@pytest.mark.parametrize(
    ("can", "seen"),
    [
        (("weigh",), {"slips", "checkins"}), (("checkin",), {"checkins"}), (("care",), set()),
        (("checkin", "care"), {"checkins"}), (("weigh", "care"), {"slips", "checkins"}),
    ],
)  # fmt: skip
@pytest.mark.parametrize("way", ["station", "station?since="])
def test_a_token_sees_what_it_needs(event: Event, can: tuple[str, ...], seen: set[str], way: str) -> None:
    table = Speaker(event)
    table.one(message())
    table.send(
        {"id": new_id(), "day": 1, "boat": 1, "checked_in": "2026-06-20T15:05:00-05:00", "official": "A. Sedge"},
        what="checkins",
    )
    told = Speaker(event, "Other", can).ask(way).json()
    assert {name for name in ("slips", "checkins") if told[name]} == seen


def test_of_changes_too(event: Event) -> None:
    care, table = Speaker(event, "Ramp", ("care",)), Speaker(event)
    cursor = care.ask("station?since=").json()["cursor"]
    table.one(message())
    told = care.ask(f"station?since={cursor}").json()
    assert told["slips"] == [] and told["gone"]["slips"] == []
    assert "8.50" not in json.dumps(told)


def test_an_old_word_of_a_scale_is_no_news(event: Event) -> None:
    table = Speaker(event)
    words = json.dumps({"now": [{"scale": "Table 1", "state": "stable", "text": "9.47", "unit": "lb", "raw": "9.47"}]})
    first, second = (signed(table, words, NOW + timedelta(seconds=n), "scales/now") for n in (0, 5))
    assert send(event, first, words, "scales/now").status_code == 200
    assert send(event, second, words, "scales/now").status_code == 200
    assert "before another" in send(event, first, words, "scales/now").json()["error"]
