"""JSON schemas of what stations send and are answered, from the wire's own fields, and of the public event."""

from collections.abc import Mapping, Sequence
from typing import Any

from weighin.care.services.notes import SENT_NOTE
from weighin.checkin.services.check_ins import CHECK_IN
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Id, Reference
from weighin.records.parsing.json_body import MOST_ITEMS
from weighin.records.services.record_type import RecordType
from weighin.slips.services.slips import SLIP
from weighin.stations.domain.cans import CANS

Schema = dict[str, Any]

LIFE: Schema = {
    "type": "string",
    "description": "The id of the database's life. When it changes a restore may have lost what was acknowledged: send "
    "every item again, the ids make that harmless.",
}
CURSOR: Schema = {
    "type": "string",
    "description": "Only for who asks with since: how far this goes, and what to ask since the next time.",
}
TIME: Schema = {"type": "string", "format": "date-time", "description": "ISO 8601 with an offset."}
ID, REFERENCE = Id(), Reference()


def schemas() -> dict[str, Schema]:
    """Every schema of the document by name."""
    return {
        "Slip": _sent(SLIP, "A weigh slip."),
        "CheckIn": _sent(
            CHECK_IN, "A line of the check-in table's roll: when a boat came in, or a word of where it is."
        ),
        "CareNote": _sent(SENT_NOTE, "How a team kept its fish, as far as it was seen when the note was written."),
        "Answer": _answer(),
        "Error": an_object({"error": {"type": "string", "description": "One line that says what is wrong."}}),
        "Clock": an_object(
            {"off_seconds": {"type": "integer"}, "message": {"type": "string"}},
            "Only when the clock of the device, by sent, is more than two minutes off. Positive: ahead.",
        ),
        "Tablet": tablet(),
        "TabletChanges": tablet_changes(),
        "KeptSlip": _kept("Slip", SLIP),
        "KeptCheckIn": _kept("CheckIn", CHECK_IN),
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


def _sent(record: RecordType[Any], meaning: str) -> Schema:
    """What may be sent: null is the same as left out; a void needs less."""
    required = ["id", *(name for name, field in outer(record.fields).items() if needed(field))]
    is_void = {"properties": {"void": {"const": True}}, "required": ["void"]}
    return {
        "type": "object",
        "description": meaning,
        "properties": properties(record),
        "additionalProperties": False,
        "if": is_void,
        "then": {"required": ["id", *record.of_a_void, "replaces", "reason"]},
        "else": {"required": required},
    }


def properties(record: RecordType[Any]) -> dict[str, Schema]:
    """The schemas of what may be sent of a row, by the names it is sent under."""
    noun = str(record.noun)
    told = {"id": {**ID.schema, "description": f"Made by the station before it sends the {noun}; never used twice."}}
    told |= {name: field_schema(field) for name, field in outer(record.fields).items()}
    if any(field.name == "reason" for field in record.fields):
        which = or_null(REFERENCE.schema)
        told["replaces"] = {**which, "description": f"The {noun} that this one corrects: its number or its id."}
        void = f"Take the {noun} out that replaces names. Default false."
        told["void"] = {**or_null({"type": "boolean"}), "description": void}
    return told


def outer(fields: Sequence[Field]) -> dict[str, list[Field]]:
    """The fields by the name they are sent under: several where an object of the message holds them."""
    found: dict[str, list[Field]] = {}
    for field in fields:
        if field.sent_as:
            found.setdefault(field.sent_as.partition(".")[0], []).append(field)
    return found


def needed(fields: list[Field]) -> bool:
    """Whether a station must send it."""
    return any(field.required or field.by_stations for field in fields)


def field_schema(fields: list[Field]) -> Schema:
    """The schema of one field of a message; one that may be left out may be null too."""
    (first, *_) = fields
    if "." in first.sent_as:
        inside = {field.sent_as.partition(".")[2]: or_null(field.kind.schema) for field in fields}
        told = or_null({"type": "object", "properties": inside, "additionalProperties": False})
        return {**told, "description": "As far as counted."}
    told = first.kind.schema if needed(fields) else or_null(first.kind.schema)
    return {**told, "description": str(first.meaning)}


def _kept(name: str, record: RecordType[Any]) -> Schema:
    """A kept row as the tablet gets it: the fields in which it is sent, all of them, and its number."""
    told: dict[str, Schema] = {"slip": {"type": "integer", "description": "Its number."}}
    told |= {field: {"description": f"As in {name}."} for field in properties(record)}
    return an_object(told)


def _answer() -> Schema:
    parts: dict[str, Schema] = {
        "field": {"type": "string", "description": "Empty when the item as a whole is meant."},
        "message": {"type": "string"},
        "says": {
            "type": "string",
            "description": "The same in full, with the fields as a page calls them: only when asked by Prefer: labels.",
        },
    }
    fault = {**an_object(parts), "required": ["field", "message"]}
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
    whole = an_object(
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
    return {**whole, "properties": {**whole["properties"], "cursor": CURSOR}}


def tablet_changes() -> Schema:
    """What a tablet gets that has a copy."""
    ids = {"type": "array", "items": {"type": "string", "format": "uuid"}}
    whole = tablet()["properties"]
    kept = ("slips", "checkins", "called", "station", "revision", "life", "server_time", "cursor")
    return an_object(
        {name: whole[name] for name in kept}
        | {
            "gone": an_object({"slips": ids, "checkins": ids}, "Rows that are current no more."),
            "recalled": {
                "type": ["array", "null"],
                "items": {"type": "integer"},
                "description": "The boats of which called tells anew; null: of all.",
            },
        },
        "What was added since; where roster, rule sheet or days changed the whole is told instead.",
    )


def _public_event() -> Schema:
    """Weights and money are strings that hold exact decimals; null = not recorded."""
    rows = {"type": "array", "items": {"type": "object"}}
    parts: dict[str, Schema] = {name: {"type": "object"} for name in ("event", "purse", "mortality", "ledger")}
    moment: Schema = {"type": ["string", "null"], "format": "date-time"}
    result = an_object(
        {
            "state": {"type": "string", "enum": ["live", "provisional", "official"]},
            "version": {"type": ["integer", "null"]},
            "posted": moment,
            "protests_until": moment,
        },
        "What the result is by now; posted and protests_until are null while it is live.",
    )
    return an_object(
        {**parts, "standings": rows, "result": result},
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
