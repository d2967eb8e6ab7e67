"""Readings as tablets send them, kept by their own id beside the slip; and the last word of a scale that speaks."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any, ClassVar

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.services import writing
from weighin.events.domain.faults import EVENT_CLOSED
from weighin.events.domain.kinds import Moment, Weight, is_plain_weight
from weighin.events.models import Event
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Id, Kind, Schema, Text
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.json_body import read_item
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules import values, weights
from weighin.rules.faults import Fault, Listed
from weighin.scales.domain import faults, layouts
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
MOST = {"text": 40, "unit": 10, "raw": 200}


@dataclass(frozen=True)
class Part(Choice):
    """The weight of a slip that a reading was taken into."""

    def read(self, text: str, beside: Beside) -> str:
        if text not in self.choices:
            raise faults.NO_SUCH_PART.wrong(parts=Listed(PARTS[:4]))
        return text


@dataclass(frozen=True)
class Unit(Choice):
    """A unit of weight: the event's."""

    def read(self, text: str, beside: Beside) -> str:
        unit = beside.context.rules.unit
        if text != unit:
            raise faults.ANOTHER_UNIT.wrong(unit=text[:10], event=unit)
        return text


@dataclass(frozen=True)
class ScaleLine(Text):
    """The line of a scale as it came; signs that cannot be seen as <STX>."""

    def read(self, text: str, beside: Beside) -> str:
        if len(text) > MOST["raw"]:
            raise faults.LINE_TOO_LONG.wrong(most=MOST["raw"])
        return text


@dataclass(frozen=True)
class ScaleName(Kind):
    """A scale of the event, by its name."""

    @cached_property
    def schema(self) -> Schema:
        return Text().schema

    def sent(self, value: Any) -> str:
        return Text().sent(value)

    def read(self, text: str, beside: Beside) -> Scale:
        event = beside.context.event
        scale = scale_named(event, text)
        if scale is None:
            raise faults.NO_SUCH_SCALE.wrong(**_no_scale(text, event))
        return scale

    def plain(self, value: Any) -> str | None:
        return None if value is None else value.name


READING = (
    Field("slip_id", Id(), meaning=gettext_lazy("The id of the slip it went into; the slip may come later."), wire="slip", required=True),
    Field("field", Part(tuple((part, part) for part in PARTS)), meaning=gettext_lazy("The slip's field it was taken into."), required=True),
    Field("text", Weight(), meaning=gettext_lazy("The weight as it was taken."), required=True),
    Field("unit", Unit(tuple((unit, unit) for unit in weights.UNITS)), meaning=gettext_lazy("The unit the scale said."), required=True),
    Field("raw", ScaleLine(), meaning=gettext_lazy("The line as it came from the scale; signs that cannot be seen as <STX>."), required=True),
    Field("scale", ScaleName(), meaning=gettext_lazy("The scale's name, as written down for the event.")),
    Field("taken_at", Moment(), meaning=gettext_lazy("When it was taken, by the device's clock."), wire="taken", required=True),
)  # fmt: skip
NOW = (
    Field("scale", Text(), meaning=gettext_lazy("The scale's name, as written down for the event."), required=True),
    Field("state", Choice(tuple((state, state) for state in STATES)), meaning=gettext_lazy("How the scale stands; silent when nothing came from it."), required=True),
    Field("text", Text(), meaning=gettext_lazy("What it shows, with its sign; only when it is known.")),
    Field("unit", Text(), meaning=gettext_lazy("The unit it says.")),
    Field("raw", Text(), meaning=gettext_lazy("The line as it came.")),
)  # fmt: skip


class ReadingRecord(RecordType[ScaleReading]):
    """The line of a scale that a weight of a slip was taken from."""

    model = ScaleReading
    noun = gettext_lazy("reading")
    fields = READING
    scope: ClassVar[Scope] = EVENT
    numbered = False

    def attributes(self, values: Values, context: EventContext) -> Values:
        return {**values, "event": context.event}

    def differs(self, row: ScaleReading, asked: bool) -> Fault:
        return faults.READING_KEPT_OTHERWISE.at("id")

    def history(self, row: ScaleReading, old: ScaleReading | None, done: str) -> Noted:
        said = {"field": row.field, "text": row.text, "unit": row.unit}
        if row.scale is None:
            sentence = _("Reading taken into a slip: %(field)s %(text)s %(unit)s") % said
        else:
            sentence = _("Reading of scale %(scale)s taken into a slip: %(field)s %(text)s %(unit)s") % {
                **said,
                "scale": row.scale.name,
            }
        return Noted("scale.reading_taken", sentence, f"reading of slip {row.slip_id}")


SCALE_READING = ReadingRecord()


def update_status(event_id: int, items: Sequence[Mapping[str, Any]], sender: Sender) -> list[dict[str, Any]]:
    """Write over the last word of scales: ``kept`` or ``refused`` for each. No record, no revision."""
    event = Event.objects.get(pk=event_id)
    return [_updated(event, read_item(item, NOW, has_id=False), sender) for item in items]


def _updated(event: Event, draft: Draft, sender: Sender) -> dict[str, Any]:
    found, texts = list(draft.faults), draft.texts
    if "state" in texts and texts["state"] not in STATES:
        found.append(faults.NO_SUCH_STATE.at("state", states=Listed(STATES)))
    found += [faults.TOO_LONG.at(name) for name, most in MOST.items() if len(texts.get(name, "")) > most]
    if not is_plain_weight(texts.get("text", "").removeprefix("-")):
        found.append(faults.NO_WEIGHT.at("text"))
    scale = scale_named(event, texts.get("scale", ""))
    if event.closed_at is not None:
        found.append(EVENT_CLOSED.at("", event=event.name))
    if scale is None and "scale" in texts:
        found.append(faults.NO_SUCH_SCALE.at("scale", **_no_scale(texts["scale"], event)))
    if scale is not None and not found:
        fresh = {name: texts.get(name, "") for name in ("state", "text", "unit", "raw")}
        with writing():
            told = {**fresh, "at": timezone.now(), "told_by": sender.name}
            ScaleNow.objects.update_or_create(scale=scale, defaults=told)
    wrong = [{"field": fault.field, "message": fault.message} for fault in found]
    return {"scale": texts.get("scale"), "state": "refused" if found else "kept", "faults": wrong}


def scale_named(event: Event, name: str) -> Scale | None:
    """The event's scale of a name, whatever its case."""
    try:
        return Scale.objects.filter(event=event, name__iexact=values.line(name)).first()
    except ValueError:
        return None


def _no_scale(name: str, event: Event) -> dict[str, object]:
    names = ", ".join(Scale.objects.filter(event=event).values_list("name", flat=True))
    return {"name": name[:40], "names": names or faults.NO_SCALES.says()}


def age_seconds(now: ScaleNow, at: datetime) -> float:
    """How long ago the scale said its last word."""
    return max(0.0, round((at - now.at).total_seconds(), 1))
