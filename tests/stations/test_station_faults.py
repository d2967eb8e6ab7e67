"""Everything a station can get wrong: bodies that are refused whole, and slips that are refused with their faults."""

import json
from time import process_time
from typing import Any
from unittest.mock import patch

import pytest
import world
from django.db import DatabaseError, OperationalError
from stations.speaking import Speaker, fields, message

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event, RuleSheet
from weighin.public.pages.openapi import document
from weighin.records.parsing.json_body import BodyRefused, read_body
from weighin.rules import rulebook
from weighin.slips.models import WeighSlip


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def written(event: Event) -> tuple[int, int, int]:
    return WeighSlip.objects.count(), HistoryEntry.objects.count(), Event.objects.get(pk=event.pk).revision


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"nonsense",
        b"[]",
        b"null",
        b"7",
        b'"slips"',
        b"{}",
        b'{"slips": []}',
        b'{"slips": {}}',
        b'{"slips": null}',
        b'{"slips": "none"}',
        b'{"slips": [5]}',
        b'{"slips": [null]}',
        b'{"slips": [[]]}',
        b'{"slip": [{}]}',
        b'{"slips": [{}], "sent": "yesterday"}',
        b'{"slips": [{}], "sent": 5}',
        b'{"slips": [{}], "sent": "2026-06-20T15:10:00"}',
        b'{"slips": [{}], "sent": "0001-01-01T00:00:00+14:00"}',
        b'{"slips": [{}], "checkins": []}',
        b'{"slips": [{}], "slips": [{}]}',
        b'{"slips": [{"fish": 7, "fish": 8}]}',
        b'{"slips": [{' + b", ".join(b'"f%d": 1' % place for place in range(101)) + b"}]}",
        b'{"slips": [{"fish": NaN}]}',
        b'{"slips": [{"fish": -Infinity}]}',
        b'{"slips": [{"fish": 7}',
        b'{"slips": [{"fish": 7}]} and more',
        b"{'slips': [{}]}",
        b'\xef\xbb\xbf{"slips": [{}]}',
        '{"slips": [{"note": "é"}]}'.encode("latin-1"),
        '{"slips": [{}]}'.encode("utf-16"),
        b'{"slips": ' + b"[" * 100_000 + b"]" * 100_000 + b"}",
        b'{"slips": [{"fish": ' + b"9" * 100_000 + b"}],,}",
    ],
    ids=lambda body: body[:60].decode("latin-1"),
)
def test_a_body_that_is_not_of_the_form_is_refused_whole(event: Event, table: Speaker, body: bytes) -> None:
    before = written(event)
    answer = table.post("slips", body)
    assert answer.status_code == 400
    assert list(answer.json()) == ["error"] and answer.json()["error"].endswith(".")
    assert written(event) == before


def test_many_fields_are_refused_in_linear_time() -> None:
    """A whole body of one object's fields, the last of them doubled, takes no longer than reading it."""

    def spent(fields: int) -> float:
        body = b'{"slips": [{' + b", ".join(b'"f%d":1' % place for place in range(fields)) + b', "f0":1}]}'
        began = process_time()
        with pytest.raises(BodyRefused, match=f"has {fields + 1} fields: 100 are the most"):
            read_body(body, "slips")
        return process_time() - began

    # Ten times the fields take some ten times as long; where each asks all others it was seconds against a millisecond
    assert min(spent(22_000) for _ in range(3)) < 400 * max(min(spent(2_200) for _ in range(3)), 0.001)


def test_a_day_chosen_early_is_refused_at_the_day(event: Event, table: Speaker) -> None:
    before = written(event)
    (fault,) = table.one(message(day=2))["faults"]
    assert fault["field"] == "day"
    assert fault["message"] == "day 2 begins on Jun 21, 6:00 AM, after these fish were weighed: choose day 1"
    assert written(event) == before


def test_a_fault_of_the_database_is_one_line_to_come_back_after(table: Speaker, caplog: Any) -> None:
    with patch("weighin.records.services.door.writing", side_effect=OperationalError("disk I/O error\nat page 7")):
        answer = table.post("slips", {"slips": [message()]})
    assert answer.status_code == 503 and int(answer["Retry-After"]) > 0
    assert list(answer.json()) == ["error"] and "send it again" in answer.json()["error"]
    assert not any(record.exc_info for record in caplog.records) and "disk I/O error at page 7" in caplog.text
    with patch("weighin.stations.services.stations.paired", side_effect=DatabaseError("malformed")):
        assert table.ask().status_code == 503
    assert table.one(message())["state"] == "kept"


