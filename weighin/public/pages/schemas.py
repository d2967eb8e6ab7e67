"""JSON schemas of what stations send and are answered, from the wire's own fields, and of the public event."""

from collections.abc import Mapping
from typing import Any

from weighin.care.domain.message import NOTE
from weighin.checkin.domain.message import CHECKIN
from weighin.records.parsing.fields import MOST_SIGNS
from weighin.records.parsing.wire import MOST_ITEMS, SPECIES, Field
from weighin.slips.domain.message import OF_A_VOID, SLIP
from weighin.stations.domain.cans import CANS

Schema = dict[str, Any]

PLAIN_TEXT = r"^[^\u0000-\u001f\u007f-\u009f]*$"
WEIGHT: Schema = {
    "type": "string",
    "pattern": r"^([0-9]+-)?[0-9]*\.?[0-9]*$",
    "maxLength": 40,
    "description": "As the scale showed it, in the event's unit: 9.47, 9-07.5, 4.295.",
    "examples": ["9.47"],
}
LIFE: Schema = {
    "type": "string",
    "description": "The id of the database's life. When it changes a restore may have lost what was acknowledged: send "
    "every item again, the ids make that harmless.",
}
TIME: Schema = {"type": "string", "format": "date-time", "description": "ISO 8601 with an offset."}
KINDS: dict[str, Schema] = {
    "id": {"type": "string", "format": "uuid"},
    "uuid": {"type": "string", "format": "uuid"},
    "count": {"type": "integer", "minimum": 0},
    "flag": {"type": "boolean"},
    "text": {"type": "string", "maxLength": MOST_SIGNS, "pattern": PLAIN_TEXT},
    "name": {"type": "string", "minLength": 1, "maxLength": MOST_SIGNS, "pattern": PLAIN_TEXT},
    "weight": WEIGHT,
    "weights": {"type": "array", "items": WEIGHT},
    "figure": {"anyOf": [{"type": "number", "minimum": 0}, {"type": "string", "pattern": r"^[0-9]*\.?[0-9]*$"}]},
    "time": TIME,
    "temperature": {"type": "string", "maxLength": 20, "examples": ["82 F", "27.8 C"]},
    "reference": {"anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "format": "uuid"}]},
    "species": {
        "type": "object",
        "properties": {name: {"anyOf": [{"type": "integer", "minimum": 0}, {"type": "null"}]} for name in SPECIES},
        "additionalProperties": False,
    },
}


def schemas() -> dict[str, Schema]:
    """Every schema of the document by name."""
    return {
        "Slip": _sent(SLIP, "A weigh slip.", OF_A_VOID),
        "CheckIn": _sent(
            CHECKIN, "A line of the check-in table's roll: when a boat came in, or a word of where it is."
        ),
        "CareNote": _sent(NOTE, "How a team kept its fish, as far as it was seen when the note was written."),
        "Answer": _answer(),
        "Error": an_object({"error": {"type": "string", "description": "One line that says what is wrong."}}),
        "Clock": an_object(
            {"off_seconds": {"type": "integer"}, "message": {"type": "string"}},
            "Only when the clock of the device, by sent, is more than two minutes off. Positive: ahead.",
        ),
        "Tablet": tablet(),
        "KeptSlip": _kept("Slip", SLIP),
        "KeptCheckIn": _kept("CheckIn", CHECKIN),
        "PublicEvent": _public_event(),
    }


def body(key: str, name: str) -> Schema:
    """The schema of a posted body: 1 to 50 items under ``key``."""
    items: Schema = {"type": "array", "minItems": 1, "maxItems": MOST_ITEMS, "items": ref(name)}
    sent: Schema = {**TIME, "description": "The device's time of sending; a clock more than two minutes off is marked."}
    return {**an_object({key: items, "sent": or_null(sent)}), "required": [key]}


def answers(key: str) -> Schema:
    """The schema of the answer to a posted body."""
    told: dict[str, Schema] = {
        key: {"type": "array", "items": ref("Answer")},
        "revision": {"type": "integer"},
        "clock": ref("Clock"),
    }
    return {**an_object(told), "required": [key, "revision"]}


def _sent(fields: Mapping[str, Field], meaning: str, of_a_void: tuple[str, ...] = ("id", "day", "boat")) -> Schema:
    """What may be sent: null is the same as left out; a void needs less."""
    required = [name for name, field in fields.items() if field.required]
    is_void = {"properties": {"void": {"const": True}}, "required": ["void"]}
    return {
        "type": "object",
        "description": meaning,
        "properties": {name: field_schema(field, name in required) for name, field in fields.items()},
        "additionalProperties": False,
        "if": is_void,
        "then": {"required": [*of_a_void, "replaces", "reason"]},
        "else": {"required": required},
    }


def field_schema(field: Field, required: bool) -> Schema:
    """The schema of one field of a message; one that may be left out may be null too."""
    schema = {**KINDS[field.kind]}
    if field.choices:
        schema["enum"] = list(field.choices)
    told = schema if required else or_null(schema)
    return {**told, "description": field.meaning}


def _kept(name: str, fields: Mapping[str, Field]) -> Schema:
    """A kept row as the tablet gets it: the fields in which it is sent, all of them, and its number."""
    told: dict[str, Schema] = {"slip": {"type": "integer", "description": "Its number."}}
    told |= {field: {"description": f"As in {name}."} for field in fields}
    return an_object(told)


def _answer() -> Schema:
    fault = an_object(
        {
            "field": {"type": "string", "description": "Empty when the item as a whole is meant."},
            "message": {"type": "string"},
        }
    )
    states = ["kept", "already", "differs", "second", "refused"]
    return an_object(
        {
            "id": {"type": ["string", "null"]},
            "state": {
                "enum": states,
                "description": "kept: durably written. already: the same was kept before, nothing written. differs: the "
                "id was kept before with other content, nothing written. second: kept, but the boat has another for "
                "that day. refused: faults say why, nothing written.",
            },
            "slip": {"type": ["integer", "null"], "description": "The number of the row that is kept."},
            "url": {"type": ["string", "null"], "format": "uri"},
            "faults": {"type": "array", "items": fault},
        }
    )


def tablet() -> Schema:
    """What a tablet at the scale table gets."""
    return an_object(
        {
            "event": {"type": "object"},
            "days": {"type": "array", "items": {"type": "object"}},
            "rules": {"type": "object", "additionalProperties": {"type": "string"}},
            "roster": {"type": "array", "items": {"type": "object"}},
            "slips": {
                "type": "array",
                "items": ref("KeptSlip"),
                "description": "Current ones, both of a doubled day.",
            },
            "checkins": {"type": "array", "items": ref("KeptCheckIn")},
            "called": {
                "type": "array",
                "items": an_object(
                    {
                        "day": {"type": "integer"},
                        "boat": {"type": "integer"},
                        "bag_issued": TIME,
                        "at_scales": {**TIME, "type": ["string", "null"]},
                    }
                ),
                "description": "Boats whose bag is out, as the line says.",
            },
            "believable": {
                **an_object({name: {"type": "string"} for name in ("words", "unit", "lightest", "heaviest")}),
                "type": ["object", "null"],
                "description": "What one fish may weigh, in the unit named (lb-oz: in pounds): outside, ask, never refuse. "
                "Null: the rule sheet's species is not known.",
            },
            "station": an_object(
                {
                    "name": {"type": "string"},
                    "can": {"type": "array", "items": {"enum": [*CANS, "correct", "rule"]}},
                }
            ),
            "revision": {"type": "integer"},
            "life": LIFE,
            "server_time": TIME,
        },
        "Everything a tablet needs to work alone for a day.",
    )


def _public_event() -> Schema:
    """Weights and money are strings that hold exact decimals; null = not recorded."""
    rows = {"type": "array", "items": {"type": "object"}}
    parts: dict[str, Schema] = {name: {"type": "object"} for name in ("event", "purse", "mortality", "ledger")}
    return an_object(
        {**parts, "standings": rows},
        "A published event. Weights and money are strings that hold exact decimals; null = not recorded.",
    )


def an_object(properties: Mapping[str, Schema], meaning: str = "") -> Schema:
    """An object with exactly these properties."""
    told: Schema = {
        "type": "object",
        "properties": dict(properties),
        "required": list(properties),
        "additionalProperties": False,
    }
    return told | ({"description": meaning} if meaning else {})


def ref(name: str) -> Schema:
    """A schema of the document by its name."""
    return {"$ref": f"#/components/schemas/{name}"}


def or_null(schema: Schema) -> Schema:
    """What may be null too."""
    return {"anyOf": [schema, {"type": "null"}]}
