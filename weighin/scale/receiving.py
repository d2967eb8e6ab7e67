"""Take in what stations send: each item in a transaction of its own, answered only once it is durably kept.

``receive`` is the same for slips, check-ins and care notes; a ``Kind`` says what differs between them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol
from uuid import UUID

from django.db import IntegrityError
from django.db.models import QuerySet

from weighin.audit.services import writing
from weighin.rules.faults import Fault, Faults
from weighin.scale.desk import Desk, desk_of
from weighin.scale.reading import boat_and_day
from weighin.scale.wire import Answer, Field, Message, in_order, read_message

DIFFERS = "this id was used already for something else: nothing was written; send it again under a new id"


@dataclass(frozen=True)
class Sender:
    """Who sends: the name that is kept with what was sent, and what the sender may do (``correct`` beside the rest)."""

    name: str
    cans: frozenset[str]
    sent_at: datetime | None = None


class Kind(Protocol):
    """One kind of item: its fields on the wire and how it is found, compared and kept."""

    noun: str
    fields: Mapping[str, Field]
    of_a_void: Sequence[str]

    def found(self, id: UUID) -> Any:
        """The row kept under an id, of whatever event, or None."""

    def number(self, row: Any) -> int:
        """The row's number in its event."""

    def same(self, row: Any, message: Message, desk: Desk) -> bool:
        """Whether the message says what the row says."""

    def keep(self, message: Message, desk: Desk, sender: Sender) -> tuple[Any, bool]:
        """Keep the message: the row, and whether the boat has another one for that day.

        Raises Faults; then nothing was written.
        """


def receive(kind: Kind, event_id: int, items: Sequence[Mapping[str, Any]], sender: Sender) -> list[Answer]:
    """Take the items of one body in: an answer for each, in the order they were sent."""
    messages = [read_message(item, kind.fields, kind.of_a_void) for item in items]
    answers: dict[int, Answer] = {}
    for place in in_order(messages):
        answers[place] = _receive_one(kind, event_id, messages[place], sender)
    return [answers[place] for place in range(len(messages))]


def _receive_one(kind: Kind, event_id: int, message: Message, sender: Sender) -> Answer:
    if message.id is None:
        return Answer(message.said_id, "refused", faults=tuple(message.faults))
    try:
        return _kept_or_not(kind, event_id, message, sender)
    except IntegrityError:
        # Another process kept the same id between our look and our write: now it is there to be compared with.
        return _kept_or_not(kind, event_id, message, sender)


def _kept_or_not(kind: Kind, event_id: int, message: Message, sender: Sender) -> Answer:
    assert message.id is not None
    try:
        with writing():
            desk, closed_at = desk_of(event_id)
            row = kind.found(message.id)
            if row is not None:
                return _again(kind, row, message, desk)
            if closed_at is not None:
                name = desk.event.name
                raise Faults(
                    [Fault("", f"{name} is closed: a director must open it again before anything can be sent")]
                )
            row, second = kind.keep(message, desk, sender)
    except Faults as found:
        return Answer(message.said_id, "refused", faults=tuple(message.told(found.faults)))
    return Answer(message.said_id, "second" if second else "kept", kind.number(row))


def _again(kind: Kind, row: Any, message: Message, desk: Desk) -> Answer:
    if row.event_id != desk.event.pk:
        return Answer(message.said_id, "differs", faults=(Fault("id", DIFFERS),))
    number = kind.number(row)
    if not message.faults and kind.same(row, message, desk):
        return Answer(message.said_id, "already", number)
    fault = Fault(
        "id", f"this id was kept as {kind.noun} {number} with other values: correct that one, or use a new id"
    )
    return Answer(message.said_id, "differs", number, (fault,))


def corrected(kind: Kind, rows: QuerySet[Any], message: Message, sender: Sender) -> Any:
    """The row that the message corrects or takes out, with its entry; None when it is a new one.

    ``rows`` are those of the event. Raises Faults at ``replaces`` when there is no such row, or when it was
    replaced already; the current one is named.
    """
    if message.replaces is None:
        if message.void:
            raise _refusal(f"a void names the {kind.noun} it takes out: write its number or id")
        return None
    if "correct" not in sender.cans:
        raise _refusal(f"your role cannot correct or take out a {kind.noun}: ask a director of the club")
    by = {"number": message.replaces} if isinstance(message.replaces, int) else {"pk": message.replaces}
    old = rows.filter(**by).select_related("entry").first()
    if old is None:
        raise _refusal(_unknown(kind, rows, message))
    last = old
    while (after := rows.filter(replaces=last).first()) is not None:
        last = after
    if last is not old and not last.void:
        raise _refusal(
            f"{kind.noun} {old.number} was replaced already: the current one is {kind.noun} {last.number}, correct that one"
        )
    if last.void:
        what = "takes another out" if last is old else f"was taken out by {kind.noun} {last.number}"
        raise _refusal(f"{kind.noun} {old.number} {what}: send a new {kind.noun} instead")
    return old


def _unknown(kind: Kind, rows: QuerySet[Any], message: Message) -> str:
    name = f"{kind.noun} {message.replaces}" if isinstance(message.replaces, int) else f"the {kind.noun} of this id"
    known = boat_and_day(message.texts)
    boat, day = known or (0, 0)
    current = rows.filter(entry__boat=boat, day=day, replaced_by__isnull=True, void=False)
    numbers = ", ".join(str(number) for number in current.values_list("number", flat=True))
    if numbers:
        return f"{name} is not kept here; the current one of boat {boat} is {kind.noun} {numbers}"
    return f"{name} is not kept here: send that one first, then this again"


def _refusal(message: str) -> Faults:
    return Faults([Fault("replaces", message)])
