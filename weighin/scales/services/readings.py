"""Readings as tablets send them, kept by their own id beside the slip; and the last word of a scale that speaks."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, ClassVar

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.services import writing
from weighin.events.domain.kinds import is_plain_weight
from weighin.events.domain.value_faults import EVENT_IS_CLOSED
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.json_body import ItemForm, read_item
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Fault, Listed
from weighin.scales.domain import faults
from weighin.scales.domain.fields import NOW, READING, STATES
from weighin.scales.domain.kinds import MOST_OF_A_LINE, no_scale, scale_named
from weighin.scales.models import ScaleNow, ScaleReading

MOST = {"text": 40, "unit": 10, "raw": MOST_OF_A_LINE}


class ReadingRecord(RecordType[ScaleReading]):
    """The line of a scale that a weight of a slip was taken from."""

    model = ScaleReading
    noun = gettext_lazy("reading")
    fields = READING
    scope: ClassVar[Scope] = EVENT
    numbered = False

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
STATUS = ItemForm(NOW, has_id=False)


def update_status(event_id: int, items: Sequence[Mapping[str, Any]], sender: Sender) -> list[dict[str, Any]]:
    """Write over the last word of scales: ``kept`` or ``refused`` for each. No record, no revision."""
    event = Event.everyone.get(pk=event_id)
    return [_updated(event, read_item(item, STATUS), sender) for item in items]


def _updated(event: Event, draft: Draft, sender: Sender) -> dict[str, Any]:
    found, texts = list(draft.faults), draft.texts
    if "state" in texts and texts["state"] not in STATES:
        found.append(faults.NO_SUCH_STATE.at("state", states=Listed(STATES)))
    found += [faults.TOO_LONG.at(name) for name, most in MOST.items() if len(texts.get(name, "")) > most]
    if not is_plain_weight(texts.get("text", "").removeprefix("-")):
        found.append(faults.NO_WEIGHT.at("text"))
    scale = scale_named(event.pk, texts.get("scale", ""))
    if event.closed_at is not None:
        found.append(EVENT_IS_CLOSED.at("", event=event.name))
    if scale is None and "scale" in texts:
        found.append(faults.NO_SUCH_SCALE.at("scale", **no_scale(event.pk, texts["scale"])))
    if scale is not None and not found:
        fresh = {name: texts.get(name, "") for name in ("state", "text", "unit", "raw")}
        with writing():
            told = {**fresh, "at": timezone.now(), "told_by": sender.name}
            ScaleNow.objects.update_or_create(scale=scale, defaults=told)
    wrong = [{"field": fault.field, "message": fault.message} for fault in found]
    return {"scale": texts.get("scale"), "state": "refused" if found else "kept", "faults": wrong}


def age_seconds(now: ScaleNow, at: datetime) -> float:
    """How long ago the scale said its last word."""
    return max(0.0, round((at - now.at).total_seconds(), 1))