def test_half_a_body_writes_nothing(event: Event, table: Speaker) -> None:
    whole = json.dumps({"slips": [message(), message(boat=2)]})
    before = written(event)
    for cut in range(0, len(whole), 17):
        assert table.post("slips", whole[:cut]).status_code == 400
    assert written(event) == before
    assert table.post("slips", whole).status_code == 200


def test_at_most_fifty_at_once(event: Event, table: Speaker) -> None:
    before = written(event)
    answer = table.post("slips", {"slips": [message() for _ in range(51)]})
    assert answer.status_code == 400 and "1 to 50" in answer.json()["error"]
    assert written(event) == before


def test_at_most_256_kib(event: Event, table: Speaker) -> None:
    body = json.dumps({"slips": [message()]}).encode()
    before = written(event)
    large = table.post("slips", body.ljust(256 * 1024 + 1))
    assert large.status_code == 400 and "256 KiB" in large.json()["error"]
    assert table.post("slips", body.ljust(5 * 1024 * 1024)).status_code == 400
    assert written(event) == before
    assert table.post("slips", body.ljust(256 * 1024)).status_code == 200


def test_a_form_is_no_json(event: Event, table: Speaker) -> None:
    answer = table.client.post(
        f"/api/events/{event.slug}/slips", {"slips": "[]"}, headers={"Authorization": f"Bearer {table.token}"}
    )
    assert answer.status_code == 400 and list(answer.json()) == ["error"]


SCHEMA = document()["components"]["schemas"]["Slip"]
REQUIRED = ("id", "day", "boat", "fish", "alive", "dead", "weighed", "official")


def test_the_required_fields_are_those_of_the_contract() -> None:
    assert set(SCHEMA["else"]["required"]) == set(REQUIRED)


@pytest.mark.parametrize("name", REQUIRED)
@pytest.mark.parametrize("how", ["absent", "null"])
def test_a_required_field_is_asked_for(event: Event, table: Speaker, name: str, how: str) -> None:
    sent = message()
    if how == "null":
        sent[name] = None
    else:
        del sent[name]
    before = written(event)
    (answer,) = table.send(sent)
    assert name in fields(answer) and len(answer["faults"]) == len(fields(answer))
    assert written(event) == before


COUNTS = ("day", "boat", "fish", "alive", "dead", "short", "well_boat", "minutes_late", "dead_at_release", "kept")
TIMES = ("checked_in", "bag_issued", "weighed", "bag_emptied", "released")
WEIGHTS = ("gross", "tare", "big_fish", "extra_penalty")
TEXTS = ("extra_penalty_reason", "disqualified_reason", "official", "note", "reason")
NOT_A_COUNT = ("7", 7.5, -1, 1e30, True, [7], {"fish": 7}, 10**12)
NOT_A_TIME = (
    "15:10", "2026-06-20", "2026-06-20T15:10:00", "2026-06-20 15:10:00-05:00", "2026-06-20T25:10:00Z", "2026-02-30T15:10:00Z",
    "2026-06-20T15:10:60Z", "2026-W25-6T15:10:00Z", "20260620T151000Z", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-12:00",
    "2026-06-20T15:10:00+25:00", "2026-06-20T15:10:00Z\n", "٢026-06-20T15:10:00Z", "", 1781986200, True, ["2026-06-20T15:10:00Z"],
)  # fmt: skip
NOT_A_WEIGHT = (
    9.47, 9, True, ["9.47"], "9,47", "-9.47", "+9.47", "9.4.7", "9.47 lb", "9.47lb", "4.295 kg", " 9.47", "1e1", "9.", "9_0",
    "٩.٤٧", "９.47", "9.47\u0000", "999.01", "1000", "heavy", "9-07", "9 lb 7 oz", "." , "9" * 41, "0x9", "NaN",
)  # fmt: skip
NOT_A_TEXT = (
    5,
    True,
    ["a"],
    {"a": 1},
    "a\u0000b",
    "a\nb",
    "a\tb",
    "a\u0007b",
    "\u001b[2J",
    "a\u007fb",
    "a\u0085b",
    "x" * 501,
)


