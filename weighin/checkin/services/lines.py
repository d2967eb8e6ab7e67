"""Lines of the roll as a person writes them: the rules of what stations send, and a sentence where a person can be asked."""

import uuid
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.utils import timezone

from weighin.audit.services import writing
from weighin.checkin.models import CheckIn
from weighin.checkin.services.messages import CheckInMessages
from weighin.events.models import Event
from weighin.records.domain.clock import CLOCK_MAY_DIFFER, clock
from weighin.records.parsing.wire import Message
from weighin.records.queries.desk import Desk, desk_of
from weighin.records.services.receiving import Look, Sender
from weighin.rules.faults import Fault, Faults

LINES_MAY = frozenset({"checkin"})


class LinesByHand(CheckInMessages):
    """A tablet's message is kept and marked where its clock is doubtful; a person is told at once and writes it again."""

    def read(self, message: Message, desk: Desk, old: CheckIn | None) -> dict[str, Any]:
        said = super().read(message, desk, old)
        faults = [] if said["void"] else [*_clock_faults(said, desk), *_in_already(said, desk, old)]
        if faults:
            raise Faults(faults)
        return said


def keep_line(
    desk: Desk,
    said: Mapping[str, str],
    by: str,
    id: uuid.UUID,
    old: CheckIn | None = None,
    void: bool = False,
    kind: CheckInMessages | None = None,
) -> CheckIn:
    """Keep one line on an event's ``desk``; ``said`` maps the fields of a check-in to texts. Call inside ``writing``.

    An id that is kept already gives back its line when that says the same. ``kind`` is ``LinesByHand`` when nothing
    else is said. Raises Faults.
    """
    texts = {name: text.strip() for name, text in said.items() if text and text.strip()}
    replaces = old.number if old else None
    message = Message(id, str(id), {**texts, "void": "yes" if void else "no"}, replaces, void)
    kind = kind or LinesByHand()
    kept = kind.rows().filter(pk=id).first()
    if kept is not None:
        replaced = kept.replaces.number if kept.replaces else None
        if kept.event_id == desk.event.pk and replaced == replaces and kind.same(kept, message, desk):
            return kept
        number = f" as check-in {kept.number}" if kept.event_id == desk.event.pk else ""
        raise Faults(
            [Fault("", f"this was kept before{number}, with other values: look at the roll, and correct it there")]
        )
    row, _ = kind.keep(message, id, desk, Sender(by, LINES_MAY), Look(False))
    assert isinstance(row, CheckIn)
    return row


def open_desk(event: Event) -> Desk:
    """The event's desk, its row held until the write ends; call inside ``writing``. Raises Faults when it is closed."""
    desk, closed = desk_of(event.pk)
    if closed:
        raise Faults(
            [Fault("", f"{event.name} is closed: a director must open it again before the roll can be written")]
        )
    return desk


def write_line(event: Event, said: Mapping[str, str], by: str, id: uuid.UUID, old: CheckIn | None = None) -> CheckIn:
    """Keep a line, or a correction of ``old``, in a transaction of its own. Raises Faults."""
    with writing():
        return keep_line(open_desk(event), said, by, id, old)


def void_line(line: CheckIn, reason: str, by: str, official: str) -> CheckIn:
    """Take a line out. Raises Faults, also when it was replaced or taken out already."""
    said = {"boat": str(line.entry.boat), "day": str(line.day), "reason": reason, "official": official}
    with writing():
        return keep_line(open_desk(line.event), said, by, uuid.uuid4(), line, void=True)


def _clock_faults(said: Mapping[str, Any], desk: Desk) -> list[Fault]:
    now, calendar, day = timezone.now(), desk.table.calendar, said["day"]
    faults = []
    for name in ("checked_in", "told_at"):
        moment: datetime | None = said[name]
        if moment is None:
            continue
        shown = clock(moment, calendar, day)
        if moment > now + CLOCK_MAY_DIFFER:
            faults.append(
                Fault(
                    name,
                    f"{shown} has not come yet: it is {clock(now, calendar, day)} by the site’s clock, write the time again",
                )
            )
        elif name == "checked_in" and moment < calendar.start(day):
            start = clock(calendar.start(day), calendar, day)
            faults.append(Fault(name, f"{shown} is before the day started at {start}: write the time again"))
    return faults


def _in_already(said: Mapping[str, Any], desk: Desk, old: CheckIn | None) -> list[Fault]:
    if said["checked_in"] is None and said["minutes_late"] is None:
        return []
    mine = CheckIn.objects.current().filter(event=desk.event, entry__boat=said["boat"], day=said["day"])
    others = mine.exclude(pk=old.pk) if old else mine
    came = next((line for line in others.order_by("number") if line.checked_in or line.minutes_late is not None), None)
    if came is None:
        return []
    at = f" at {clock(came.checked_in, desk.table.calendar, came.day)}" if came.checked_in else ""
    told = f"boat {said['boat']} is in already{at}, by {came.official or came.recorded_by}: correct that line if it is wrong"
    return [Fault("checked_in", told)]
