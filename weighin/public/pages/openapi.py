"""The OpenAPI 3.1 document of what programs may ask: put together in code, from the fields that the readers use."""

from typing import Any

from weighin.public.pages.care_schemas import care_schemas
from weighin.public.pages.proof_schemas import proof_schema
from weighin.public.pages.scale_schemas import scale_schemas
from weighin.public.pages.schemas import Schema, answers, body, schemas
from weighin.records.parsing.json_body import MOST_BYTES
from weighin.stations.services.wrong_tokens import FREE_TRIES

VERSION = "1"
STATION: list[dict[str, list[str]]] = [{"token": []}, {"session": []}]
REFUSALS = {
    "401": "No token or log-in, a wrong or withdrawn token, or the event is closed.",
    "403": "The token is of another event or cannot do this; a member's role cannot; or a page's security token is old.",
    "404": "For people who are signed in: no such event, or not of your club.",
    "405": "Another method.",
    "429": f"More than about {FREE_TRIES} wrong tokens a minute from one address; a right token is never held back.",
    "503": "The database does not work just now: nothing that was not answered is kept; send it again.",
}

SINCE = {
    "name": "since",
    "in": "query",
    "schema": {"type": "string"},
    "description": "The cursor of the copy that is there, empty where there is none: what was added since is answered, or "
    "the whole where that is not enough. Without it the whole.",
}


def document() -> dict[str, Any]:
    """The whole document as plain JSON values."""
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "weighin: stations and results",
            "version": VERSION,
            "description": "What a tablet at the scale table, a second scale or a club's own script says to the site. "
            "A station makes a UUID for each item before it sends it, keeps the item until an answer names its id, and "
            "sends it again as often as it must: every id ends in exactly one row.",
        },
        "paths": {
            "/api/openapi.json": {"get": _get("This document.", {"type": "object"}, security=[])},
            "/api/events/{slug}": {
                "parameters": [SLUG],
                "get": _get(
                    "A published event, without anything private.", _ref("PublicEvent"), {"404": NOT_PUBLISHED}
                ),
            },
            "/api/events/{slug}/proof": {
                "parameters": [SLUG],
                "get": _get(
                    "All from which the result of a published event can be worked out again, and the result; not while places "
                    "are held back.",
                    _ref("Proof"),
                    {"404": "No such event, it is not published, or its places are held back."},
                ),
            },
            "/api/events/{slug}/station": {
                "parameters": [SLUG],
                "get": {
                    **_get(
                        "Everything a tablet needs.",
                        {"oneOf": [_ref("Tablet"), _ref("TabletChanges")]},
                        REFUSALS,
                        STATION,
                    ),
                    "parameters": [SINCE],
                },
            },
            "/api/events/{slug}/slips": {"parameters": [SLUG], "post": _post("weigh slips", "slips", "Slip")},
            "/api/events/{slug}/checkins": {"parameters": [SLUG], "post": _post("check-ins", "checkins", "CheckIn")},
            "/api/events/{slug}/scales": {"parameters": [SLUG], "get": _scales()},
            "/api/events/{slug}/scales/now": {"parameters": [SLUG], "post": _scale_words()},
            "/api/events/{slug}/readings": {
                "parameters": [SLUG],
                "post": _post("readings that went into slips", "readings", "Reading"),
            },
            "/api/events/{slug}/ramp": {
                "parameters": [SLUG],
                "get": _get("Everything a phone for boat checks needs.", _ref("Ramp"), REFUSALS, STATION),
            },
            "/api/events/{slug}/care": {"parameters": [SLUG], "post": _post("care notes", "notes", "CareNote")},
        },
        "components": {
            "schemas": {**schemas(), **scale_schemas(), **care_schemas(), "Proof": proof_schema()},
            "securitySchemes": {
                "token": {
                    "type": "http",
                    "scheme": "bearer",
                    "description": "The token of a station, as pairing shows it once. Over plain http whoever listens reads it; tablets sign instead (weighin/stations/services/signatures.py).",
                },
                "session": {
                    "type": "apiKey",
                    "in": "cookie",
                    "name": "sessionid",
                    "description": "A page's log-in; posts then need the X-CSRFToken header.",
                },
            },
        },
    }


NOT_PUBLISHED = "No published event has this slug."
SLUG = {
    "name": "slug",
    "in": "path",
    "required": True,
    "schema": {"type": "string"},
    "description": "The event's slug.",
}


def _get(summary: str, schema: Schema, refusals: dict[str, str] | None = None, security: Any = ()) -> dict[str, Any]:
    """A GET with an entity tag: 304 while nothing changed."""
    tag = {"ETag": {"schema": {"type": "string"}}}
    return {
        "summary": summary,
        "security": list(security),
        "responses": {
            "200": {"description": summary, "headers": tag, "content": _json(schema)},
            "304": {"description": "Nothing changed since the entity tag in If-None-Match."},
            **_refused(refusals or {}),
        },
    }


def _post(what: str, key: str, name: str) -> dict[str, Any]:
    whole = f"The body is not JSON, has more than {MOST_BYTES // 1024} KiB, or is not of this form: nothing is written."
    return {
        "summary": f"Send {what}, each kept in a transaction of its own.",
        "description": "Corrections are taken after what they correct, whatever order they have in the body.",
        "security": STATION,
        "requestBody": {"required": True, "content": _json(body(key, name))},
        "responses": {
            "200": {"description": "An answer for each, in order.", "content": _json(answers(key))},
            **_refused({"400": whole, **REFUSALS}),
        },
    }


def _scales() -> dict[str, Any]:
    said = "The event's scales: how each speaks, and its last word."
    return {
        "summary": said,
        "security": STATION,
        "responses": {"200": {"description": said, "content": _json(_ref("Scales"))}, **_refused(REFUSALS)},
    }


def _scale_words() -> dict[str, Any]:
    told = _post("the last word of scales", "now", "ScaleWord")
    told["summary"] = "Tell the last word of scales, which is written over and kept in no record."
    told["description"] = "A tablet takes it into a slip while it is no more than a few seconds old."
    told["responses"]["200"]["content"] = _json(_ref("ScaleWordAnswers"))
    return told


def _refused(refusals: dict[str, str]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for status, meaning in refusals.items():
        found[status] = {"description": meaning}
        if meaning != NOT_PUBLISHED:
            found[status]["content"] = _json(_ref("Error"))
    for status in {"429", "503"} & set(found):
        found[status]["headers"] = {"Retry-After": {"schema": {"type": "integer"}, "description": "Seconds to wait."}}
    return found


def _json(schema: Schema) -> dict[str, Any]:
    return {"application/json": {"schema": schema}}


def _ref(name: str) -> Schema:
    return {"$ref": f"#/components/schemas/{name}"}
