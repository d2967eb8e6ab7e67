"""Take in what stations send: each item in a transaction of its own, answered only once it is durably kept.

``receive`` is the same for slips, check-ins and care notes; a ``Kind`` says what differs between them.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import IntegrityError
from django.db.models import QuerySet

from weighin.audit.services import writing
from weighin.records.parsing.wire import Answer, Field, Message, in_order, read_message
from weighin.records.queries.desk import Desk, desk_of
from weighin.rules.faults import Fault, Faults

# What a sender must be able to do whose word settles what cannot be weighed again
RULES = "rule"


@dataclass(frozen=True)
class Sender:
    """Who sends: the name that is kept with what was sent, what the sender may do, and the clock of its device."""

    name: str
    cans: frozenset[str]
    sent_at: datetime | None = None


@dataclass(frozen=True)
class Look:
    """Whether an id is kept already."""

    known: bool


class Kind(ABC):
    """One kind of item: its fields on the wire, and how it is found, compared, read and written.

    Its rows have ``id``, ``number`` in their event, ``entry``, ``day``, ``replaces`` and ``void``.
    """

    noun: str
    fields: Mapping[str, Field]
    # What a void must have, which names the row it takes out
    of_a_void: Sequence[str]
    # What a sender must be able to do who corrects one
    corrects: str

    @abstractmethod
    def rows(self) -> QuerySet[Any]:
        """The rows of every event, with what ``same`` looks at."""

    def look(self, message: Message, id: UUID, desk: Desk) -> Any:
        """What must be known before the row is written: at least ``known``, whether the id is kept already."""
        return Look(self.rows().filter(pk=id).exists())

    @abstractmethod
    def same(self, row: Any, message: Message, desk: Desk) -> bool:
        """Whether the message says what the row says; what it replaces is compared already."""

    @abstractmethod
    def read(self, message: Message, desk: Desk, old: Any) -> Any:
        """The message's values, ready to keep; ``old`` is the row they replace. Raises Faults."""

    def may_replace(self, old: Any, values: Any, desk: Desk, sender: Sender) -> None:
        """Raises Faults when this sender may not put the values in place of ``old``."""
        return

    @abstractmethod
    def write(self, values: Any, id: UUID, desk: Desk, old: Any, sender: Sender, look: Any) -> tuple[Any, bool]:
        """Write the row. True beside it: the boat has another one for that day."""

    def keep(self, message: Message, id: UUID, desk: Desk, sender: Sender, look: Any) -> tuple[Any, bool]:
        """Read and write a new message. Raises Faults with all that is wrong; then nothing was written."""
        old = values = None
        faults: list[Fault] = []
        try:
            old = self._corrected(message, desk, sender)
        except Faults as found:
            faults.extend(found.faults)
        try:
            values = self.read(message, desk, old)
        except Faults as found:
            faults.extend(found.faults)
        if faults or message.faults:
            raise Faults(faults)
        if old is not None:
            self.may_replace(old, values, desk, sender)
        return self.write(values, id, desk, old, sender, look)

    def _corrected(self, message: Message, desk: Desk, sender: Sender) -> Any:
        """The row that the message corrects or takes out; None when it is a new one.

        Raises Faults at ``replaces`` when there is no such row, or when it was replaced already; the current one
        is named.
        """
        if message.replaces is None:
            if message.void and "replaces" not in message.wrong:
                raise _refusal(f"a void names the {self.noun} it takes out: write its number or id")
            return None
        if self.corrects not in sender.cans:
            raise _refusal(f"your role cannot correct or take out a {self.noun}: ask a director of the club")
        rows = self.rows().filter(event=desk.event)
        by = {"number": message.replaces} if isinstance(message.replaces, int) else {"pk": message.replaces}
        old = rows.filter(**by).first()
        if old is None:
            raise _refusal(self._unknown(rows, message))
        last = old
        while (after := rows.filter(replaces=last).first()) is not None:
            last = after
        if last is not old and not last.void:
            raise _refusal(
                f"{self.noun} {old.number} was replaced already: "
                f"the current one is {self.noun} {last.number}, correct that one"
            )
        if last.void:
            what = "takes another out" if last is old else f"was taken out by {self.noun} {last.number}"
            raise _refusal(f"{self.noun} {old.number} {what}: send a new {self.noun} instead")
        return old

    def _unknown(self, rows: QuerySet[Any], message: Message) -> str:
        name = f"{self.noun} {message.replaces}" if isinstance(message.replaces, int) else f"the {self.noun} of this id"
        boat, day = message.boat_and_day
        current = rows.filter(entry__boat=boat, day=day, replaced_by__isnull=True, void=False)
        numbers = ", ".join(str(row.number) for row in current)
        if numbers:
            return f"{name} is not kept here; the current one of boat {boat} is {self.noun} {numbers}"
        return f"{name} is not kept here: send that one first, then this again"


def receive(kind: Kind, event_id: int, items: Sequence[Mapping[str, Any]], sender: Sender) -> list[Answer]:
    """Take the items of one body in: an answer for each, in the order they were sent."""
    messages = [read_message(item, kind.fields, kind.of_a_void) for item in items]
    answers: dict[int, Answer] = {}
    for place in in_order(messages):
        answers[place] = _answer(kind, event_id, messages[place], sender)
    return [answers[place] for place in range(len(messages))]


def _answer(kind: Kind, event_id: int, message: Message, sender: Sender) -> Answer:
    if message.id is None:
        return Answer(message.said_id, "refused", faults=tuple(message.faults))
    try:
        return _kept_or_not(kind, event_id, message, message.id, sender)
    except IntegrityError:
        # Another process kept the same id between our look and our write: now it is there to be compared with.
        return _kept_or_not(kind, event_id, message, message.id, sender)


def _kept_or_not(kind: Kind, event_id: int, message: Message, id: UUID, sender: Sender) -> Answer:
    try:
        with writing():
            desk, is_closed = desk_of(event_id)
            look = kind.look(message, id, desk)
            if look.known:
                return _again(kind, kind.rows().get(pk=id), message, desk)
            if is_closed:
                closed = f"{desk.event.name} is closed: a director must open it again before anything can be sent"
                raise Faults([Fault("", closed)])
            row, second = kind.keep(message, id, desk, sender, look)
    except Faults as found:
        return Answer(message.said_id, "refused", faults=tuple(message.told(found.faults)))
    return Answer(message.said_id, "second" if second else "kept", row.number, revision=desk.revision + 1)


def _again(kind: Kind, row: Any, message: Message, desk: Desk) -> Answer:
    """The answer to an id that is kept already."""
    if row.event_id != desk.event.pk:
        used = "this id was used already for something else: nothing was written, send it again under a new id"
        return Answer(message.said_id, "differs", faults=(Fault("id", used),))
    if not message.faults and _replaced(row, message) == message.replaces and kind.same(row, message, desk):
        return Answer(message.said_id, "already", row.number)
    other = f"this id was kept as {kind.noun} {row.number} with other values: correct that one, or use a new id"
    return Answer(message.said_id, "differs", row.number, (Fault("id", other),))


def _replaced(row: Any, message: Message) -> int | UUID | None:
    """What the row replaces, named in the way the message names it."""
    if row.replaces is None:
        return None
    found: int | UUID = row.replaces.pk if isinstance(message.replaces, UUID) else row.replaces.number
    return found


def _refusal(message: str) -> Faults:
    return Faults([Fault("replaces", message)])
