"""Readings as tablets send them, kept by their own id beside the slip; and the last word of a scale that speaks."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.utils import timezone

from weighin.audit.services import note, writing
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision
from weighin.records.parsing.wire import Answer, Field, Message, is_plain_weight, moment, read_message
from weighin.records.queries.desk import Desk, desk_of, moved_on
from weighin.records.services.receiving import Sender
from weighin.rules import values, weights
from weighin.rules.faults import Fault, Faults
from weighin.scales.domain import layouts
from weighin.scales.models import Scale, ScaleNow, ScaleReading

MOST_LARGEST = 12
PARTS = ("gross", "tare", "big_fish", *(f"largest_{number}" for number in range(1, MOST_LARGEST + 1)))
STATES = (
    layouts.STABLE,
    layouts.MOTION,
    layouts.OVERLOAD,
    layouts.UNDERLOAD,
    layouts.REFUSED,
    layouts.UNZEROED,
    "silent",
)
READING = {
    "id": Field("id", "Made by the station before it sends the reading; never used twice.", True),
    "slip": Field("uuid", "The id of the slip it went into; the slip may come later.", True),
    "field": Field("text", "The slip's field it was taken into.", True, choices=PARTS),
    "text": Field("weight", "The weight as it was taken.", True),
    "unit": Field("text", "The unit the scale said.", True, choices=weights.UNITS),
    "raw": Field("text", "The line as it came from the scale; signs that cannot be seen as <STX>.", True),
    "scale": Field("text", "The scale's name, as written down for the event."),
    "taken": Field("time", "When it was taken, by the device's clock.", True),
}
NOW = {
    "scale": Field("text", "The scale's name, as written down for the event.", True),
    "state": Field("text", "How the scale stands; silent when nothing came from it.", True, choices=STATES),
    "text": Field("text", "What it shows, with its sign; only when it is known."),
    "unit": Field("text", "The unit it says."),
    "raw": Field("text", "The line as it came."),
}
MOST = {"text": 40, "unit": 10, "raw": 200}


def receive_readings(event_id: int, items: Sequence[Mapping[str, Any]], sender: Sender) -> list[Answer]:
    """Keep readings one by one: ``kept``, ``already``, ``differs`` or ``refused`` for each, in their order."""
    return [_answer(event_id, read_message(item, READING), sender) for item in items]


def _answer(event_id: int, message: Message, sender: Sender) -> Answer:
    if message.id is None:
        return Answer(message.said_id, "refused", faults=tuple(message.faults))
    try:
        with writing():
            desk, closed = desk_of(event_id)
            said = _read(message, desk.event)
            before = ScaleReading.objects.filter(pk=message.id).first()
            if before is not None:
                return _again(before, said, message, desk)
            if closed:
                raise Faults([Fault("", _shut(desk.event))])
            _keep(desk, message.id, said, sender)
    except Faults as found:
        return Answer(message.said_id, "refused", faults=tuple(message.told(found.faults)))
    return Answer(message.said_id, "kept", revision=desk.revision + 1)


def _read(message: Message, event: Event) -> dict[str, Any]:
    """The fields of ``ScaleReading``. Raises Faults."""
    faults = []
    texts = message.texts
    said: dict[str, Any] = {"scale": None}
    if "field" in texts and texts["field"] not in PARTS:
        faults.append(Fault("field", f"a slip has no such weight: write {', '.join(PARTS[:4])} and so on"))
    if "unit" in texts and texts["unit"] != event.weight_unit:
        there = f"the reading is in {texts['unit'][:10]}, the event weighs in {event.weight_unit}"
        faults.append(Fault("unit", f"{there}: set the scale, and weigh again"))
    if "raw" in texts and len(texts["raw"]) > MOST["raw"]:
        faults.append(Fault("raw", f"this line is too long: send {MOST['raw']} signs or fewer"))
    if "text" in texts and not faults:
        try:
            weights.read(texts["text"], event.weight_unit)
        except ValueError as error:
            faults.append(Fault("text", str(error)))
    if texts.get("scale"):
        said["scale"] = _scale(event, texts["scale"])
        if said["scale"] is None:
            faults.append(Fault("scale", _no_scale(texts["scale"], event)))
    if faults or message.faults:
        raise Faults(faults)
    return {
        **said,
        "slip_id": UUID(texts["slip"]),
        **{name: texts[name] for name in ("field", "text", "unit", "raw")},
        "taken_at": moment(texts["taken"]),
    }


def _again(row: ScaleReading, said: Mapping[str, Any], message: Message, desk: Desk) -> Answer:
    same = all(getattr(row, name) == value for name, value in said.items() if name != "scale")
    if row.event_id == desk.event.pk and same and row.scale_id == (said["scale"].pk if said["scale"] else None):
        return Answer(message.said_id, "already")
    other = "this id was kept already with other values: nothing was written, send it again under a new id"
    return Answer(message.said_id, "differs", faults=(Fault("id", other),))


def _keep(desk: Desk, id: UUID, said: Mapping[str, Any], sender: Sender) -> None:
    row = ScaleReading(id=id, event=desk.event, sent_at=sender.sent_at, recorded_by=sender.name, **said)
    row.save()
    raise_revision(desk.event)
    scale = f" of scale {row.scale.name}" if row.scale else ""
    note(
        sender.name,
        "scale.reading_taken",
        f"Reading{scale} taken into a slip: {row.field} {row.text} {row.unit}",
        club_id=desk.event.season.club_id,
        event_id=desk.event.pk,
        subject=f"reading of slip {row.slip_id}",
        details={"id": str(id), "slip": str(row.slip_id), "raw": row.raw},
    )
    moved_on(desk, desk.revision + 1)


def tell_now(event_id: int, items: Sequence[Mapping[str, Any]], sender: Sender) -> list[dict[str, Any]]:
    """Write over the last word of scales: ``kept`` or ``refused`` for each. No record, no revision."""
    event = Event.objects.get(pk=event_id)
    return [_told(event, read_message(item, NOW), sender) for item in items]


def _told(event: Event, message: Message, sender: Sender) -> dict[str, Any]:
    faults = list(message.faults)
    texts = message.texts
    if "state" in texts and texts["state"] not in STATES:
        faults.append(Fault("state", f"a scale does not stand so: write {', '.join(STATES)}"))
    faults += [Fault(name, "this is too long") for name, most in MOST.items() if len(texts.get(name, "")) > most]
    if not is_plain_weight(texts.get("text", "").removeprefix("-")):
        faults.append(Fault("text", "this is no weight: write plain figures and one point"))
    scale = _scale(event, texts.get("scale", ""))
    if event.closed_at is not None:
        faults.append(Fault("", _shut(event)))
    if scale is None and "scale" in texts:
        faults.append(Fault("scale", _no_scale(texts["scale"], event)))
    if scale is not None and not faults:
        fresh = {name: texts.get(name, "") for name in ("state", "text", "unit", "raw")}
        with writing():
            ScaleNow.objects.update_or_create(
                scale=scale, defaults={**fresh, "at": timezone.now(), "told_by": sender.name}
            )
    told = [{"field": fault.field, "message": fault.message} for fault in faults]
    return {"scale": texts.get("scale"), "state": "refused" if faults else "kept", "faults": told}


def _scale(event: Event, name: str) -> Scale | None:
    try:
        return Scale.objects.filter(event=event, name__iexact=values.line(name)).first()
    except ValueError:
        return None


def _shut(event: Event) -> str:
    return f"{event.name} is closed: a director must open it again before anything can be sent"


def _no_scale(name: str, event: Event) -> str:
    names = ", ".join(Scale.objects.filter(event=event).values_list("name", flat=True)) or "none"
    return f"this event has no scale {name[:40]}: its scales are {names}. Write it down on the page of scales first"


def age_seconds(now: ScaleNow, at: datetime) -> float:
    """How long ago the scale said its last word."""
    return max(0.0, round((at - now.at).total_seconds(), 1))
