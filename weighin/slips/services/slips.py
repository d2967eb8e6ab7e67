"""Keep slips: new ones, corrections and voids, chained and noted in the history."""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import fields
from datetime import datetime
from typing import Any

from django.db.models import Max
from django.utils import timezone

from weighin.audit.database.statements import add, made
from weighin.audit.domain.chain import link
from weighin.audit.services import note, writing
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision
from weighin.records.parsing.fields import boat_and_day
from weighin.records.queries.desk import reading_table
from weighin.roster.models import Entry
from weighin.rules.faults import Fault, Faults
from weighin.slips.domain.replays import same_content
from weighin.slips.domain.values import SlipValues
from weighin.slips.models import WeighSlip
from weighin.slips.parsing import read_slip
from weighin.slips.queries import ledger
from weighin.slips.queries.cut import beyond_cut, has_cut, missed_cut, turned_out
from weighin.slips.queries.released import needs_ruling
from weighin.slips.queries.slips import current_of, current_slips, ledger_head
from weighin.slips.queries.statements import LedgerEnd
from weighin.slips.services.carrying import carry_readings

KEPT = [f.name for f in fields(SlipValues) if f.name not in ("boat", "number", "replaces", "care_times")]

OF_THE_CHECK_IN = ("checked_in", "minutes_late", "excused_minutes")


def record_slip(
    event: Event, written: Mapping[str, str | None], by: str, slip_id: uuid.UUID | None = None
) -> WeighSlip:
    """Read a new slip and keep it. A second slip for a boat and day is kept too; neither counts then.

    ``slip_id`` is made by whoever writes the slip: sent again with the same content the first row is returned,
    with other content Faults names the field ``id``.

    Raises Faults with field names; nothing is written then.
    """
    with writing():
        locked = _held(event)  # before looking: sent twice at once, one of the two must find the other's
        kept = _replayed(event, slip_id, written) if slip_id else None
        if kept is not None:
            return kept
        _refuse_closed(locked)
        values = _read(locked, written)
        if values.replaces is not None or values.void:
            raise Faults([Fault("replaces", "this is a correction: open the slip it corrects and correct it there")])
        _free_number(locked, values.number)
        return keep(locked, [values], by, {values.boat: _entry(locked, values.boat)}, ids=[slip_id or uuid.uuid4()])[0]


def correct_slip(
    slip: WeighSlip,
    written: Mapping[str, str | None],
    by: str,
    ruling: bool = True,
    slip_id: uuid.UUID | None = None,
) -> WeighSlip:
    """Keep a new slip that replaces ``slip``; ``written`` must hold a ``reason``. ``slip_id`` as in ``record_slip``.

    ``ruling``, here and below: whether ``by`` may change weights of fish that are released.
    Raises Faults, also when the slip was replaced meanwhile, and when it is written for another boat: a boat's
    slips replace only that boat's (``move_slip``).
    """
    with writing():
        event = _lock(slip.event)
        written = {**written, "replaces": str(slip.number)}
        if slip_id and (kept := _replayed(event, slip_id, written)):
            return kept
        _still_current(slip)
        values = _read(event, written, correction=True)
        _need_reason(values.reason)
        if values.boat != slip.entry.boat:
            raise Faults(
                [
                    Fault(
                        "boat",
                        f"slip {slip.number} is boat {slip.entry.boat}'s: take it out and write a new slip for boat {values.boat}",
                        ("replaces",),
                    )
                ]
            )
        _need_ruling(slip, values, ruling)
        _free_number(event, values.number)
        entries, ids = {values.boat: _entry(event, values.boat)}, [slip_id or uuid.uuid4()]
        return keep(event, [values], by, entries, replaced={slip.number: slip.pk}, ids=ids)[0]


def leave_time_to_the_check_in(slip: WeighSlip, reason: str, by: str) -> WeighSlip:
    """Correct a slip to say nothing itself of when the boat came in: the check-in table's time counts. Raises Faults."""
    with writing():
        texts = {name: _text(getattr(slip, name)) for name in KEPT} | dict.fromkeys(OF_THE_CHECK_IN, "")
        return correct_slip(slip, {**texts, "boat": str(slip.entry.boat), "reason": reason}, by)