AN_ID = "1a590c86-8cd0-4c6a-a9a2-172a19b17bd4"
NOT_AN_ID = (
    "", "1", 5, True, [], f"{{{AN_ID}}}", f"urn:uuid:{AN_ID}", AN_ID[:-1], AN_ID + "0", AN_ID.replace("-", ""), "g" + AN_ID[1:],
    "\u0000" * 36, "\ud800",
)  # fmt: skip
NOT_KNOWN = (
    "slip", "Fish", "fish ", "weight", "team", "received_at", "recorded_by", "position", "link", "sent_at", "number",
    "no_such_field", "", "\u0000", "\ud800", "n" * 300,
)  # fmt: skip
WRONG = {
    **dict.fromkeys(COUNTS, NOT_A_COUNT),
    **dict.fromkeys(TIMES, NOT_A_TIME),
    **dict.fromkeys(WEIGHTS, NOT_A_WEIGHT),
    **dict.fromkeys(TEXTS, NOT_A_TEXT),
    "official": (*NOT_A_TEXT, "", " ", "\u00a0", "\u200b", "\u2003 \u2060"),
    "big_fish_alive": ("yes", 1, 0, "true", []),
    "void": ("yes", 1, 0, "true", []),
    "largest_weights": (
        "1.71", 1.71, [1.71], ["1,71"], [None], [""], [["1.71"]], {"1": "1.71"}, ["0"] * 300, ["1.66", "1.71"], ["9.00"],
    ),
    "species": (3, "3", [3], {"bass": 3}, {"other": "3"}, {"other": -1}, {"other": 8}),
    "excused_minutes": ("five", -1, 1e30, True, [5], "5,0", "٥", 2881, "\u0000", {}),
    "id": NOT_AN_ID,
}  # fmt: skip


def told(table: Speaker, item: dict[str, Any]) -> dict[str, Any]:
    answer = table.post("slips", json.dumps({"slips": [item]}))
    assert answer.status_code == 200, answer.content
    (found,) = answer.json()["slips"]
    return dict(found)


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_value_is_a_fault_at_its_field(event: Event, table: Speaker, name: str) -> None:
    before = written(event)
    for value in WRONG[name]:
        found = fields(told(table, message(**{name: value})))
        assert name in found and found <= {name, "fish"}, (value, found)
    assert written(event) == before


def test_unknown_fields_are_faults(event: Event, table: Speaker) -> None:
    before = written(event)
    for name in NOT_KNOWN:
        for value in (1, None):
            found = told(table, message(**{name: value}))
            assert len(fields(found)) == 1 and "not known" in found["faults"][0]["message"], name
    assert written(event) == before


@pytest.mark.parametrize("sign", ["\ud800", "a\udfff"])
@pytest.mark.parametrize("name", ["note", "official", "gross", "weighed"])
def test_half_a_sign_is_a_fault(table: Speaker, name: str, sign: str) -> None:
    answer = table.post("slips", json.dumps({"slips": [message(**{name: sign})]}))
    assert answer.status_code == 200 and name in fields(answer.json()["slips"][0])


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"boat": 99}, "boat"),
        ({"day": 3}, "day"),
        ({"well_boat": 99}, "well_boat"),
        ({"alive": 6}, "fish"),
        ({"short": 8}, "short"),
        ({"gross": None}, "gross"),
        ({"tare": "9.00"}, "gross"),
        ({"dead_at_release": 5, "kept": 4}, "dead_at_release"),
        ({"species": {"black_crappie": 4, "other": 4}}, "species"),
        ({"checked_in": "2026-06-20T15:00:00-05:00", "minutes_late": 3}, "minutes_late"),
        ({"bag_issued": "2026-06-20T15:11:00-05:00"}, "weighed"),
        ({"released": "2026-06-20T15:09:00-05:00"}, "released"),
        ({"extra_penalty": "1.00"}, "extra_penalty"),
        ({"big_fish": "8.60"}, "big_fish"),
        ({"big_fish": "1.00", "big_fish_alive": False}, "big_fish_alive"),
        ({"weighed": "2026-06-23T15:10:00-05:00"}, "weighed"),
        ({"weighed": "2026-06-17T15:10:00-05:00"}, "weighed"),
        ({"checked_in": "2026-06-17T15:10:00-05:00"}, "checked_in"),
        ({"weighed": "1970-01-01T00:00:00Z"}, "weighed"),
        ({"weighed": "2026-06-20T05:00:00-05:00"}, "weighed"),
    ],
)
def test_the_faults_of_a_slip_are_the_readers(table: Speaker, values: dict[str, Any], field: str) -> None:
    assert field in fields(table.one(message(**values)))


