"""The OpenAPI document keeps in step with what the site does: addresses, methods, fields, answers and refusals."""

import json
import re
from datetime import datetime
from typing import Any
from uuid import UUID

import pytest
import world
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver
from stations.speaking import Speaker, message, new_id

from weighin.care.services.notes import SENT_NOTE
from weighin.checkin.services.check_ins import CHECK_IN
from weighin.events.models import Event
from weighin.public.pages.openapi import document
from weighin.records.services.record_type import RecordType
from weighin.scales.services.scales import write_scale
from weighin.slips.services.slips import SLIP, void_slip
from weighin.standings.services import publish_result

DOCUMENT = document()
SCHEMAS = DOCUMENT["components"]["schemas"]


# As much of JSON Schema 2020-12 as the document uses


def wrong(schema: dict[str, Any], value: Any, at: str = "") -> list[str]:
    """What of ``value`` does not fit the schema. Raises KeyError for a keyword that is not known here."""
    found: list[str] = []
    for keyword, said in schema.items():
        found += [f"{at}: {why}" if not why.startswith(at) else why for why in CHECKS[keyword](schema, said, value, at)]
    return found


def _type(schema: Any, said: Any, value: Any, at: str) -> list[str]:
    kinds = {
        "object": isinstance(value, dict),
        "array": isinstance(value, list),
        "string": isinstance(value, str),
        "boolean": isinstance(value, bool),
        "null": value is None,
        "integer": isinstance(value, int | float) and not isinstance(value, bool) and value == int(value),
        "number": isinstance(value, int | float) and not isinstance(value, bool),
    }
    return [] if any(kinds[one] for one in ([said] if isinstance(said, str) else said)) else [f"not {said}"]


def _properties(schema: Any, said: Any, value: Any, at: str) -> list[str]:
    if not isinstance(value, dict):
        return []
    return [why for name, part in said.items() if name in value for why in wrong(part, value[name], f"{at}/{name}")]


def _additional(schema: Any, said: Any, value: Any, at: str) -> list[str]:
    more = set(value) - set(schema.get("properties", {})) if isinstance(value, dict) else set()
    if said is False:
        return [f"{name} is not known" for name in more]
    return [why for name in more for why in wrong(said, value[name], f"{at}/{name}")]


def _format(schema: Any, said: str, value: Any, at: str) -> list[str]:
    if not isinstance(value, str):
        return []
    try:
        if said == "uuid":
            assert re.fullmatch(r"[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}", value) and UUID(value)
        elif said == "date-time":
            assert datetime.fromisoformat(value).tzinfo is not None and value[10] == "T"
        else:
            assert said == "uri" and re.match("https?://", value)
    except (AssertionError, ValueError):
        return [f"no {said}"]
    return []


def _if(schema: Any, said: Any, value: Any, at: str) -> list[str]:
    return wrong(schema["else"] if wrong(said, value, at) else schema["then"], value, at)


def _sized(text: Any, fits: bool, why: str) -> list[str]:
    return [] if not isinstance(text, str | list) or fits else [why]


CHECKS: dict[str, Any] = {
    "oneOf": lambda schema, said, value, at: (
        [] if sum(not wrong(part, value, at) for part in said) == 1 else [f"not one of {said}"]
    ),
    "$ref": lambda schema, said, value, at: wrong(SCHEMAS[said.rsplit("/", 1)[1]], value, at),
    "type": _type,
    "properties": _properties,
    "additionalProperties": _additional,
    "required": lambda schema, said, value, at: [
        f"{name} is missing" for name in said if isinstance(value, dict) and name not in value
    ],
    "items": lambda schema, said, value, at: [
        why for n, one in enumerate(value if isinstance(value, list) else []) for why in wrong(said, one, f"{at}/{n}")
    ],
    "minItems": lambda schema, said, value, at: _sized(value, len(value) >= said, "too few"),
    "maxItems": lambda schema, said, value, at: _sized(value, len(value) <= said, "too many"),
    "minLength": lambda schema, said, value, at: _sized(value, isinstance(value, str) and len(value) >= said, "short"),
    "maxLength": lambda schema, said, value, at: _sized(value, isinstance(value, str) and len(value) <= said, "long"),
    "pattern": lambda schema, said, value, at: _sized(
        value, isinstance(value, str) and re.search(said, value) is not None, "another pattern"
    ),
    "minimum": lambda schema, said, value, at: (
        ["too small"] if isinstance(value, int | float) and not isinstance(value, bool) and value < said else []
    ),
    "enum": lambda schema, said, value, at: [] if value in said else [f"not one of {said}"],
    "const": lambda schema, said, value, at: [] if value is said else [f"not {said}"],
    "anyOf": lambda schema, said, value, at: (
        [] if any(not wrong(one, value, at) for one in said) else [f"{value!r} is none of what may be"]
    ),
    "format": _format,
    "if": _if,
    "then": lambda *words: [],
    "else": lambda *words: [],
    "description": lambda *words: [],
    "examples": lambda *words: [],
}


