"""Weigh slips as stations send them: found by id, compared, and kept in the ledger."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID

from weighin.rules.faults import Fault, Faults
from weighin.scale.cut import missed_cut
from weighin.scale.desk import Desk, moved_on
from weighin.scale.models import WeighSlip
from weighin.scale.reading import SlipValues, boat_and_day, read_slip
from weighin.scale.receiving import Sender, corrected
from weighin.scale.replays import same_content
from weighin.scale.services import keep
from weighin.scale.wire import OF_A_VOID, SLIP, Message


class SlipMessages:
    """The ``Kind`` of weigh slips."""

    noun = "slip"
    fields = SLIP
    of_a_void = OF_A_VOID

    def found(self, id: UUID) -> WeighSlip | None:
        return WeighSlip.objects.filter(pk=id).select_related("entry", "replaces").first()

    def number(self, row: WeighSlip) -> int:
        return row.number

    def same(self, row: WeighSlip, message: Message, desk: Desk) -> bool:
        named = message.replaces
        replaced = row.replaces
        if named != ((replaced.pk if isinstance(named, UUID) else replaced.number) if replaced else None):
            return False
        # Only what the fields say by themselves: what they had to fit with may have changed since they were kept.
        texts = {**message.texts, "replaces": str(replaced.number) if replaced else ""}
        try:
            values = read_slip(texts, desk.table, current=False, whole=False)
        except Faults:
            return False
        return same_content(row, values, desk.table)

    def keep(self, message: Message, desk: Desk, sender: Sender) -> tuple[WeighSlip, bool]:
        faults: list[Fault] = []
        old, values = None, None
        try:
            old = corrected(self, WeighSlip.objects.filter(event=desk.event), message, sender)
        except Faults as found:
            faults += found.faults
        try:
            values = self._read(message, desk, old)
        except Faults as found:
            faults += found.faults
        if faults or message.faults or values is None:
            raise Faults(faults)
        entry = desk.entries[values.boat]
        others = WeighSlip.objects.current().filter(event=desk.event, entry=entry, day=values.day)
        second = not values.void and others.exclude(pk=old.pk if old else None).exists()
        (slip,) = keep(
            desk.event,
            [values],
            sender.name,
            {values.boat: entry},
            replaced={old.number: old.pk} if old else None,
            ids=[message.id] if message.id else [],
            sent_at=sender.sent_at,
        )
        moved_on(desk, desk.revision + 1)
        return slip, second

    def _read(self, message: Message, desk: Desk, old: WeighSlip | None) -> SlipValues:
        texts = {**message.texts, "replaces": str(old.number) if old else ""}
        values = read_slip(
            texts,
            desk.table,
            _care_times(desk, texts),
            current=not message.void,
            whole=not message.faults,
        )
        faults = []
        if old is not None:
            faults = _correction_faults(values, old)
        if not values.void and not message.faults:
            late = missed_cut(desk.event, desk.table, values, without=old)
            faults += [Fault("boat", late)] if late else []
        if faults:
            raise Faults(faults)
        return values


def _correction_faults(values: SlipValues, old: WeighSlip) -> list[Fault]:
    faults = []
    if not values.reason.strip():
        faults.append(Fault("reason", "a correction needs a reason: write why, in a few words"))
    if values.boat != old.entry.boat:
        message = (
            f"slip {old.number} is boat {old.entry.boat}'s: take it out and write a new slip for boat {values.boat}"
        )
        faults.append(Fault("replaces", message))
    elif values.void and values.day != old.day:
        faults.append(Fault("day", f"slip {old.number} is of day {old.day}: name the slip and day that is meant"))
    return faults


def _care_times(desk: Desk, texts: Mapping[str, str | None]) -> dict[str, datetime]:
    """When the boat launched and had its first fish that day, as its care note says."""
    boat, day = boat_and_day(texts) or (0, 0)
    entry = desk.entries.get(boat)
    if entry is None:
        return {}
    notes = desk.event.care_notes.filter(entry=entry, day=day)
    found = notes.values("launched", "first_fish").first() or {}
    return {name: moment for name, moment in found.items() if moment}
