"""A team as it is typed at the desk: one line for its anglers, a name made of theirs where none is written."""

from collections.abc import Container, Mapping

from weighin.roster.domain.contacts import ContactValues
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.parsing.team_lists import cells
from weighin.roster.parsing.team_lists.names import team_name
from weighin.rules.faults import Fault, Faults, Wrong

ANGLERS = "anglers"
BETWEEN = " & "


def typed_team(texts: Mapping[str, str], taken: Container[str]) -> tuple[EntryValues, ContactValues]:
    """The team, and how it is reached; ``taken`` are the looks of team names. Raises Faults at ``boat``."""
    try:
        boat = cells.boat(texts["boat"])
    except Wrong as wrong:
        raise Faults([wrong.at("boat")]) from None
    anglers, name = tuple(cells.several(texts[ANGLERS])), cells.one_line(texts["name"])
    if not name and anglers:
        name = team_name(anglers, taken)
    row = EntryValues(boat=boat, name=name, anglers=anglers, flight_name=texts.get("flight_name", ""))
    reached = {part: cells.one_line(texts[part]) for part in ("phone", "emergency")}
    return row, ContactValues(**reached)


def at_desk(fault: Fault) -> Fault:
    """A fault of an angler stands at the one line of all of them."""
    field = ANGLERS if fault.field.startswith("angler_") else fault.field
    return Fault(field, fault.said, fault.also)
