"""Write an empty list of teams: headings, choices, notes and one example, which an import leaves out."""

import io
from typing import Any

from django.utils.translation import gettext
from openpyxl import Workbook
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

from weighin.events.models import Event
from weighin.events.queries.events import flight_names
from weighin.reports.domain.sheet import is_risky
from weighin.reports.sheets.teams import list_fields
from weighin.roster.domain.team_list import MOST_ROWS
from weighin.roster.parsing.team_lists.headings import HEADS
from weighin.rules.results import ROSTER_STATUSES

EXAMPLE = {
    "boat": 7, "team": "Alder & Birch", "angler_1": "Ann Alder", "angler_2": "Bob Birch", "phone": "555-0100",
    "emergency": "Kay Alder, 555-0101", "email": "ann@example.org", "paid": "yes", "big_fish_pot": "no", "status": "entered",
}  # fmt: skip
HEADINGS_AT = 3
LONGEST_LIST = 255  # a spreadsheet takes no longer list of choices


def write_template(event: Event) -> bytes:
    """The workbook. What stands above the headings, the example too, is left out when it is brought in."""
    book = Workbook()
    page: Any = book.active
    page.title = gettext("Teams")
    fields = list_fields(contacts=True)
    page.append([gettext("Write a team in each row under the headings. The row below is an example and is left out.")])
    page.append([EXAMPLE.get(field, "") for field in fields])
    page.append([HEADS[field] for field in fields])
    notes, choices = _notes(), _choices(event)
    for position, field in enumerate(fields, start=1):
        letter = get_column_letter(position)
        page.cell(HEADINGS_AT, position).font = Font(bold=True)
        page.cell(HEADINGS_AT - 1, position).font = Font(italic=True)
        page.column_dimensions[letter].width = 24 if field in ("team", "emergency", "email", "note") else 14
        of_field = DataValidation(
            allow_blank=True, showInputMessage=True, promptTitle=HEADS[field], prompt=notes[field]
        )
        listed = ",".join(choices.get(field, ()))
        if listed and len(listed) <= LONGEST_LIST:
            of_field.type, of_field.formula1 = "list", f'"{listed}"'
        of_field.add(f"{letter}{HEADINGS_AT + 1}:{letter}{HEADINGS_AT + MOST_ROWS}")
        page.add_data_validation(of_field)
    page.freeze_panes = f"A{HEADINGS_AT + 1}"
    told = book.create_sheet(gettext("Notes"))
    for field in fields:
        told.append([HEADS[field], notes[field]])
    told.column_dimensions["B"].width = 90
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _choices(event: Event) -> dict[str, tuple[str, ...]]:
    flights = tuple(name for name in flight_names(event) if "," not in name and '"' not in name and not is_risky(name))
    yes_no = ("yes", "no")
    return {
        "paid": yes_no,
        "big_fish_pot": yes_no,
        "youth": yes_no,
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
        "note": gettext("For the club's members only."),
    }
