"""What a phone for boat checks is told: who fishes, what stands, what it came from, and what waits."""

from typing import Any

import pytest
import world
from stations.speaking import Speaker, message, new_id

from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.roster.models import Entry


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def phone(event: Event) -> Speaker:
    return Speaker(event, "Ramp", can=("care", "weigh"))


def send(phone: Speaker, **values: Any) -> str:
    key = new_id()
    assert phone.one({"id": key, "day": 1, "boat": 1, **values}, "care")["state"] in ("kept", "second")
    return key


def told(phone: Speaker) -> dict[str, Any]:
    found: dict[str, Any] = phone.ask("ramp").json()
    return found


def test_notes_stand_whoever_wrote_them(event: Event, phone: Speaker) -> None:
    key = send(phone, pump_ok=True, ice_lb="20", launched="2026-06-20T06:10:00-05:00")
    write_care_note(event, {"boat": "2", "day": "1", "livewell_temp": "76.5 F"}, "quill")
    answer = told(phone)
    by_boat = {note["boat"]: note for note in answer["notes"]}
    assert by_boat[1]["pump_ok"] is True and by_boat[1]["ice_lb"] == 20 and by_boat[1]["note"] is None
    assert by_boat[1]["launched"] == "2026-06-20T06:10:00-05:00"
    assert by_boat[2]["livewell_temp"] == "76.5 F" and by_boat[2]["pump_ok"] is None
    assert [(row["id"], row["boat"], row["said"]["ice_lb"]) for row in answer["sent"]] == [(key, 1, "20")]


def test_a_correction_takes_the_place_of_what_it_corrects(phone: Speaker) -> None:
    first = send(phone, pump_ok=True, ice_lb="20")
    second = send(phone, pump_ok=False, ice_lb="20", replaces=first, reason="looked again")
    answer = told(phone)
    assert [row["id"] for row in answer["sent"]] == [second] and answer["waiting"] == []
    assert [note["pump_ok"] for note in answer["notes"]] == [False]


def test_what_fits_is_told_from_what_waits(phone: Speaker) -> None:
    first, fits, waits = send(phone, pump_ok=True), send(phone, deep_hooked=0), send(phone, pump_ok=False)
    answer = told(phone)
    assert [row["id"] for row in answer["sent"]] == [first, fits]
    assert answer["waiting"] == [waits] and answer["notes"][0]["pump_ok"] is True


def test_the_boats_that_fish_are_told_by_day(event: Event, phone: Speaker) -> None:
    Entry.objects.filter(event=event, boat=3).update(status=Entry.Status.WITHDRAWN)
    boats = [1, 2, 4]
    assert told(phone)["fishing"] == [{"day": 1, "boats": boats}, {"day": 2, "boats": boats}]


def test_what_the_slip_says_stands_beside_the_note(phone: Speaker) -> None:
    send(phone, pump_ok=True, first_fish="2026-06-20T07:10:00-05:00")
    phone.one(message(dead=1, alive=6, bag_issued="2026-06-20T15:01:00-05:00"))
    (row,) = told(phone)["care"]
    assert (row["live_count"], row["dead_count"], row["minutes_held"], row["minutes_in_bag"]) == (6, 1, 480.0, 9.0)
    assert row["checks_passed"] == ["pump", "bag"] and row["held_is_upper_bound"] is False


def test_nothing_new_is_304_and_a_note_changes_the_tag(phone: Speaker) -> None:
    first = phone.ask("ramp")
    again = {"If-None-Match": first.headers["ETag"]}
    assert phone.ask("ramp", **again).status_code == 304
    send(phone, pump_ok=True)
    assert phone.ask("ramp", **again).status_code == 200
    assert first.headers["Cache-Control"] == "private, no-cache"


def test_only_who_may_write_notes_is_told(event: Event) -> None:
    answer = Speaker(event, "Scales", can=("weigh",)).ask("ramp")
    assert answer.status_code == 403 and "cannot" in answer.json()["error"]


def test_the_document_asks_the_same_for_one_boat_and_for_many(
    event: Event, phone: Speaker, django_assert_num_queries: Any, django_assert_max_num_queries: Any
) -> None:
    send(phone, pump_ok=True)
    with django_assert_max_num_queries(40) as few:
        told(phone)
        asked = len(few)
    for boat in (2, 3, 4):
        send(phone, boat=boat, pump_ok=True, deep_hooked=0)
        phone.one(message(boat=boat))
    with django_assert_num_queries(asked):
        told(phone)