def fits(name: str, value: Any) -> None:
    assert wrong(SCHEMAS[name], value) == []


def content(path: str, method: str, status: str) -> dict[str, Any]:
    answer: dict[str, Any] = DOCUMENT["paths"][path][method]["responses"][status]
    schema: dict[str, Any] = answer["content"]["application/json"]["schema"]
    return schema


# In step


def test_it_is_served_as_it_is_made() -> None:
    answer = Client().get("/api/openapi.json")
    assert answer.status_code == 200 and answer["Content-Type"] == "application/json"
    assert answer.json() == json.loads(json.dumps(DOCUMENT)) and answer.json()["openapi"].startswith("3.1.")
    assert Client().get("/api/openapi.json", headers={"If-None-Match": answer["ETag"]}).status_code == 304


def addresses() -> set[str]:
    def walk(patterns: list[Any], before: str = "") -> set[str]:
        found: set[str] = set()
        for pattern in patterns:
            if isinstance(pattern, URLResolver):
                found |= walk(pattern.url_patterns, before + str(pattern.pattern))
            elif isinstance(pattern, URLPattern):
                found.add("/" + before + re.sub(r"<slug:event_slug>", "{slug}", str(pattern.pattern)))
        return found

    return {address for address in walk(get_resolver().url_patterns) if address.startswith("/api/")}


def test_every_address_for_programs_is_told_and_no_other() -> None:
    assert set(DOCUMENT["paths"]) == addresses()


def test_every_method_that_is_answered_is_told_and_no_other(db: None) -> None:
    event = world.event()
    publish_result_of(event)
    table = Speaker(event)
    for path, told in DOCUMENT["paths"].items():
        for method in ("get", "post", "put", "patch", "delete"):
            ask = getattr(table.client, method)
            headers = {"Authorization": f"Bearer {table.token}"}
            status = ask(path.replace("{slug}", event.slug), headers=headers).status_code
            answered = status not in (403, 405)
            assert answered == (method in told), (path, method, status)


def publish_result_of(event: Event) -> None:
    Speaker(event, "First").one(message(boat=4))
    publish_result(event, "quill")


@pytest.mark.parametrize(("name", "record"), [("Slip", SLIP), ("CheckIn", CHECK_IN), ("CareNote", SENT_NOTE)])
def test_the_fields_are_those_that_are_read(name: str, record: RecordType[Any]) -> None:
    schema = SCHEMAS[name]
    sent = {field.sent_as.partition(".")[0] for field in record.fields}
    assert set(schema["properties"]) == {"id", *sent, "replaces", "void"} and schema["additionalProperties"] is False
    needed = {field.sent_as for field in record.fields if field.required or field.by_stations}
    assert set(schema["else"]["required"]) == {"id", *needed}
    species = SCHEMAS["Slip"]["properties"]["species"]["anyOf"][0]["properties"]
    assert set(species) == {"black_crappie", "white_crappie", "other"}


def test_every_reference_leads_somewhere() -> None:
    found = set(re.findall(r'"#/components/schemas/(\w+)"', json.dumps(DOCUMENT)))
    assert found <= set(SCHEMAS) and {"Slip", "CheckIn", "CareNote", "Answer"} <= found


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


