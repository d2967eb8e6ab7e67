"""Keep slips: new ones, corrections and voids, chained and noted in the history."""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import fields
from typing import Any

from django.db.models import F, Max
from django.utils import timezone

from weighin.audit.chain import link
from weighin.audit.services import note, writing
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.rules.faults import Fault, Faults
from weighin.scale import ledger
from weighin.scale.models import WeighSlip
from weighin.scale.queries import current_slips, ledger_head, table_of
from weighin.scale.reading import SlipValues, Table, read_slip
from weighin.scale.cut import missed_cut

KEPT = [f.name for f in fields(SlipValues) if f.name not in ("boat", "number", "replaces", "care_times")]


def record_slip(
    event: Event, written: Mapping[str, str | None], by: str, slip_id: uuid.UUID | None = None
) -> WeighSlip:
    """Read a new slip and keep it. A second slip for a boat and day is kept too; neither counts then.

    Raises Faults with field names; nothing is written then.
    """
    with writing():
        locked = _lock(event)
        values = _read(locked, written)
        if values.replaces is not None or values.void:
            raise Faults([Fault("replaces", "this is a correction: open the slip it corrects and correct it there")])
        return keep(locked, [values], by, {values.boat: _entry(locked, values.boat)}, ids=[slip_id or uuid.uuid4()])[0]


def correct_slip(slip: WeighSlip, written: Mapping[str, str | None], by: str) -> WeighSlip:
    """Keep a new slip that replaces ``slip``; ``written`` must hold a ``reason``.

    Raises Faults, also when the slip was replaced meanwhile.
    """
    with writing():
        event = _lock(slip.event)
        _still_current(slip)
        values = _read(event, {**written, "replaces": str(slip.number)}, without=slip)
        _need_reason(values.reason)
        return keep(event, [values], by, {values.boat: _entry(event, values.boat)}, replaced={slip.number: slip.pk})[0]


def void_slip(slip: WeighSlip, reason: str, by: str) -> WeighSlip:
    """Take a slip out: the boat then has no slip that day. Raises Faults without a reason."""
    with writing():
        event = _lock(slip.event)
        _still_current(slip)
        _need_reason(reason)
        written = {
            "boat": str(slip.entry.boat),
            "day": str(slip.day),
            "void": "yes",
            "reason": reason,
            "replaces": str(slip.number),
        }
        values = read_slip(written, table_of(event))
        return keep(event, [values], by, {slip.entry.boat: slip.entry}, replaced={slip.number: slip.pk})[0]


def settle(slip: WeighSlip, reason: str, by: str) -> list[WeighSlip]:
    """Of the current slips of one boat and day let ``slip`` count: the others are voided with the reason."""
    with writing():
        _lock(slip.event)
        _still_current(slip)
        _need_reason(reason)
        others = [
            other
            for other in current_slips(slip.event)
            if (other.entry_id, other.day) == (slip.entry_id, slip.day) and other.pk != slip.pk
        ]
        return [void_slip(other, f"Slip {slip.number} counts: {reason}"[:500], by) for other in others]


def keep(
    event: Event,
    values: Iterable[SlipValues],
    by: str,
    entries: Mapping[int, Entry],
    replaced: Mapping[int, uuid.UUID] | None = None,
    ids: Iterable[uuid.UUID] = (),
) -> list[WeighSlip]:
    """Number, chain and insert slips that were read; call inside ``writing``.

    ``entries`` maps boat to entry; ``replaced`` maps the numbers of slips already kept to their ids. Slips of
    one call may replace each other by number, in any order.
    """
    position, head = ledger_head(event)
    used = WeighSlip.objects.filter(event=event).aggregate(most=Max("number"))["most"] or 0
    all_values = list(values)
    used = max([used, *(v.number for v in all_values if v.number)])
    given = iter(ids)
    numbers, keys = [], []
    for slip_values in all_values:
        if slip_values.number is None:
            used += 1
        numbers.append(slip_values.number or used)
        keys.append(next(given, None) or uuid.uuid4())
    known = {**(replaced or {}), **dict(zip(numbers, keys, strict=True))}
    now = timezone.now()
    slips = []
    for slip_values, number, key in zip(all_values, numbers, keys, strict=True):
        position += 1
        slip = WeighSlip(
            id=key,
            event=event,
            entry=entries[slip_values.boat],
            number=number,
            replaces_id=known[slip_values.replaces] if slip_values.replaces else None,
            received_at=now,
            recorded_by=by,
            position=position,
            **{name: getattr(slip_values, name) for name in KEPT},
        )
        head = slip.link = link(head, ledger.content(slip, slip_values.boat))
        slips.append(slip)
    WeighSlip.objects.bulk_create(slips, batch_size=500)
    if len(slips) == 1:
        _note(event, slips[0], by)
    Event.objects.filter(pk=event.pk).update(revision=F("revision") + 1)
    return slips


def _note(event: Event, slip: WeighSlip, by: str) -> None:
    boat = slip.entry.boat
    if slip.void:
        act, sentence = (
            "slip.voided",
            f"Slip {slip.number} takes slip {slip.replaces.number} of boat {boat} out: {slip.reason}",
        )  # type: ignore[union-attr]
    elif slip.replaces_id:
        act, sentence = (
            "slip.corrected",
            f"Slip {slip.number} replaces slip {slip.replaces.number} of boat {boat}: {slip.reason}",
        )  # type: ignore[union-attr]
    else:
        act, sentence = "slip.recorded", f"Slip {slip.number} kept for boat {boat}, day {slip.day}"
    details: dict[str, Any] = ledger.content(slip, boat)
    note(
        by,
        act,
        sentence,
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=f"slip {slip.number}",
        details=details,
    )


def _lock(event: Event) -> Event:
    """The event's row, locked on databases with several writers, so that numbers and chain stay in one line."""
    locked = Event.objects.select_for_update(of=("self",)).select_related("season", "rule_sheet").get(pk=event.pk)
    if locked.closed_at is not None:
        raise Faults([Fault("", f"{locked.name} is closed: a director must open it again before slips can be written")])
    return locked


def _read(event: Event, written: Mapping[str, str | None], without: WeighSlip | None = None) -> SlipValues:
    table = table_of(event)
    care = _care_times(event, written)
    values = read_slip(written, table, care)
    late = missed_cut(event, table, values, without)
    if late:
        raise Faults([Fault("boat", late)])
    return values


def _care_times(event: Event, written: Mapping[str, str | None]) -> dict[str, Any]:
    boat, day = (written.get("boat") or "").strip(), (written.get("day") or "").strip()
    if not (boat.isdigit() and day.isdigit()):
        return {}
    notes = event.care_notes.filter(entry__boat=int(boat[:10]), day=int(day[:5]))
    found = notes.values("launched", "first_fish").first() or {}
    return {name: moment for name, moment in found.items() if moment}


def _entry(event: Event, boat: int) -> Entry:
    return Entry.objects.get(event=event, boat=boat)


def _still_current(slip: WeighSlip) -> None:
    after = WeighSlip.objects.filter(replaces=slip).first()
    if after is not None:
        raise Faults(
            [
                Fault(
                    "replaces",
                    f"slip {slip.number} was replaced by slip {after.number} meanwhile: correct that one",
                )
            ]
        )
    if slip.void:
        raise Faults([Fault("replaces", f"slip {slip.number} is a void: write a new slip for the boat instead")])


def _need_reason(reason: str) -> None:
    if not reason.strip():
        raise Faults([Fault("reason", "a correction needs a reason: write why, in a few words")])
