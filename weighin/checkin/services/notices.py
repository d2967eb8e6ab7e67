"""A weather hold or a shortened day: every due time of a day moved in one act, with the word that went out."""

from collections.abc import Mapping
from datetime import time
from typing import Any, ClassVar
from uuid import UUID

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.checkin.domain import faults
from weighin.checkin.domain.fields import NOTICE
from weighin.checkin.models import DueNotice
from weighin.events.domain.clock import CLOCK_MAY_DIFFER, clock
from weighin.events.models import Event
from weighin.events.services.due_times import (
    at_one_time,
    call_shortened,
    due_clocks,
    later_by,
    moments_of,
    move_due_times,
)
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Fault, Faults
from weighin.ui import figures


class NoticeRecord(RecordType[DueNotice]):
    """A notice with which the due times move, and stay as they are when it is not kept."""

    model = DueNotice
    noun = gettext_lazy("notice")
    fields = NOTICE
    scope: ClassVar[Scope] = EVENT
    leaves_context = False

    def check(self, reader: Reader, old: DueNotice | None) -> None:
        if not reader.sure("day"):
            return
        event, day, texts = reader.context.event, reader["day"], reader.texts
        if bool(texts.get("minutes")) == bool(texts.get("to")):
            said = faults.MINUTES_AND_TIME if texts.get("to") else faults.NEITHER_MINUTES_NOR_TIME
            reader.fault("minutes", said)
        now = timezone.now()
        if reader["given_at"] and reader["given_at"] > now + CLOCK_MAY_DIFFER:
            shown = clock(reader["given_at"], reader.context.calendar, day)
            reader.fault("given_at", faults.TOLD_IN_FUTURE, time=shown)
        reader.values["given_at"] = reader["given_at"] or now.replace(microsecond=0)
        if texts.get("seen") != seen_as(event, day):
            reader.fault("", faults.DUE_TIMES_CHANGED, now=seen_as(event, day))
        if reader.sure("minutes", "to"):
            try:
                _work_out(reader, event, day)
            except Faults as wrong:
                reader.faults.extend(wrong.faults)

    def attributes(self, values: Values, context: EventContext) -> Values:
        own = {name: value for name, value in values.items() if name not in ("minutes", "to")}
        return super().attributes(own, context)

    def same(self, row: DueNotice, draft: Draft, context: EventContext) -> bool:
        reader = self.read(draft, context, whole=False)
        return (row.day, row.reason) == (reader["day"], reader["reason"])

    def differs(self, row: DueNotice, asked: bool) -> Fault:
        return faults.NOTICE_KEPT_DIFFERS.at("")

    def after(self, row: DueNotice, old: DueNotice | None, context: EventContext, known: Any) -> None:
        sentence = _("Day %(day)s: %(moved)s; told at %(at)s, %(how)s, by %(by)s: %(reason)s") % {
            "day": row.day,
            "moved": moved_said(row),
            "at": clock(row.given_at, context.calendar, row.day),
            "how": row.get_how_display().lower(),
            "by": row.given_by,
            "reason": row.reason,
        }
        clocks = {flight: time.fromisoformat(due) for flight, (_was, due) in row.moved.items()}
        if row.shortened:
            call_shortened(context.event, row.day)
        move_due_times(context.event, row.day, clocks, row.recorded_by, sentence)

    def history(self, row: DueNotice, old: DueNotice | None, done: str) -> Noted | None:
        return None  # the due times' own entry says it


DUE_NOTICE = NoticeRecord()


def seen_as(event: Event, day: int) -> str:
    """The day's due times in one text: a page sends it back, so that nobody moves times that were moved meanwhile."""
    return ", ".join(f"{flight or 'day'} {due:%H:%M:%S}" for flight, due in due_clocks(event, day).items())


def move_due(event: Event, day: int, said: Mapping[str, Any], by: str, id: UUID) -> DueNotice:
    """Move every due time of a day, and keep the notice. Sent twice, they move once. Raises Faults.

    ``said`` holds ``minutes`` (later; negative: earlier) or ``to`` (one clock for all boats), ``given`` (when the boats
    were told; blank is now), ``given_by``, ``how``, ``reason``, ``shortened`` (a bool) and ``seen``, which is ``seen_as``
    as the person saw it.
    """
    names = {"given_at": "given", "day": ""}
    texts = {name: str(text or "") for name, text in said.items()} | {"day": str(day)}
    texts["given_at"] = texts.get("given", "")
    return write(DUE_NOTICE, event.pk, Draft(texts, id, names=names), Sender(by, asked=True)).kept()


def moved_said(notice: DueNotice) -> str:
    """``due 3:00 PM is now 3:30 PM; flight 2, due 3:30 PM, is now 4:00 PM``: what a notice moved."""
    parts = []
    for flight, (was, now) in sorted(notice.moved.items()):
        names = {"flight": flight, "was": _short(was), "now": _short(now)}
        parts.append(
            _("flight %(flight)s, due %(was)s, is now %(now)s") % names
            if flight
            else _("due %(was)s is now %(now)s") % names
        )
    return "; ".join(parts)


def _short(written: str) -> str:
    return figures.clock(time.fromisoformat(written))


def _work_out(reader: Reader, event: Event, day: int) -> None:
    """The clocks that move. A boat cannot be due before it was told: an earlier due time lies after the notice.

    Raises Faults.
    """
    calendar, given = reader.context.calendar, reader["given_at"]
    before = due_clocks(event, day)
    after = at_one_time(event, day, reader["to"]) if reader["to"] else later_by(event, day, reader["minutes"])
    reader.values["moved"] = {flight: [f"{before[flight]}", f"{due}"] for flight, due in after.items()}
    if before == after:
        raise Faults([faults.DUE_THEN_ALREADY.at("to")])
    try:
        now = moments_of(event, day, after)
    except ValueError:
        return  # named where it is written
    for flight, moment in now.items():
        if moment < calendar.at(day, before[flight]) and moment <= given:
            told, due = clock(given, calendar, day), clock(moment, calendar, day)
            raise Faults([faults.DUE_HAD_PASSED.at("to", due=due, told=told)])
