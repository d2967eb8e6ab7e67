"""The rows of a list: which are read, what each cell says, and what does not fit together."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any, TypeVar

from weighin.roster.domain.list_faults import (
    ANGLER_ENTERED,
    ANGLER_IN_ROW,
    ANGLER_TWICE_IN_ROW,
    BOAT_ENTERED,
    BOAT_IN_ROW,
    NO_ANGLER,
    TEAM_ENTERED,
    TEAM_IN_ROW,
    TEAM_LIKE_SEASONS,
    TEAM_MADE,
    TEAM_MADE_YOUTH,
    TOO_MANY_IN_TEAM,
)
from weighin.roster.domain.team_list import Beside, ListFault, ListRow
from weighin.roster.parsing.entries import MOST_ANGLERS
from weighin.roster.parsing.team_lists import cells
from weighin.roster.parsing.team_lists.names import team_name
from weighin.rules import values
from weighin.rules.faults import Said, Sentence, Wrong
from weighin.rules.look_alikes import folded_name, look_of

ANGLERS = ("angler_1", "angler_2", "angler_3")
NAMED = ("angler_1", "anglers", "angler_2", "angler_3")
T = TypeVar("T")
# The code that is said of a cell of each field
CODES = {
    "boat": "not_a_number", "paid": "amount", "big_fish_pot": "amount", "flight": "unknown_choice",
    "youth": "unknown_choice", "status": "unknown_choice", "email": "email",
}  # fmt: skip


class RowReader:
    """Reads row after row beside the event and the rows before; faults and warnings add up.

    ``columns`` are the columns of the fields, ``headings`` what stands above them, ``texts`` the first cells of rows
    that will be read: names that the list gives are taken before any is made.
    """

    def __init__(
        self,
        columns: Mapping[str, int],
        headings: Sequence[str],
        beside: Beside,
        wrong: Mapping[tuple[int, int], Said],
        namesakes: bool,
        given: set[str],
    ):
        self.columns, self.headings, self.beside, self.wrong = columns, headings, beside, wrong
        self.namesakes, self.taken = namesakes, {*beside.teams, *given}
        self.faults: list[ListFault] = []
        self.warnings: list[ListFault] = []
        self.boats: dict[int, int] = {}
        self.teams: dict[str, int] = {}
        self.people: dict[str, int] = {}
        self.unread: set[tuple[int, str]] = set()

    def read(self, number: int, row: Sequence[str]) -> ListRow:
        """One row; what cannot be read of it is blank and a fault."""
        beside = self.beside

        def value(field: str, read: Callable[[str], T], otherwise: T) -> T:
            index = self.columns.get(field)
            if index is None:
                return otherwise
            said, code = self.wrong.get((number, index)), "unreadable"
            try:
                if said is None:
                    return read(row[index] if index < len(row) else "")
            except Wrong as error:
                said, code = error.said, CODES.get(field, code)
            self.unread.add((number, field))
            self._fault(number, field, code, said)
            return otherwise

        boat = value("boat", cells.boat, None)
        anglers = self._anglers(number, value)
        team = value("team", cells.name, "")
        status = value("status", cells.status, "entered")
        found = ListRow(
            row=number,
            boat=boat,
            team=team,
            anglers=tuple(anglers),
            phone=value("phone", lambda text: cells.contact("phone", text), ""),
            emergency=value("emergency", lambda text: cells.contact("emergency", text), ""),
            email=value("email", lambda text: cells.contact("email", text), ""),
            paid=value("paid", lambda text: cells.paid(text, beside.fee), False),
            big_fish_pot=value("big_fish_pot", lambda text: cells.paid(text, beside.pot_fee), False),
            flight=value("flight", lambda text: cells.flight(text, beside.flights), ""),
            youth=value("youth", cells.youth, None),
            status=status,
            note=value("note", lambda text: values.lines(text.strip()), ""),
        )
        self._boat(found)
        return self._team(found)

    def _anglers(self, number: int, value: Callable[..., Any]) -> list[str]:
        named: list[tuple[str, str]] = []
        if "anglers" in self.columns:
            named += [("anglers", part) for part in value("anglers", cells.several, [])]
        for field in ANGLERS:
            text = value(field, cells.one_line, "")
            named += [(field, text)] if text else []
        anglers: list[str] = []
        own: set[str] = set()
        for field, text in named:
            try:
                written = cells.name(text)
            except Wrong as error:
                self._fault(number, field, "unreadable", error.said)
                written = text
            if written:
                anglers.append(written)
                self._person(number, field, written, own)
        self.people.update((folded, self.people.get(folded, number)) for folded in own)
        if not anglers:
            self._fault(number, "angler_1", "missing", NO_ANGLER.says())
        elif len(anglers) > MOST_ANGLERS:
            fields = [field for field, _ in named]
            said = TOO_MANY_IN_TEAM.says(n=len(anglers), most=MOST_ANGLERS)
            self._fault(number, fields[MOST_ANGLERS], "too_many", said)
        return anglers

    def _person(self, number: int, field: str, name: str, own: set[str]) -> None:
        folded = folded_name(name)
        if folded in own:
            self._fault(number, field, "duplicate_angler", ANGLER_TWICE_IN_ROW.says(name=name))
            return
        own.add(folded)
        if folded in self.people:
            said = ANGLER_IN_ROW.says(name=name, row=self.people[folded])
        elif folded in self.beside.people:
            said = ANGLER_ENTERED.says(name=name, team=self.beside.people[folded])
        else:
            return
        found = ListFault(number, self._heading(field), "duplicate_angler", said)
        (self.warnings if self.namesakes else self.faults).append(found)

    def _boat(self, found: ListRow) -> None:
        if found.boat is None:
            return
        if found.boat in self.boats:
            said = BOAT_IN_ROW.says(boat=found.boat, row=self.boats[found.boat])
            self._fault(found.row, "boat", "duplicate_boat", said)
        elif found.boat in self.beside.boats:
            said = BOAT_ENTERED.says(boat=found.boat, team=self.beside.boats[found.boat])
            self._fault(found.row, "boat", "duplicate_boat", said)
        self.boats.setdefault(found.boat, found.row)

    def _team(self, found: ListRow) -> ListRow:
        """The row with its team's name, which is made where there is none."""
        # What cannot be read is no blank cell: no name is made in its place
        made = not found.team and bool(found.anglers) and (found.row, "team") not in self.unread
        team = team_name(found.anglers, self.taken) if made else found.team
        if not team:
            return found
        look = look_of(team)
        folded, like = self.beside.season.get(look, ("", ""))
        if look in self.teams:
            self._duplicate(found.row, TEAM_IN_ROW, team=team, row=self.teams[look])
        elif look in self.beside.teams:
            self._duplicate(found.row, TEAM_ENTERED, team=team)
        elif like and folded != folded_name(team):
            self._duplicate(found.row, TEAM_LIKE_SEASONS, name=team, team=like)
        self.teams.setdefault(look, found.row)
        self.taken.add(look)
        if made:
            self._warn(found.row, "team_made", TEAM_MADE.says(team=team))
            if found.youth:
                self._warn(found.row, "team_made_youth", TEAM_MADE_YOUTH.says(team=team))
        return replace(found, team=team)

    def _duplicate(self, number: int, sentence: Sentence, **params: object) -> None:
        self._fault(number, "team", "duplicate_team", sentence.says(**params))

    def _fault(self, number: int, field: str, code: str, said: Said) -> None:
        self.faults.append(ListFault(number, self._heading(field), code, said))

    def _warn(self, number: int, code: str, said: Said) -> None:
        self.warnings.append(ListFault(number, self._heading("team"), code, said))

    def _heading(self, field: str) -> str | None:
        """The heading of a field; where the list has no such column, of the one that holds its anglers."""
        index = next((self.columns[one] for one in (field, *NAMED) if one in self.columns), None)
        return None if index is None else self.headings[index].strip()