MESSAGES = (
    {},
    {"short": None, "gross": None, "alive": 0, "fish": 0},
    {"species": {"black_crappie": 3, "other": None}, "largest_weights": ["1.71", "1.66"], "excused_minutes": 1.5},
    {"excused_minutes": "1.5", "big_fish": "1.66", "note": "two bags", "checked_in": "2026-06-20T20:00:00.5Z"},
    {"replaces": 1, "reason": "misread"},
    {"void": True, "replaces": 1, "reason": "twice"},
)
WRONG = (
    {"fish": "7"}, {"fish": -1}, {"fish": 7.5}, {"alive": True}, {"weighed": "15:10"}, {"weighed": None}, {"official": ""},
    {"official": None}, {"gross": 8.5}, {"gross": "9,47"}, {"gross": "9.47 lb"}, {"largest_weights": "1.71"}, {"species": {"bass": 1}},
    {"species": []}, {"void": "yes"}, {"big_fish_alive": 1}, {"note": "a\nb"}, {"note": "x" * 501}, {"replaces": "1"}, {"replaces": 0},
    {"id": "1"}, {"id": None}, {"colour": "green"}, {"excused_minutes": "five"}, {"excused_minutes": -1}, {"void": True, "replaces": 1},
)  # fmt: skip


@pytest.mark.parametrize("values", MESSAGES)
def test_what_is_taken_fits_the_schema(table: Speaker, values: dict[str, Any]) -> None:
    if "replaces" in values:
        table.one(message())
    sent = message(**values)
    fits("Slip", sent)
    assert table.one(sent)["state"] == "kept"


@pytest.mark.parametrize("values", WRONG)
def test_what_does_not_fit_the_schema_is_refused(table: Speaker, values: dict[str, Any]) -> None:
    table.one(message(boat=2))
    sent = message(**values)
    assert wrong(SCHEMAS["Slip"], sent)
    assert table.one(sent)["state"] == "refused"


def test_the_forms_of_bodies(table: Speaker) -> None:
    for path, key, item in (
        ("slips", "slips", message()),
        ("checkins", "checkins", {"id": new_id(), "day": 1, "boat": 1, "checked_in": "2026-06-20T20:00:00Z"}),
        (
            "care",
            "notes",
            {"id": new_id(), "day": 1, "boat": 1, "pump_ok": True, "ice_lb": 7.5, "livewell_temp": "78 F"},
        ),
    ):
        posted = DOCUMENT["paths"][f"/api/events/{{slug}}/{path}"]["post"]
        schema = posted["requestBody"]["content"]["application/json"]["schema"]
        for sent in ("2026-06-20T20:00:00Z", None):
            body = {key: [item], "sent": sent}
            assert wrong(schema, body) == []
            answer = table.post(path, body)
            assert answer.status_code == 200
            assert wrong(content(f"/api/events/{{slug}}/{path}", "post", "200"), answer.json()) == []
        for body in ({key: []}, {key: [item] * 51}, {key: [5]}, {key: [item], "more": 1}, {"sent": None}):
            assert wrong(schema, body)
            answer = table.post(path, body)
            assert answer.status_code == 400
            assert wrong(content(f"/api/events/{{slug}}/{path}", "post", "400"), answer.json()) == []


def test_every_state_fits_the_schema_of_answers(event: Event, table: Speaker) -> None:
    first = message()
    table.one(first)
    sent = [first, {**first, "gross": "9.00"}, message(), message(boat=99), message(boat=2), {**first, "id": None}]
    answer = table.post("slips", {"slips": sent}).json()
    states = [one["state"] for one in answer["slips"]]
    assert states == ["already", "differs", "second", "refused", "kept", "refused"]
    assert wrong(content("/api/events/{slug}/slips", "post", "200"), answer) == []
    told = SCHEMAS["Answer"]["properties"]["state"]["enum"]
    assert set(states) == set(told)


def test_the_tablets_document_fits(event: Event, table: Speaker) -> None:
    table.one({"id": new_id(), "day": 1, "boat": 1, "checked_in": "2026-06-20T20:00:00Z"}, "checkins")
    table.send(message(), message(boat=2))
    void_slip(event.slips.get(number=2), "twice", "quill")
    schema = content("/api/events/{slug}/station", "get", "200")
    first = table.ask("station?since=").json()
    table.one(message(boat=3))
    later = table.ask(f"station?since={first['cursor']}").json()
    for told, name in ((table.ask().json(), "Tablet"), (first, "Tablet"), (later, "TabletChanges")):
        assert wrong(schema, told) == [] == wrong(SCHEMAS[name], told)


