"""JSON schemas of what is asked and told about scales."""

from weighin.public.pages.schemas import Schema, an_object, field_schema, needed, or_null, outer, properties, ref
from weighin.records.domain.kinds import Text
from weighin.scales.domain.fields import NOW, READING
from weighin.scales.services.readings import SCALE_READING


def scale_schemas() -> dict[str, Schema]:
    """Every schema of scales by name."""
    port = an_object(
        {
            "baud": {"type": "integer"},
            "data_bits": {"enum": [7, 8]},
            "parity": {"enum": ["N", "E", "O"]},
            "stop_bits": {"enum": [1, 2]},
            "ask": {"type": "string", "description": "What it must be sent before it says its weight; often nothing."},
            "once": {"type": "boolean", "description": "It speaks when its own key is pressed: a line counts at once."},
        },
        "How its serial line is set.",
    )
    texts: Schema = {"type": "array", "items": {"type": "string"}}
    layout = an_object(
        {
            "name": {"type": "string"},
            "pattern": {"type": "string", "description": "As it was written, for a layout of its own."},
            "frame": {"type": "boolean", "description": "The continuous output, which is no pattern."},
            "patterns": {**texts, "description": "Regular expressions with named groups, to be matched without case."},
            "heads": {**texts, "description": "Lines that say why there is no weight."},
            "states": {"type": "object", "additionalProperties": {"type": "string"}},
            "written": {**texts, "description": "The unit of each pattern that has it written out."},
        },
        "How its lines read.",
    )
    now = an_object(
        {
            **{name: {"type": "string"} for name in ("state", "text", "unit", "raw")},
            "age_seconds": {"type": "number", "minimum": 0},
            "why": {"type": "string", "description": "Why it cannot be taken into a slip; empty when it can."},
        },
        "Its last word.",
    )
    scale: dict[str, Schema] = {
        **{name: {"type": "string"} for name in ("name", "unit", "division")},
        "in_use": {"type": "boolean"},
        "layout": or_null(layout),
        "port": port,
        "now": or_null(now),
    }
    fault = an_object({name: {"type": "string"} for name in ("field", "message", "says")})
    fault["required"].remove("says")  # of what went into a slip alone
    told: dict[str, Schema] = {
        "scale": {"type": ["string", "null"]},
        "state": {"enum": ["kept", "refused"]},
        "faults": {"type": "array", "items": fault},
    }
    return {
        "Reading": {
            **an_object(properties(SCALE_READING)),
            "required": ["id", *(name for name, one in outer(READING).items() if needed(one))],
            "description": "The line of a scale that a weight of a slip was taken from.",
        },
        "ScaleWord": {
            **an_object({name: field_schema(one) for name, one in outer(NOW).items()}),
            "required": [name for name, one in outer(NOW).items() if needed(one)],
            "description": "The last word of a scale. It is written over, and part of no record.",
        },
        "Scale": an_object(scale, "A scale of the event."),
        "Scales": an_object(
            {
                "unit": Text().schema,
                "scales": {"type": "array", "items": ref("Scale")},
                "scripts": {
                    **texts,
                    "description": "Addresses of the scripts with which the table's page reads a scale.",
                },
            }
        ),
        "ScaleWordAnswers": an_object({"now": {"type": "array", "items": an_object(told)}}),
    }
