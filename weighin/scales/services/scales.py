"""Write scales down, keep their checks, and take a check out that was written wrong."""

import uuid
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.utils import timezone

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.rules import values as written_values
from weighin.rules.faults import Faults, Wrong
from weighin.scales.domain.faults import (
    CHECK_GONE,
    CHECK_KEPT_DIFFERS,
    CHECK_TAKEN_OUT_WITHOUT_REASON,
    SCALE_IN_OTHER_UNIT,
    SCALE_TAKEN,
)
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.words import error_in_words
from weighin.scales.models import Scale, ScaleCheck
from weighin.scales.parsing import CHECK_FIELDS, SCALE_FIELDS, read_check, read_scale


def write_scale(event: Event, written: Mapping[str, str | None], by: str, old: Scale | None = None) -> Scale:
    """Write a scale down, or what changed about ``old``. Raises Faults with field names."""
    with writing():
        held = lock_open_event(event)
        found = read_scale(written, held.weight_unit)
        taken = Scale.objects.filter(event=held, name__iexact=found["name"])
        if (taken.exclude(pk=old.pk) if old else taken).exists():
            raise Faults([SCALE_TAKEN.at("name", name=found["name"])])
        scale = Scale.objects.get(pk=old.pk, event=held) if old else Scale(event=held)
        before = {name: str(getattr(scale, name)) for name in SCALE_FIELDS} if old else {}
        for name, value in found.items():
            setattr(scale, name, value)
        scale.unit = held.weight_unit
        after = {name: str(getattr(scale, name)) for name in SCALE_FIELDS}
        if after == before:
            return scale
        scale.save()
        act, said = ("scale.changed", "changed") if old else ("scale.written", "written down")
        _note(held, act, f"Scale {scale.name} {said}: division {scale.division} {scale.unit}", scale, by, before, after)
    return scale


def write_check(
    scale: Scale, written: Mapping[str, str | None], by: str, id: uuid.UUID | None = None, at: datetime | None = None
) -> ScaleCheck:
    """Keep a check; the same ``id`` sent twice is kept once. ``at`` is taken for now. Raises Faults with field names."""
    with writing():
        held = lock_open_event(scale.event)
        now = Scale.objects.get(pk=scale.pk, event=held)
        if now.unit != held.weight_unit:
            raise Faults([SCALE_IN_OTHER_UNIT.at("", unit=held.weight_unit, written=now.unit)])
        found = read_check(written, now, calendar_of(held), at or timezone.now())
        before: ScaleCheck | None = ScaleCheck.objects.filter(pk=id).first() if id else None
        if before is not None:
            same = all(getattr(before, name) == found[name] for name in CHECK_FIELDS if name != "at")
            if before.scale_id != now.pk or not same:
                raise Faults([CHECK_KEPT_DIFFERS.at("")])
            return before
        check = ScaleCheck(
            id=id or uuid.uuid4(),
            scale=now,
            unit=now.unit,
            division=now.division,
            new=now.new,
            recorded_by=by,
            **found,
        )
        check.save()
        verdict = verdict_of(check)
        said = f"Scale {now.name} tested with {check.test_weight} {check.unit}: {error_in_words(verdict, check.unit)}"
        _note(held, "scale.passed" if verdict.passed else "scale.failed", said, now, by, {}, _said(check))
    return check


def take_out_check(check: ScaleCheck, reason: str, by: str) -> ScaleCheck:
    """Take a check out that was written wrong: both rows stay. Raises Faults for ``reason``."""
    try:
        why = written_values.lines(reason.strip())
    except Wrong as error:
        raise Faults([error.at("reason")]) from None
    if not why:
        raise Faults([CHECK_TAKEN_OUT_WITHOUT_REASON.at("reason")])
    with writing():
        held = lock_open_event(check.scale.event)
        if check.void or ScaleCheck.objects.filter(replaces=check).exists():
            raise Faults([CHECK_GONE.at("")])
        same = {name: getattr(check, name) for name in ("scale", "unit", "division", "new", *CHECK_FIELDS)}
        void = ScaleCheck(**{**same, "note": ""}, replaces=check, void=True, reason=why, recorded_by=by)
        void.save()
        said = f"Check of scale {check.scale.name} with {check.test_weight} {check.unit} taken out: {why}"
        _note(held, "scale.check_taken_out", said, check.scale, by, _said(check), {"reason": why})
    return void


def _said(check: ScaleCheck) -> dict[str, Any]:
    return {name: str(getattr(check, name)) for name in ("id", "unit", "division", "new", *CHECK_FIELDS)}


def _note(
    event: Event, act: str, sentence: str, scale: Scale, by: str, before: Mapping[str, Any], after: Mapping[str, Any]
) -> None:
    raise_revision(event)
    log_history(
        by,
        act,
        sentence,
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=f"scale {scale.name}",
        details={"before": dict(before), "after": dict(after)},
    )
