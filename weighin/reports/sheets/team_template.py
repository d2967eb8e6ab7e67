"""An empty list of teams: headings, choices, notes and one example, which an import leaves out."""

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import flight_names
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value, is_risky
from weighin.reports.domain.workbook_columns import YES_NO
from weighin.reports.sheets.teams import list_fields
from weighin.roster.parsing.team_lists.headings import HEADS
from weighin.rules.results import ROSTER_STATUSES

EXAMPLE: dict[str, Value] = {
    "boat": 7, "team": "Alder & Birch", "angler_1": "Ann Alder", "angler_2": "Bob Birch", "phone": "555-0100",
    "emergency": "Kay Alder, 555-0101", "email": "ann@example.org", "paid": "yes", "big_fish_pot": "no", "status": "entered",
}  # fmt: skip


def template_sheets(event: Event) -> list[Sheet]:
    """The list and its notes. What stands above the headings, the example too, is left out when it is brought in."""
    fields, notes, choices = list_fields(contacts=True), _notes(), _choices(event)
    columns = [SheetColumn(HEADS[field], choices=choices.get(field, ()), prompt=notes[field]) for field in fields]
    said = gettext("Write a team in each row under the headings. The row below is an example and is left out.")
    example: list[Value] = [EXAMPLE.get(field, "") for field in fields]
    return [
        Sheet(gettext("Teams"), columns, [], above=[[said], example]),
        Sheet(
            gettext("Notes"),
            [SheetColumn(gettext("Column")), SheetColumn(gettext("Note"))],
            [(HEADS[field], notes[field]) for field in fields],
        ),
    ]


def _choices(event: Event) -> dict[str, tuple[str, ...]]:
    flights = tuple(name for name in flight_names(event) if "," not in name and '"' not in name and not is_risky(name))
    return {
        "paid": YES_NO,
        "big_fish_pot": YES_NO,
        "youth": YES_NO,
        "status": tuple(ROSTER_STATUSES),
        "flight": flights,
    }


def _notes() -> dict[str, str]:
    return {
        "boat": gettext("A whole number. Blank: the team waits for its number."),
        "team": gettext("As it stands on results. Blank: it is made of the anglers' last names."),
        "angler_1": gettext("The whole name. A team has at least one angler."),
        "angler_2": gettext("The whole name."),
        "angler_3": gettext("The whole name."),
        "phone": gettext("Never published."),
        "emergency": gettext("Whom to call when the boat is missing. Never published."),
        "email": gettext("Never published."),
        "paid": gettext("yes, no, or the amount of the entry fee. Blank: not paid."),
        "big_fish_pot": gettext("yes, no, or the amount of the big fish pot. Blank: not in it."),
        "flight": gettext("A flight of the event, as it is called there."),
        "youth": gettext("yes or no. Blank: not recorded."),
        "status": gettext("Blank: entered."),
        "note": gettext("For the club’s members only."),
    }