def test_every_fault_comes_at_once(table: Speaker) -> None:
    answer = table.one(
        message(boat=99, alive="5", gross="9,47", weighed="15:10", official="", colour="green", note="\u0001")
    )
    assert fields(answer) == {"boat", "alive", "gross", "weighed", "official", "colour", "note"}


def test_no_fault_is_said_twice_or_of_a_field_that_was_sound(table: Speaker) -> None:
    answer = table.one(message(gross=8.5))
    assert [fault["field"] for fault in answer["faults"]] == ["gross"]


def test_a_fault_is_said_in_full_with_the_labels_of_the_page(table: Speaker) -> None:
    def fault_of(**values: object) -> dict[str, str]:
        (answer,) = table.post("slips", {"slips": [message(**values)]}, Prefer="labels").json()["slips"]
        (found,) = answer["faults"]
        return dict(found)

    fault = fault_of(bag_issued="2026-06-20T15:11:00-05:00")
    assert fault["says"] == "“Weighed” is before “Bag issued”: correct one of the two times."
    fault = fault_of(gross="x")
    assert fault["says"].startswith("Scale reading: ") and fault["says"].endswith(".")


def test_a_program_is_told_the_contract_and_no_more(table: Speaker) -> None:
    answer = table.one(message(gross="x"))
    assert set(answer) == {"id", "state", "slip", "url", "faults"}
    assert [set(fault) for fault in answer["faults"]] == [{"field", "message"}]


def test_a_whole_number_may_have_a_point(table: Speaker) -> None:
    assert table.one(message(short=0.0, fish=7.0))["state"] == "kept"


@pytest.mark.parametrize(
    ("unit", "good", "bad"),
    [
        ("lb-oz", ("9-07.5", "9-7", "0-07.5", "12-00"), ("9.47", "9-16", "9-7 1/2", "9 lb 7.5 oz", "9-", "-7")),
        ("kg", ("4.295", "4.3", "4", ".5"), ("4-3", "4.295 kg", "4,295", "9-07.5")),
        ("lb", ("9.47", "9", "9.470000"), ("9-07.5", "4.295 kg")),
    ],
)
def test_weights_are_in_the_events_unit(db: None, unit: str, good: tuple[str, ...], bad: tuple[str, ...]) -> None:
    event = world.event()
    Event.objects.filter(pk=event.pk).update(weight_unit=unit)
    RuleSheet.objects.filter(event=event).update(written=rulebook.defaults(unit).written())
    table = Speaker(event)
    for weight in good:
        assert table.one(message(gross=weight, boat=1))["state"] in ("kept", "second"), weight
    for weight in bad:
        assert fields(table.one(message(gross=weight))) == {"gross"}, weight


@pytest.mark.parametrize("slip_id", ["00000000-0000-0000-0000-000000000000", "FFFFFFFF-FFFF-FFFF-FFFF-FFFFFFFFFFFF"])
def test_any_uuid_will_do(table: Speaker, slip_id: str) -> None:
    assert table.one(message(id=slip_id))["state"] == "kept"
    assert table.one(message(id=slip_id, gross="1.00"))["state"] == "differs"


def test_long_texts_and_signs_of_every_script_are_kept(table: Speaker) -> None:
    note = "Łukasz 鯰 \U0001f41f é'\";--<b>&" + "x" * 470
    sent = message(note=note, official="=SUM(A1)")
    assert len(note) <= 500 and table.one(sent)["state"] == "kept"
    slip = WeighSlip.objects.get()
    assert (slip.note, slip.official) == (note, "=SUM(A1)")
    assert table.one(sent)["state"] == "already"
