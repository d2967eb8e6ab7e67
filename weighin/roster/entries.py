"""What is written of a team in an event, and what must hold of it beside the others."""

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Protocol

from weighin.roster.names import folded_name
from weighin.rules import values
from weighin.rules.faults import Fault
from weighin.rules.results import ROSTER_STATUSES

MOST = 2_000_000_000
MOST_ANGLERS = 3


class EntryRow(Protocol):
    """A team as a form, a roster or a workbook gives it; ``anglers`` in their order, blanks left out or empty."""

    @property
    def boat(self) -> int: ...
    @property
    def name(self) -> str: ...
    @property
    def anglers(self) -> Sequence[str]: ...
    @property
    def youth(self) -> bool | None: ...
    @property
    def flight_name(self) -> str: ...
    @property
    def paid(self) -> bool: ...
    @property
    def big_fish_pot(self) -> bool: ...
    @property
    def status(self) -> str: ...
    @property
    def lot(self) -> int | None: ...
    @property
    def note(self) -> str: ...


FIELDS = ("boat", "name", "youth", "flight_name", "paid", "big_fish_pot", "status", "lot", "note")


@dataclass(frozen=True)
class EntryValues:
    """A team in plain values."""

    boat: int
    name: str
    anglers: tuple[str, ...] = ()
    youth: bool | None = None
    flight_name: str = ""
    paid: bool = False
    big_fish_pot: bool = False
    status: str = "entered"
    lot: int | None = None
    note: str = ""


def entry_faults(row: EntryRow, boats: Mapping[int, str], people: Mapping[str, int], flights: Set[str]) -> list[Fault]:
    """Faults of one team beside the others of its event, at ``boat``, ``name``, ``angler_1`` to ``angler_3``, ``flight_name``.

    ``boats`` maps the boats that are taken to their teams, ``people`` the folded names of the anglers to their boats.
    """
    faults = []
    if not 1 <= row.boat <= MOST:
        faults.append(Fault("boat", f"{row.boat} is no boat number: write a whole number from 1 on"))
    elif row.boat in boats:
        faults.append(Fault("boat", f"boat {row.boat} is {boats[row.boat]}: give this team another number"))
    faults += _line_faults("name", row.name, "the team's name")
    if row.flight_name and row.flight_name not in flights:
        listed = ", ".join(sorted(flights)) or "none is set up yet"
        faults.append(
            Fault("flight_name", f"there is no flight {row.flight_name} ({listed}): choose one, or set it up")
        )
    if row.status not in ROSTER_STATUSES:
        faults.append(Fault("status", f"choose one of {', '.join(ROSTER_STATUSES)}"))
    if row.lot is not None and not 0 <= row.lot <= MOST:
        faults.append(Fault("lot", f"write a whole number from 0 to {MOST:,}"))
    try:
        values.lines(row.note)
    except ValueError as error:
        faults.append(Fault("note", str(error)))
    return faults + _angler_faults(row, people)


def known_people(rows: Iterable[tuple[str, int]]) -> dict[str, int]:
    """Folded names of anglers to the boats they fish in, from (name, boat)."""
    return {folded_name(name): boat for name, boat in rows}


def _angler_faults(row: EntryRow, people: Mapping[str, int]) -> list[Fault]:
    faults, own = [], set()
    if len(row.anglers) > MOST_ANGLERS:
        faults.append(Fault("angler_3", f"a team has {MOST_ANGLERS} anglers at most"))
    if not any(name.strip() for name in row.anglers):
        faults.append(Fault("angler_1", "this is blank: write at least one angler"))
    for number, name in enumerate(row.anglers, start=1):
        folded, field = folded_name(name), f"angler_{number}"
        if not folded:
            continue
        faults += _line_faults(field, name, "the angler's name")
        if folded in people:
            faults.append(
                Fault(field, f"{name.strip()} fishes in boat {people[folded]} already: an angler fishes in one team")
            )
        elif folded in own:
            faults.append(Fault(field, f"{name.strip()} stands twice in this team: write each angler once"))
        own.add(folded)
    return faults


def _line_faults(field: str, text: str, what: str) -> list[Fault]:
    try:
        return [] if values.line(text) else [Fault(field, f"this is blank: write {what}")]
    except ValueError as error:
        return [Fault(field, str(error))]
