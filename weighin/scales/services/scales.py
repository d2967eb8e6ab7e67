"""Scales and their checks through the door: a scale is edited, a check only added, or taken out by another row."""

from collections.abc import Mapping
from typing import ClassVar
from uuid import UUID, uuid4
from zoneinfo import ZoneInfo

from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.events.domain.clock import CLOCK_MAY_DIFFER
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Fault, Faults
from weighin.scales.domain import faults
from weighin.scales.domain.fields import CHECK, SCALE
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.layouts import OWN, layout_of
from weighin.scales.domain.words import error_in_words
from weighin.scales.models import Scale, ScaleCheck
from weighin.ui import figures


class ScaleRecord(RecordType[Scale]):
    """A scale of the event. Written again it has the event's unit: its division is written in it."""

    model = Scale
    noun = gettext_lazy("scale")
    fields = SCALE
    scope: ClassVar[Scope] = EVENT
    key = ""
    edited = True
    numbered = False

    def check(self, reader: Reader, old: Scale | None) -> None:
        if reader["layout"] == OWN and reader.sure("pattern"):
            try:
                layout_of(OWN, reader["pattern"])
            except Faults as wrong:
                reader.faults.extend(wrong.faults)
        same = Scale.objects.filter(event=reader.context.event_id, name__iexact=reader["name"])
        if (same.exclude(pk=old.pk) if old else same).exists():
            reader.faults.append(faults.SCALE_TAKEN.at("name", name=reader["name"]))

    def attributes(self, values: Values, context: EventContext) -> Values:
        return {**super().attributes(values, context), "unit": context.rules.unit}

    def said(self, row: Scale) -> Values:
        return {**super().said(row), "unit": row.unit}

    def history(self, row: Scale, old: Scale | None, done: str) -> Noted:
        said = {"scale": row.name, "division": row.division, "unit": row.unit}
        if done == "changed":
            sentence = _("Scale %(scale)s edited: division %(division)s %(unit)s") % said
            return Noted("scale.changed", sentence, f"scale {row.name}")
        sentence = _("Scale %(scale)s added: division %(division)s %(unit)s") % said
        return Noted("scale.written", sentence, f"scale {row.name}")


class CheckRecord(RecordType[ScaleCheck]):
    """A test weight laid on a scale, judged by the unit, division and tolerance that the scale has then."""

    model = ScaleCheck
    noun = gettext_lazy("check of a scale")
    fields = CHECK
    scope: ClassVar[Scope] = EVENT
    holder = "scale__event"
    numbered = False
    of_a_void = ()
    without_reason = faults.CHECK_TAKEN_OUT_WITHOUT_REASON
    taken_out_meanwhile = faults.CHECK_GONE

    def rows(self) -> QuerySet[ScaleCheck]:
        return ScaleCheck.objects.select_related("scale__event")

    def check(self, reader: Reader, old: ScaleCheck | None) -> None:
        scale, unit = reader["scale"], reader.context.rules.unit
        if scale is not None and scale.unit != unit:
            reader.faults = [faults.SCALE_IN_OTHER_UNIT.at("", unit=unit, written=scale.unit)]
        elif reader.asked and reader["at"] and reader["at"] > timezone.now() + CLOCK_MAY_DIFFER:
            local = reader["at"].astimezone(reader.context.calendar.zone)
            reader.fault("at_time", faults.TEST_TO_COME, clock=figures.clock(local), day=figures.short_day(local))

    def attributes(self, values: Values, context: EventContext) -> Values:
        by = values["replaces"] or values["scale"]
        return {**values, "unit": by.unit, "division": by.division, "new": by.new}

    def said(self, row: ScaleCheck) -> Values:
        return {**super().said(row), "unit": row.unit, "division": row.division, "new": row.new}

    def differs(self, row: ScaleCheck, asked: bool) -> Fault:
        return faults.CHECK_KEPT_DIFFERS.at("") if asked else super().differs(row, asked)

    def history(self, row: ScaleCheck, old: ScaleCheck | None, done: str) -> Noted:
        said = {"scale": row.scale.name, "weight": row.test_weight, "unit": row.unit, "reason": row.reason}
        subject = f"scale {row.scale.name}"
        if row.void:
            sentence = _("Check of scale %(scale)s with %(weight)s %(unit)s voided: %(reason)s") % said
            return Noted("scale.check_taken_out", sentence, subject)
        verdict = verdict_of(row)
        said["verdict"] = error_in_words(verdict, row.unit)
        sentence = _("Scale %(scale)s tested with %(weight)s %(unit)s: %(verdict)s") % said
        return Noted("scale.passed" if verdict.passed else "scale.failed", sentence, subject)


SCALE_RECORD = ScaleRecord()
SCALE_CHECK = CheckRecord()


def write_scale(event: Event, written: Mapping[str, str | None], by: str, old: Scale | None = None) -> Scale:
    """Write a scale down, or what changed about ``old``. Raises Faults with field names."""
    texts = {name: text for name, text in written.items() if text}
    return write(SCALE_RECORD, event.pk, Draft(texts, replaces=old and old.pk), Sender(by, asked=True)).kept()


def write_check(scale: Scale, written: Mapping[str, str | None], by: str, id: UUID | None = None) -> ScaleCheck:
    """Keep a check; the same ``id`` sent twice is kept once, ``at_date`` and ``at_time`` left blank are now.

    Raises Faults with field names.
    """
    now = timezone.now().astimezone(ZoneInfo(scale.event.time_zone))
    today = now.date().isoformat()
    texts = {"at_date": today, **{name: text for name, text in written.items() if text}, "scale": scale.name}
    if texts["at_date"] == today:
        texts.setdefault("at_time", f"{now:%H:%M:%S}")
    return write(SCALE_CHECK, scale.event_id, Draft(texts, id or uuid4()), Sender(by, asked=True)).kept()


def take_out_check(check: ScaleCheck, reason: str, by: str) -> ScaleCheck:
    """Take a check out that was written wrong: both rows stay. Raises Faults for ``reason``."""
    draft = Draft({"reason": reason}, replaces=check.pk, void=True, names={"replaces": ""})
    return write(SCALE_CHECK, check.scale.event_id, draft, Sender(by, asked=True)).kept()