def move_slip(
    slip: WeighSlip,
    written: Mapping[str, str | None],
    by: str,
    ruling: bool = True,
    slip_id: uuid.UUID | None = None,
) -> WeighSlip:
    """A slip keyed for the wrong boat: take it out and keep a new one for the boat in ``written``, in one act.

    Both carry the ``reason``. ``slip_id`` as in ``record_slip``. Raises Faults; then neither is written.
    """
    with writing():
        event = _lock(slip.event)
        if slip_id and (kept := _replayed(event, slip_id, written)):
            return kept
        values = _read(event, written)
        _need_reason(values.reason)
        void_slip(slip, values.reason, by, ruling)
        entries, ids = {values.boat: _entry(event, values.boat)}, [slip_id or uuid.uuid4()]
        return keep(event, [values], by, entries, ids=ids)[0]


def swap_slips(
    first: WeighSlip, second: WeighSlip, reason: str, by: str, ruling: bool = True
) -> tuple[WeighSlip, WeighSlip]:
    """Two slips keyed for each other's boats: each boat gets what the other's slip says, in one act.

    Two corrections with the same reason, in the order of the slips. What the check-in table says of a boat (its time,
    the minutes late and excused) stays with the boat. Raises Faults; then neither is written.
    """
    with writing():
        event = _lock(first.event)
        _need_reason(reason)
        for slip in (first, second):
            _still_current(slip)
        if (first.event_id, first.day) != (second.event_id, second.day) or first.entry_id == second.entry_id:
            raise Faults([Fault("boat", "a swap is between the slips of two boats of one day: choose another slip")])
        values = [
            _read(event, _of_the_other(mine, other, reason), correction=True)
            for mine, other in ((first, second), (second, first))
        ]
        for slip, said in zip((first, second), values, strict=True):
            _need_ruling(slip, said, ruling)
        entries = {slip.entry.boat: slip.entry for slip in (first, second)}
        one, two = keep(event, values, by, entries, replaced={slip.number: slip.pk for slip in (first, second)})
        for slip in (one, two):
            _note(event, slip, by, ledger.content(slip, slip.entry.boat))
        carry_readings([(second, one), (first, two)])
        return one, two


def void_slip(slip: WeighSlip, reason: str, by: str, ruling: bool = True) -> WeighSlip:
    """Take a slip out: the boat then has no slip that day; asked twice with the same reason it is taken out once.

    Raises Faults without a reason.
    """
    with writing():
        event = _lock(slip.event)
        before: WeighSlip | None = WeighSlip.objects.filter(replaces=slip, void=True, reason=reason.strip()).first()
        if before is not None:
            return before
        _still_current(slip)
        _need_reason(reason)
        written = {
            "boat": str(slip.entry.boat),
            "day": str(slip.day),
            "void": "yes",
            "reason": reason,
            "replaces": str(slip.number),
        }
        values = read_slip(written, reading_table(event))
        _need_ruling(slip, values, ruling)
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
    sent_at: datetime | None = None,
    ledger_end: LedgerEnd | None = None,
) -> list[WeighSlip]:
    """Number, chain and insert slips that were read; call inside ``writing``.

    ``entries`` maps boat to entry; ``replaced`` maps the numbers of slips already kept to their ids. Slips of
    one call may replace each other by number, in any order. ``sent_at`` is the clock of the device that sent them.
    ``ledger_end`` saves asking for it. Raises Faults for a boat's first slip of a day that turns a boat out that has
    fished on since the cut; a second slip, a correction or a void is never refused for that.
    """
    end = ledger_end or _ledger_end(event)
    position, head, used = end.position, end.link, end.number
    all_values = list(values)
    one = all_values[0] if len(all_values) == 1 else None
    first = one is not None and one.replaces is None and has_cut(event) and not current_of(event, one.boat, one.day)
    turned = beyond_cut(event) if first else frozenset()
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
        replaces = slip_values.replaces
        slip = made(
            WeighSlip,
            {"event": event, "entry": entries[slip_values.boat]},
            {
                **{name: getattr(slip_values, name) for name in KEPT},
                "id": key,
                "number": number,
                "replaces_id": known[replaces] if replaces else None,
                "sent_at": sent_at,
                "received_at": now,
                "recorded_by": by,
                "position": position,
            },
        )
        content = ledger.content(slip, slip_values.boat)
        head = slip.link = link(head, content)
        slips.append(slip)
    if len(slips) == 1:
        add(slips[0])
        if first and (turn := beyond_cut(event) - turned):
            raise Faults([Fault("", turned_out(turn))])
        _note(event, slips[0], by, content)
    else:
        WeighSlip.objects.bulk_create(slips, batch_size=500)
    raise_revision(event)
    return slips


