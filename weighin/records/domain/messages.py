"""What is brought to the door, by whom, and what became of it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Generic, Literal, TypeVar
from uuid import UUID, uuid4

from weighin.rules.faults import Fault, Faults

Row = TypeVar("Row")
State = Literal["kept", "already", "differs", "second", "refused"]

# What a sender must be able to do whose word settles what cannot be weighed again
RULES = "rule"


@dataclass(frozen=True)
class Sender:
    """Who writes: the name that is kept with the row, what the sender may do, and the clock of its device.

    ``asked``: a person who can be asked at once, so that what is doubtful is a fault; a tablet's row is kept and marked.
    """

    name: str
    cans: frozenset[str] = frozenset()
    sent_at: datetime | None = None
    asked: bool = False


@dataclass
class Draft:
    """A row as it was written: its fields as texts by name, and what is wrong with them already.

    ``id`` was made by whoever wrote it. ``replaces`` names the row it corrects or, as a ``void``, takes out: by number
    or id, a row that is edited by its key. ``seen`` is the ``fingerprint`` of the row that the writer had before them, for rows edited in place.
    ``number`` is the one that its paper has already. ``names`` are the names of the message where they differ from those of the fields.
    """

    texts: Mapping[str, str]
    id: UUID | None = field(default_factory=uuid4)
    replaces: Any = None
    void: bool = False
    seen: str | None = None
    faults: list[Fault] = field(default_factory=list)
    names: Mapping[str, str] = field(default_factory=dict)
    said_id: str | None = None
    number: int | None = None

    @property
    def wrong(self) -> set[str]:
        """The fields of which something is wrong already."""
        return {fault.field for fault in self.faults}

    def told(self, found: Iterable[Fault]) -> list[Fault]:
        """The readers' faults under the names of the message, without those of fields that were wrong already."""
        wrong = self.wrong
        renamed = [Fault(self.names.get(fault.field, fault.field), fault.said, fault.also) for fault in found]
        return [*self.faults, *(fault for fault in renamed if fault.field not in wrong)]


@dataclass(frozen=True)
class Outcome(Generic[Row]):
    """What became of a draft.

    ``kept``: durably written. ``already``: the same was kept before under this id. ``differs``: this id was kept with
    other content, nothing was written. ``second``: kept, and there is another of the same for that day. ``refused``:
    the faults say why, nothing was written. ``revision`` is the holder's after it.
    """

    state: State
    row: Row | None = None
    faults: tuple[Fault, ...] = ()
    revision: int = 0

    def kept(self) -> Row:
        """The row that is kept. Raises Faults when none is."""
        if self.row is None or self.faults:
            raise Faults(self.faults)
        return self.row


Values = dict[str, Any]
