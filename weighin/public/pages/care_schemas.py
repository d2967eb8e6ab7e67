"""JSON schemas of what a phone for boat checks and care notes is told."""

from weighin.care.domain.fields import NOTE
from weighin.public.pages.schemas import Schema, an_object, outer, ref, tablet

OF_THE_TABLE = ("slips", "checkins", "called", "believable", "cursor")


def care_schemas() -> dict[str, Schema]:
    """Each by name."""
    return {"Ramp": _ramp(), "StandingNote": _standing()}


def _ramp() -> Schema:
    rows = {"type": "array", "items": {"type": "object"}}
    boats = an_object({"day": {"type": "integer"}, "boats": {"type": "array", "items": {"type": "integer"}}})
    key: Schema = {"type": "string", "format": "uuid"}
    counts = {name: {"type": "integer"} for name in ("number", "day", "boat")}
    told = {name: part for name, part in tablet()["properties"].items() if name not in OF_THE_TABLE}
    return an_object(
        {
            **told,
            "fishing": {"type": "array", "items": boats, "description": "The boats that fish, by day."},
            "notes": {"type": "array", "items": ref("StandingNote")},
            "sent": {
                "type": "array",
                "items": an_object({"id": key, **counts, "said": {"type": "object"}}),
                "description": "The messages that the notes came from, as far as none replaces them. A change of what "
                "one says is a correction that names it.",
            },
            "waiting": {
                "type": "array",
                "items": key,
                "description": "Ids of messages that contradict a note, until an official decides.",
            },
            "care": {**rows, "description": "As fish_care of the export of an event."},
        },
        "Everything a phone for boat checks needs to work alone for a day.",
    )


def _standing() -> Schema:
    """A boat's care note as it stands, whoever wrote it."""
    return an_object({name: {"description": "As in CareNote."} for name in outer(NOTE)}, "A care note that stands.")