def _of_the_other(mine: WeighSlip, other: WeighSlip, reason: str) -> dict[str, str]:
    """What ``other`` says, written for the boat of ``mine`` in its place."""
    said = {name: getattr(mine if name in OF_THE_CHECK_IN else other, name) for name in KEPT}
    texts = {name: _text(value) for name, value in said.items()}
    boat = str(mine.entry.boat)
    well = "" if texts["well_boat"] == boat else texts["well_boat"]  # its own well needs no word
    return {**texts, "boat": boat, "well_boat": well, "replaces": str(mine.number), "reason": reason}


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value.isoformat() if isinstance(value, datetime) else "" if value is None else str(value)


def _ledger_end(event: Event) -> LedgerEnd:
    position, head = ledger_head(event)
    return LedgerEnd(position, head, WeighSlip.objects.filter(event=event).aggregate(most=Max("number"))["most"] or 0)


def _note(event: Event, slip: WeighSlip, by: str, content: dict[str, Any]) -> None:
    boat, old = slip.entry.boat, slip.replaces
    if old is None:
        act, sentence = "slip.recorded", f"Slip {slip.number} kept for boat {boat}, day {slip.day}"
    elif slip.void:
        act, sentence = "slip.voided", f"Slip {slip.number} takes slip {old.number} of boat {boat} out: {slip.reason}"
    else:
        act, sentence = "slip.corrected", f"Slip {slip.number} replaces slip {old.number} of boat {boat}: {slip.reason}"
    note(
        by,
        act,
        sentence,
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=f"slip {slip.number}",
        details=content,
    )


def _lock(event: Event) -> Event:
    """The event's row as ``_held`` gives it. Raises Faults once the event is closed."""
    locked = _held(event)
    _refuse_closed(locked)
    return locked


def _held(event: Event) -> Event:
    """The event's row, locked on databases with several writers, so that numbers and chain stay in one line."""
    return Event.objects.select_for_update(of=("self",)).select_related("season", "rule_sheet").get(pk=event.pk)


def _refuse_closed(event: Event) -> None:
    if event.closed_at is not None:
        raise Faults([Fault("", f"{event.name} is closed: a director must open it again before slips can be written")])


def _read(event: Event, written: Mapping[str, str | None], correction: bool = False) -> SlipValues:
    table = reading_table(event)
    care = _care_times(event, written)
    values = read_slip(written, table, care)
    late = None if correction else missed_cut(event, table, values)
    if late:
        raise Faults([Fault("boat", late)])
    return values


def _care_times(event: Event, written: Mapping[str, str | None]) -> dict[str, Any]:
    known = boat_and_day(written)
    if known is None:
        return {}
    boat, day = known
    notes = event.care_notes.filter(entry__boat=boat, day=day)
    found = notes.values("launched", "first_fish").first()
    return {name: moment for name, moment in found.items() if moment} if found else {}


def _replayed(event: Event, slip_id: uuid.UUID, written: Mapping[str, str | None]) -> WeighSlip | None:
    """The slip kept under this id, if there is one and it says the same."""
    kept: WeighSlip | None = WeighSlip.objects.filter(pk=slip_id).select_related("entry", "replaces").first()
    if kept is None:
        return None
    table = reading_table(event)
    if kept.event_id == event.pk and same_content(kept, read_slip(written, table), table):
        return kept
    raise Faults(
        [
            Fault(
                "id",
                f"this was kept as slip {kept.number} already, with other values: correct that slip, or send this again as a new one",
            )
        ]
    )


def _free_number(event: Event, number: int | None) -> None:
    if number is not None and WeighSlip.objects.filter(event=event, number=number).exists():
        raise Faults([Fault("slip", f"there is a slip {number} already: write another number, or none")])


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


def _need_ruling(old: WeighSlip, values: SlipValues, ruling: bool) -> None:
    if not ruling and (fault := needs_ruling(old, values, old.event.weight_unit)):
        raise Faults([fault])


def _need_reason(reason: str) -> None:
    if not reason.strip():
        raise Faults([Fault("reason", "a correction needs a reason: write why, in a few words")])
