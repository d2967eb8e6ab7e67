"""The teams of an event as a file: the list to bring in again, the sheet to sign in on, and a workbook to begin with."""

from weighin.events.models import Event
from weighin.reports.sheets.team_template import template_sheets
from weighin.reports.sheets.teams import sign_in_sheet, teams_sheet
from weighin.reports.writers.csv_file import write_csv
from weighin.reports.writers.xlsx_file import write_xlsx

FORMS = ("csv", "xlsx")


def teams_file(event: Event, form: str, contacts: bool = False) -> bytes:
    """The list as ``csv``, or as ``xlsx`` with the sign-in sheet behind it."""
    teams = teams_sheet(event, contacts)
    return write_csv(teams) if form == "csv" else write_xlsx([teams, sign_in_sheet(event)])


def sign_in_file(event: Event, form: str) -> bytes:
    """The sheet to sign in on as ``csv`` or ``xlsx``."""
    sheet = sign_in_sheet(event)
    return write_csv(sheet) if form == "csv" else write_xlsx([sheet])


def template_file(event: Event) -> bytes:
    """An empty list of teams as ``xlsx``, with choices and notes."""
    return write_xlsx(template_sheets(event))
