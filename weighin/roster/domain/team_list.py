"""A list of teams as a club keeps it: what stands in the file, and what was read of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property

from weighin.rules.faults import Said

FIELDS = (
    "boat", "team", "angler_1", "angler_2", "angler_3", "anglers", "phone", "emergency", "email", "paid", "big_fish_pot",
    "flight", "youth", "status", "note",
)  # fmt: skip
CONTACTS = ("phone", "emergency", "email")
MOST_ROWS = 5_000
MOST_BYTES = 5 * 1024 * 1024


@dataclass(frozen=True)
class Merge:
    """Cells made one; rows from 1 as the file counts them, columns from 0."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int


@dataclass(frozen=True)
class Grid:
    """A file, or one sheet of it, as texts: its filled rows with their numbers from 1, in order.

    ``wrong`` says what is wrong with a cell that could not be read, by row and column from 0.
    """

    rows: Sequence[tuple[int, Sequence[str]]]
    wrong: Mapping[tuple[int, int], Said] = field(default_factory=dict)
    merged: Sequence[Merge] = ()
    title: str = ""


@dataclass(frozen=True)
class ListFault:
    """What is wrong, or what to heed, in a cell: the heading of its column; without a row the whole file is meant."""

    row: int | None
    column: str | None
    code: str
    said: Said

    @property
    def message(self) -> str:
        """The sentence in the language active now."""
        return self.said.shown()


@dataclass(frozen=True)
class Skipped:
    """A row that was not read, and why."""

    row: int
    said: Said


@dataclass(frozen=True)
class Column:
    """A column under its heading; ``field`` is empty where the heading is not known or left out."""

    index: int
    heading: str
    field: str


@dataclass(frozen=True)
class ListRow:
    """A team of the list. ``anglers`` in their order."""

    row: int
    boat: int | None
    team: str
    anglers: tuple[str, ...]
    phone: str
    emergency: str
    email: str
    paid: bool
    big_fish_pot: bool
    flight: str
    youth: bool | None
    status: str
    note: str


@dataclass
class TeamList:
    """What was read of a list; ``heading`` is the number of its heading row, None where none was found."""

    heading: int | None = None
    columns: tuple[Column, ...] = ()
    rows: list[ListRow] = field(default_factory=list)
    skipped: list[Skipped] = field(default_factory=list)
    warnings: list[ListFault] = field(default_factory=list)
    faults: list[ListFault] = field(default_factory=list)

    @property
    def unknown(self) -> list[str]:
        """Headings that are left out."""
        return [column.heading for column in self.columns if column.heading and not column.field]

    @cached_property
    def faulty_rows(self) -> frozenset[int]:
        """The rows in which something is wrong."""
        return frozenset(fault.row for fault in self.faults if fault.row is not None)


@dataclass(frozen=True)
class Beside:
    """What a list is read beside: the fees of the event, its flights, and who is entered already.

    ``boats`` maps boat numbers to teams, ``teams`` looks of names to teams, ``people`` folded names of anglers to their
    teams, ``season`` looks of the season's team names to (folded name, name).
    """

    fee: Decimal
    pot_fee: Decimal
    flights: Sequence[str] = ()
    boats: Mapping[int, str] = field(default_factory=dict)
    teams: Mapping[str, str] = field(default_factory=dict)
    people: Mapping[str, str] = field(default_factory=dict)
    season: Mapping[str, tuple[str, str]] = field(default_factory=dict)


@dataclass(frozen=True)
class Matching:
    """What a person says of headings: ``named`` by the heading's words, or ``at`` by the columns (from 0) of the heading
    ``row``; an empty field leaves a column out."""

    named: Mapping[str, str] = field(default_factory=dict)
    at: Mapping[int, str] = field(default_factory=dict)
    row: int | None = None


def as_json(found: TeamList) -> dict[str, object]:
    """What was read, as ``import_teams --json`` writes it; null is not recorded."""
    return {
        "rows": [_row(row) for row in found.rows],
        "skipped": [{"row": one.row, "why": one.said.shown()} for one in found.skipped],
        "unknown": found.unknown,
        "warnings": [_fault(one) for one in found.warnings],
        "faults": [_fault(one) for one in found.faults],
    }


def _row(row: ListRow) -> dict[str, object]:
    texts = {name: getattr(row, name) or None for name in (*CONTACTS, "flight", "note")}
    return {
        "row": row.row,
        "boat": row.boat,
        "team": row.team or None,
        "anglers": list(row.anglers),
        **{name: texts[name] for name in CONTACTS},
        "paid": row.paid,
        "big_fish_pot": row.big_fish_pot,
        "flight": texts["flight"],
        "youth": row.youth,
        "status": row.status,
        "note": texts["note"],
    }


def _fault(one: ListFault) -> dict[str, object]:
    return {"row": one.row, "column": one.column, "code": one.code, "message": one.message}
