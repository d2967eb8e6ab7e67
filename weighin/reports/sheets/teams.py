"""The teams of an event: the list that can be brought in again, and the sheet to sign in on."""

from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.rehearsal_mark import marked
from weighin.events.models import Event
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value
from weighin.reports.domain.workbook_columns import YES_NO
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.team_list import CONTACTS, FIELDS
from weighin.roster.models import Entry
from weighin.roster.parsing.team_lists.headings import HEADS
from weighin.roster.queries import contacts_of, entries_of

ANGLERS = ("angler_1", "angler_2", "angler_3")
OF_ENTRY = {"boat": "boat", "team": "name", "flight": "flight_name"}


def list_fields(contacts: bool) -> list[str]:
    """The columns of a list of teams, with or without how they are reached."""
    return [field for field in FIELDS if field != "anglers" and (contacts or field not in CONTACTS)]


def teams_sheet(event: Event, contacts: bool = False) -> Sheet:
    """The list of teams under the headings that an import knows; how they are reached only with ``contacts``."""
    fields = list_fields(contacts)
    reached = contacts_of(event) if contacts else {}
    rows = [_row(entry, fields, reached.get(entry.pk, ContactValues())) for entry in _by_boat(event)]
    return Sheet(
        _titled(event, gettext("Teams")), [SheetColumn(HEADS[field], field == "boat") for field in fields], rows
    )


def sign_in_sheet(event: Event) -> Sheet:
    """Who signs in on the morning of the event: boats with room for what is seen and for a signature."""
    columns = [
        SheetColumn(gettext_lazy("Boat"), True),
        SheetColumn(gettext_lazy("Team"), width=2),
        SheetColumn(gettext_lazy("Anglers"), width=3),
        SheetColumn(gettext_lazy("Flight")),
        SheetColumn(gettext_lazy("Entry fee paid"), choices=YES_NO),
        SheetColumn(gettext_lazy("Life jackets and kill switch seen"), width=2, choices=YES_NO),
        SheetColumn(gettext_lazy("No fish aboard"), width=2, choices=YES_NO),
        SheetColumn(gettext_lazy("Signature"), width=3),
    ]
    rows: list[list[Value]] = [
        [
            entry.boat,
            entry.name,
            ", ".join(angler.name for angler in entry.anglers.all()),
            entry.flight_name,
            entry.paid,
            *("", "", ""),
        ]
        for entry in _by_boat(event)
        if entry.status == Entry.Status.ENTERED
    ]
    return Sheet(_titled(event, gettext("Sign-in sheet")), columns, rows)


def _titled(event: Event, title: str) -> str:
    return title if event.rehearsal_of_id is None else marked(title)


def _by_boat(event: Event) -> list[Entry]:
    """Every entry with its anglers, those without a boat number last."""
    return sorted(entries_of(event), key=lambda entry: (entry.waits, entry.boat or 0, entry.number))


def _row(entry: Entry, fields: list[str], reached: ContactValues) -> list[Value]:
    anglers = {f"angler_{angler.position}": angler.name for angler in entry.anglers.all()}
    values = {**dict.fromkeys(ANGLERS, ""), **anglers, **vars(reached)}
    return [values[field] if field in values else getattr(entry, OF_ENTRY.get(field, field)) for field in fields]
