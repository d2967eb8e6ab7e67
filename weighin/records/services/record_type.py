"""A kind of written row: declared once, written through the one door."""

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, ClassVar, Generic, TypeVar

from django.db.models import Model, QuerySet

from weighin.audit.domain.chain import START
from weighin.records.domain import faults
from weighin.records.domain.fields import Field, Text
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.domain.rows import value_of
from weighin.records.parsing.json_body import ItemForm
from weighin.records.parsing.reader import Reader
from weighin.rules.faults import Fault, Faults, Said, Sentence

Row = TypeVar("Row", bound=Model)


@dataclass(frozen=True)
class End:
    """Where the rows of one kind end: the largest number in use, and the position and link at the end of their chain."""

    number: int = 0
    position: int = 0
    link: str = START


@dataclass(frozen=True, kw_only=True)
class Context:
    """What rows of one holder (an event, a club) are read beside, as it was at one revision.

    ``ends`` are the ends of kinds of rows as far as they are known: every row raises the revision, so they stand with it.
    """

    revision: int
    closed: Said | None
    club_id: int | None
    event_id: int | None
    ends: Mapping[str, End] = field(default_factory=dict)


class Scope(ABC):
    """Whose rows they are: how the holder is held while one is written, and told that something changed."""

    @abstractmethod
    def lock(self, key: Any) -> Any:
        """The holder's ``Context`` as it is now; the holder is held until the transaction ends."""

    def open(self, key: Any) -> Any:
        """As ``lock``. Raises Faults when the holder is closed."""
        context = self.lock(key)
        if context.closed is not None:
            raise Faults([Fault("", context.closed)])
        return context

    @abstractmethod
    def changed(self, context: Any, stays: bool, ends: Mapping[str, End]) -> int:
        """Raise the revision; the new one. ``stays``: what rows are read beside is the same, and ``ends`` are known."""

    @abstractmethod
    def ends_at(self, revision: int, context: Any, ends: Mapping[str, End]) -> None:
        """Where kinds of rows end at a revision that another write has raised."""


@dataclass(frozen=True)
class Noted:
    """How the history names a write: a stable name, a sentence, and what it is about (left out: the row by its name).

    ``bound`` are the seals of what the write left behind beside the row.
    """

    act: str
    sentence: str
    subject: str = ""
    bound: Mapping[str, str | None] | None = None


