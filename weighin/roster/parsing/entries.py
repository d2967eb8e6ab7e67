"""What is written of a team in an event, and what must hold of it beside the others."""

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Protocol

from weighin.roster.domain.faults import (
    ANGLER_TAKEN,
    ANGLER_TAKEN_WAITING,
    ANGLER_TWICE,
    ANGLER_WITHOUT_NAME,
    BOAT_TAKEN,
    NO_FLIGHT_YET,
    NO_SUCH_FLIGHT,
    NO_SUCH_STATUS,
    NOT_A_BOAT_NUMBER,
    ODD_LOT,
    TEAM_WITHOUT_ANGLER,
    TEAM_WITHOUT_NAME,
    TOO_MANY_ANGLERS,
)
from weighin.rules import values
from weighin.rules.faults import Fault, Listed, Sentence, Wrong
from weighin.rules.look_alikes import folded_name, name_line
from weighin.rules.results import ROSTER_STATUSES

MOST = 2_000_000_000
MOST_ANGLERS = 3
Fishes = tuple[int | None, str]  # the boat, if there is a number yet, and the team


class EntryRow(Protocol):
    """A team as a form, a roster or a workbook gives it; ``anglers`` in their order, blanks left out or empty.

    Without a ``boat`` it waits for its number.
    """

    @property
    def boat(self) -> int | None: ...
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

    boat: int | None
    name: str
    anglers: tuple[str, ...] = ()
    youth: bool | None = None
    flight_name: str = ""
    paid: bool = False
    big_fish_pot: bool = False
    status: str = "entered"
    lot: int | None = None
    note: str = ""


def entry_faults(
    row: EntryRow, boats: Mapping[int, str], people: Mapping[str, Fishes], flights: Set[str]
) -> list[Fault]:
    """Faults of one team beside the others of its event, at ``boat``, ``name``, ``angler_1`` to ``angler_3``, ``flight_name``.

    ``boats`` maps the boats that are taken to their teams, ``people`` the folded names of the anglers to where they fish.
    """
    faults = []
    if row.boat is None:
        pass
    elif not 1 <= row.boat <= MOST:
        faults.append(NOT_A_BOAT_NUMBER.at("boat", boat=row.boat))
    elif row.boat in boats:
        faults.append(BOAT_TAKEN.at("boat", boat=row.boat, team=boats[row.boat]))
    faults += _line_faults("name", row.name, TEAM_WITHOUT_NAME)
    if row.flight_name and row.flight_name not in flights:
        listed = Listed(tuple(sorted(flights))) if flights else NO_FLIGHT_YET.says()
        faults.append(NO_SUCH_FLIGHT.at("flight_name", flight=row.flight_name, listed=listed))
    if row.status not in ROSTER_STATUSES:
        faults.append(NO_SUCH_STATUS.at("status", statuses=Listed(ROSTER_STATUSES)))
    if row.lot is not None and not 0 <= row.lot <= MOST:
        faults.append(ODD_LOT.at("lot", most=f"{MOST:,}"))
    try:
        values.lines(row.note)
    except Wrong as error:
        faults.append(error.at("note"))
    return faults + _angler_faults(row, people)


def known_people(rows: Iterable[tuple[str, int | None, str]]) -> dict[str, Fishes]:
    """Folded names of anglers to the boats and teams they fish in, from (name, boat, team)."""
    return {folded_name(name): (boat, team) for name, boat, team in rows}


def _angler_faults(row: EntryRow, people: Mapping[str, Fishes]) -> list[Fault]:
    faults, own = [], set()
    if len(row.anglers) > MOST_ANGLERS:
        faults.append(TOO_MANY_ANGLERS.at("angler_3", most=MOST_ANGLERS))
    if not any(name.strip() for name in row.anglers):
        faults.append(TEAM_WITHOUT_ANGLER.at("angler_1"))
    for number, name in enumerate(row.anglers, start=1):
        folded, field = folded_name(name), f"angler_{number}"
        if not folded:
            continue
        faults += _line_faults(field, name, ANGLER_WITHOUT_NAME)
        if folded in people:
            boat, team = people[folded]
            taken = ANGLER_TAKEN_WAITING if boat is None else ANGLER_TAKEN
            faults.append(taken.at(field, name=name.strip(), boat=boat, team=team))
        elif folded in own:
            faults.append(ANGLER_TWICE.at(field, name=name.strip()))
        own.add(folded)
    return faults


def _line_faults(field: str, text: str, blank: Sentence) -> list[Fault]:
    try:
        return [] if name_line(text) else [blank.at(field)]
    except Wrong as error:
        return [error.at(field)]