def test_the_ramps_document_fits(event: Event) -> None:
    ramp = Speaker(event, "Ramp", can=("care",))
    first = {"id": new_id(), "day": 1, "boat": 1, "pump_ok": True, "ice_lb": 7.5, "launched": "2026-06-20T11:00:00Z"}
    ramp.one(first, "care")
    ramp.one({"id": new_id(), "day": 1, "boat": 1, "pump_ok": False}, "care")
    assert wrong(content("/api/events/{slug}/ramp", "get", "200"), ramp.ask("ramp").json()) == []


def test_the_public_event_fits(db: None) -> None:
    event = world.plain()
    publish_result(event, "quill")
    answer = Client().get(f"/api/events/{event.slug}").json()
    assert wrong(content("/api/events/{slug}", "get", "200"), answer) == []


def test_scales_and_their_readings_fit(event: Event, table: Speaker) -> None:
    write_scale(event, {"name": "Table 1", "division": "0.01", "layout": "headers"}, "quill")
    write_scale(event, {"name": "Table 2", "division": "0.01"}, "quill")
    word = {"scale": "Table 1", "state": "stable", "text": "8.50", "unit": "lb", "raw": "ST,GS,+00008.50lb"}
    fits("ScaleWord", word)
    posted = DOCUMENT["paths"]["/api/events/{slug}/scales/now"]["post"]
    schema = posted["requestBody"]["content"]["application/json"]["schema"]
    answer = table.post("scales/now", {"now": [word, {"scale": "Table 9", "state": "stable"}]})
    assert wrong(schema, {"now": [word]}) == []
    assert wrong(content("/api/events/{slug}/scales/now", "post", "200"), answer.json()) == []
    assert [one["state"] for one in answer.json()["now"]] == ["kept", "refused"]
    assert wrong(content("/api/events/{slug}/scales", "get", "200"), table.ask("scales").json()) == []
    reading = {
        "id": new_id(), "slip": new_id(), "field": "gross", "text": "8.50", "unit": "lb", "raw": "ST,GS,+00008.50lb",
        "scale": "Table 1", "taken": "2026-06-20T20:00:00Z",
    }  # fmt: skip
    for values in ({}, {"scale": None}, {"field": "largest_2"}):
        sent = {**reading, "id": new_id(), **values}
        fits("Reading", sent)
        assert table.one(sent, "readings")["state"] == "kept"
    for values in (
        {"field": "fish"},
        {"slip": "1"},
        {"slip": None},
        {"unit": "stone"},
        {"text": 8.5},
        {"colour": "red"},
    ):
        sent = {**reading, "id": new_id(), **values}
        assert wrong(SCHEMAS["Reading"], sent)
        assert table.one(sent, "readings")["state"] == "refused"


@pytest.mark.parametrize("path", ["station", "slips", "checkins", "care", "scales", "scales/now", "readings"])
def test_every_refusal_is_told(event: Event, path: str) -> None:
    method = "get" if path in ("station", "scales") else "post"
    told = DOCUMENT["paths"][f"/api/events/{{slug}}/{path}"][method]["responses"]
    where = f"/api/events/{event.slug}/{path}"
    weak = Speaker(event, can=("care" if path not in ("care", "ramp") else "weigh",))
    other = Speaker(world.event("Elsewhere"))
    answers = [
        getattr(Client(), method)(where, headers={"Authorization": f"Bearer {token}"})
        for token in ("x" * 43, weak.token, other.token, *(f"{n:043}" for n in range(25)))
    ]
    answers += [getattr(Client(), method)(where), getattr(world.stranger(), method)(where), Client().put(where)]
    found = {answer.status_code for answer in answers} - {200}
    assert found >= {401, 403, 404, 429}
    for answer in answers:
        if answer.status_code in (401, 403, 404, 405, 429):
            assert str(answer.status_code) in told
            if answer.status_code != 405 or answer.content:
                fits("Error", answer.json())
    assert all("Retry-After" in answer.headers for answer in answers if answer.status_code == 429)
