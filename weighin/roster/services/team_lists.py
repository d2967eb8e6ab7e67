"""Bring a list of teams into an event, all of it or nothing."""

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.events.services.revision import lock_open_event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.team_list import Grid, ListRow, Matching, TeamList
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.parsing.team_lists.reading import read_list
from weighin.roster.queries import beside_of
from weighin.roster.services.teams import enter_teams


def import_list(
    event: Event, grid: Grid, by: str, matching: Matching | None = None, namesakes: bool = False
) -> TeamList:
    """Read a list beside the event as it is now, and enter its teams when nothing is wrong; what was read.

    Raises Faults when the event takes no teams.
    """
    with writing():
        held = lock_open_event(event)
        found = read_list(grid, beside_of(held), matching, namesakes)
        if found.rows and not found.faults:
            contacts = [ContactValues(row.phone, row.emergency, row.email) for row in found.rows]
            enter_teams(held, map(_entry, found.rows), by, contacts, namesakes)
    return found


def _entry(row: ListRow) -> EntryValues:
    return EntryValues(
        boat=row.boat,
        name=row.team,
        anglers=row.anglers,
        youth=row.youth,
        flight_name=row.flight,
        paid=row.paid,
        big_fish_pot=row.big_fish_pot,
        status=row.status,
        note=row.note,
    )