class RecordType(ABC, Generic[Row]):
    """One kind of row.

    ``fields`` are what a person or a station writes. A row that is ``edited`` is changed in place, and taken out with a
    reason; any other is only added: a correction is a new row that ``replaces`` one, a void takes one out. ``numbered``
    rows have a number in their event. ``chain`` is the version of the content with which new rows are chained; 0 = none.
    """

    model: type[Row]
    noun: ClassVar[Text]
    fields: ClassVar[Sequence[Field]]
    scope: ClassVar[Scope]
    # What a sender must be able to do who corrects or takes one out; empty: whoever may write one
    corrects: ClassVar[str] = ""
    # What a void must say besides the row it takes out; where that is nothing it repeats what the row says
    of_a_void: ClassVar[Sequence[str]] = ("day", "boat")
    # What a person is told who corrects one that was taken out meanwhile
    taken_out_meanwhile: ClassVar[Sentence] = faults.TAKEN_OUT_ALREADY
    # What is said to one who corrects, or takes out, without a reason
    without_reason: ClassVar[Sentence] = faults.NO_REASON
    # Whether who takes an edited row out says why, and what is said where it is gone
    says_why: ClassVar[bool] = True
    gone_meanwhile: ClassVar[Sentence] = faults.GONE_MEANWHILE
    edited: ClassVar[bool] = False
    numbered: ClassVar[bool] = True
    chain: ClassVar[int] = 0
    # What is seen in the days after the event changes no result, and may be written when it is closed
    after_closing: ClassVar[bool] = False
    # Whether what other rows are read beside (rules, clock, boats) is the same after one of these is written
    leaves_context: ClassVar[bool] = True
    # The attribute that holds the sender's id (empty: it has none), and the way from the row to its event
    key: ClassVar[str] = "id"
    holder: ClassVar[str] = "event"

    @cached_property
    def attribute_names(self) -> frozenset[str]:
        """Every attribute of the model that is a column."""
        return frozenset(one.name for one in self.model._meta.concrete_fields)

    @cached_property
    def item_form(self) -> ItemForm:
        """What stations send of one."""
        return ItemForm(self.fields, self.of_a_void)

    def rows(self) -> QuerySet[Row]:
        """The rows of every holder, with what is asked of each."""
        return self.model._default_manager.all()

    def rows_of(self, context: Any) -> QuerySet[Row]:
        """The rows of the holder."""
        return self.rows().filter(**{self.holder: context.event_id})

    def is_of(self, row: Row, context: Any) -> bool:
        """Whether the row is the holder's."""
        found: Any = row
        for step in self.holder.split("__"):
            found = getattr(found, step)
        return bool(found.pk == context.event_id)

    def read(
        self, draft: Draft, context: Any, old: Row | None = None, *, whole: bool = True, asked: bool = False
    ) -> Reader:
        """The draft's values. Not ``whole``, each field is read by itself and nothing is said of how they fit together."""
        needed = [f.name for f in self.fields if f.required and (not draft.void or f.name in self.of_a_void)]
        reader = Reader(self.fields, draft.texts, context, current=not draft.void, needed=needed, asked=asked)
        reader.read()
        if whole and not draft.void and not draft.faults:
            self.check(reader, old)
        return reader

    def values(self, texts: Mapping[str, str | None], context: Any) -> Values:
        """The values of one row of an import. Raises Faults."""
        return self.read(Draft({name: text for name, text in texts.items() if text}), context).finish()

    def check(self, reader: Reader, old: Row | None) -> None:
        """Name what is wrong with values that are each right by themselves."""

    def check_asked(self, reader: Reader, old: Row | None) -> None:
        """Name what is doubtful, to somebody who can be asked at once."""

    def check_correction(self, reader: Reader, old: Any, draft: Draft, asked: bool) -> list[Fault]:
        """What is wrong with values that are to take the place of ``old``."""
        return [] if reader["reason"].strip() else [self.without_reason.at("reason")]

    def may_replace(self, old: Row, reader: Reader, draft: Draft, sender: Sender) -> None:
        """Raises Faults when this sender may not put the values in place of ``old``."""

    def may_take_out(self, row: Row) -> None:
        """Raises Faults when an edited row may not be taken out."""

    def unchanged(self, reader: Reader, context: Any) -> Row | None:
        """The row that says the same already, where saying it again writes nothing."""
        return None

    def attributes(self, values: Values, context: Any) -> Values:
        """The row's attributes, of values by field name."""
        return {**values, "event_id": context.event_id} if self.holder == "event" else values

    def value_of(self, row: Row, one: Field) -> Any:
        """What a row says in a field."""
        return value_of(row, one.name)

    def said(self, row: Row) -> Values:
        """What a person wrote in a row, in plain JSON."""
        return {one.name: one.kind.plain(self.value_of(row, one)) for one in self.fields}

    def texts(self, row: Row) -> dict[str, str]:
        """What a row says as texts that ``read`` takes again."""
        return {one.name: one.kind.text(self.value_of(row, one)) for one in self.fields}

    def same(self, row: Row, draft: Draft, context: Any) -> bool:
        """Whether a kept row says what the draft says; what it replaces is compared already."""
        if not self.edited and bool(getattr(row, "void", False)) != draft.void:
            return False
        # Only what the fields say by themselves: what they had to fit with may have changed since they were kept
        reader = self.read(draft, context, whole=False)
        return not reader.faults and all(
            one.kind.compared(self.value_of(row, one), reader) == one.kind.compared(reader[one.name], reader)
            for one in self.fields
        )

    def as_sent(self, row: Any, context: Any) -> Values:
        """A kept row as a station would send it, with its number as ``slip``. Null = not recorded."""
        sent: Values = {"slip": row.number, "id": str(row.pk)}
        sent |= self.values_as_sent(row, context)
        return {**sent, "replaces": row.replaces.number if row.replaces else None, "void": row.void}

    def values_as_sent(self, row: Row, context: Any) -> Values:
        """What a row says as a station would send it. Null = not recorded."""
        sent: Values = {}
        for one in self.fields:
            outer, point, inner = one.sent_as.partition(".")
            value = one.kind.as_sent(self.value_of(row, one), context)
            if point:
                sent.setdefault(outer, {})[inner] = value
            elif outer:
                sent[outer] = value
        return sent

    def is_second(self, row: Row, old: Row | None, context: Any, known: Any) -> bool:
        """Whether another row says the same kind of thing of the same boat and day; ``known`` is what ``before`` gave."""
        return False

    def before(self, row: Row, old: Row | None, context: Any) -> Any:
        """What must be known or done before the row is there. Raises Faults; then nothing is written."""
        return None

    def after(self, row: Row, old: Row | None, context: Any, known: Any) -> None:
        """What else is written with the row. Raises Faults; then nothing is."""

    def named(self, row: Any) -> object:
        """How sentences name a row after the noun."""
        return row.number if self.numbered else row

    def differs(self, row: Row, asked: bool) -> Fault:
        """That the id was kept with other values, to a program or to a person who is asked."""
        if asked:
            return faults.FORM_KEPT_OTHERWISE.at("")
        return faults.KEPT_OTHERWISE.at("id", noun=self.noun, number=self.named(row))

    def changed_meanwhile(self) -> Said:
        """That somebody else changed the row that the writer had before them."""
        return faults.CHANGED_MEANWHILE.says()

    @abstractmethod
    def history(self, row: Row, old: Row | None, done: str) -> Noted | None:
        """How the history names a write; None when something written with it says so: ``done`` is recorded, corrected or voided; changed or taken_out when edited."""
