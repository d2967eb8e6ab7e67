"""Weigh slips as stations send them: found by id, compared, and kept in the ledger."""

from datetime import datetime
from uuid import UUID

from django.db.models import QuerySet

from weighin.records.parsing.wire import Message
from weighin.records.queries.desk import Desk, moved_on
from weighin.records.services.receiving import RULES, Kind, Sender
from weighin.roster.models import Entry
from weighin.rules.faults import Fault, Faults
from weighin.slips.domain.message import OF_A_VOID, SLIP
from weighin.slips.domain.replays import same_content
from weighin.slips.domain.values import SlipValues
from weighin.slips.models import WeighSlip
from weighin.slips.parsing import read_slip
from weighin.slips.queries.cut import missed_cut
from weighin.slips.queries.released import settled_by_director
from weighin.slips.queries.statements import Look, care_moments, look
from weighin.slips.services.slips import keep


class SlipMessages(Kind):
    """Weigh slips."""

    noun = "slip"
    fields = SLIP
    of_a_void = OF_A_VOID
    corrects = "correct"

    def rows(self) -> QuerySet[WeighSlip]:
        return WeighSlip.objects.select_related("entry", "replaces")

    def look(self, message: Message, id: UUID, desk: Desk) -> Look:
        boat, day = message.boat_and_day
        entry = desk.entries.get(boat)
        return look(id, desk.event.pk, entry.pk if entry else 0, day)

    def same(self, row: WeighSlip, message: Message, desk: Desk) -> bool:
        # Only what the fields say by themselves: what they had to fit with may have changed since they were kept.
        try:
            values = read_slip(_texts(message, row.replaces), desk.table, current=False, whole=False)
        except Faults:
            return False
        return same_content(row, values, desk.table)

    def read(self, message: Message, desk: Desk, old: WeighSlip | None) -> SlipValues:
        texts = _texts(message, old)
        values = read_slip(
            texts,
            desk.table,
            _care_times(desk, message),
            current=not message.void,
            whole=not message.faults,
        )
        faults = _correction_faults(values, old) if old is not None else []
        if old is None and not message.faults:
            late = missed_cut(desk.event, desk.table, values)
            faults += [Fault("boat", late)] if late else []
        if faults:
            raise Faults(faults)
        return values

    def may_replace(self, old: WeighSlip, values: SlipValues, desk: Desk, sender: Sender) -> None:
        if RULES not in sender.cans and (fault := settled_by_director(old)):
            raise Faults([fault])

    def write(
        self, values: SlipValues, id: UUID, desk: Desk, old: WeighSlip | None, sender: Sender, look: Look
    ) -> tuple[WeighSlip, bool]:
        entry = desk.entries[values.boat]
        second = look.another if old is None else not values.void and _another(entry, values.day, old)
        (slip,) = keep(
            desk.event,
            [values],
            sender.name,
            {values.boat: entry},
            replaced={old.number: old.pk} if old else None,
            ids=[id],
            sent_at=sender.sent_at,
            ledger_end=look.end,
        )
        moved_on(desk, desk.revision + 1)
        return slip, second


def _texts(message: Message, replaced: WeighSlip | None) -> dict[str, str | None]:
    return {**message.texts, "replaces": str(replaced.number) if replaced else ""}


def _another(entry: Entry, day: int, old: WeighSlip) -> bool:
    """Whether the boat has a current slip for the day beside the one that is being replaced."""
    return WeighSlip.objects.current().filter(entry=entry, day=day).exclude(pk=old.pk).exists()


def _correction_faults(values: SlipValues, old: WeighSlip) -> list[Fault]:
    faults = []
    if not values.reason.strip():
        faults.append(Fault("reason", "a correction needs a reason: write why, in a few words"))
    if values.boat != old.entry.boat:
        other = f"slip {old.number} is boat {old.entry.boat}'s: take it out and write a new slip for boat {values.boat}"
        faults.append(Fault("replaces", other))
    elif values.void and values.day != old.day:
        faults.append(Fault("day", f"slip {old.number} is of day {old.day}: write the day of the slip that is meant"))
    return faults


def _care_times(desk: Desk, message: Message) -> dict[str, datetime]:
    """When the boat launched and had its first fish that day, as its care note says."""
    boat, day = message.boat_and_day
    return care_moments(desk.entries[boat].pk, day) if boat in desk.entries else {}
