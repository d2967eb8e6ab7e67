"""What the desk shows: the team that was kept just now, and what is known of one that is being typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.registration.domain.words import called
from weighin.registration.forms.desk import TeamAtDeskForm
from weighin.registration.parsing.desk import ANGLERS, BETWEEN, at_desk, typed_team
from weighin.registration.queries.earlier import EarlierTeam, earlier_anglers, earlier_teams
from weighin.registration.queries.till import rows_that_count
from weighin.roster.models import Entry
from weighin.roster.parsing.team_lists import cells
from weighin.roster.queries import looks_of_teams
from weighin.roster.services.teams import team_faults
from weighin.roster.tables import address_of
from weighin.rules.faults import Fault, Faults
from weighin.ui.forms.service import sentence


@dataclass(frozen=True)
class KeptTeam:
    """The team that was entered just now, what was taken of it, and where it is corrected."""

    team: str
    taken: Decimal
    address: str


def kept_said(event: Event, entry: Entry) -> KeptTeam:
    """What is said of a team once it is kept."""
    taken = sum((row.amount for row in rows_that_count(event, [entry.pk])), Decimal(0))
    entry.event = event
    return KeptTeam(called(entry), taken, address_of(entry))


def filled(known: EarlierTeam) -> dict[str, str]:
    """The lines of the form as the team was entered last."""
    return {
        "name": known.name,
        ANGLERS: BETWEEN.join(known.anglers),
        "phone": known.contact.phone,
        "emergency": known.contact.emergency,
    }


def filled_from(known: EarlierTeam, typed: Mapping[str, Any]) -> Any:
    """What was sent, with what is known in the lines that are blank."""
    data: Any = typed.copy()  # type: ignore[attr-defined]
    for name, text in filled(known).items():
        if not data.get(name, "").strip():
            data[name] = text
    return data


def looked_at(event: Event, form: TeamAtDeskForm, at: str) -> dict[str, Any]:
    """The faults of the lines that are written so far, the name that a blank one will get, and what the line ``at``
    which the hand is may go on with."""
    texts = form.texts
    found: dict[str, Any] = {"faults": {}, "made": "", "teams": [], "anglers": []}
    try:
        row, contact = typed_team(texts, looks_of_teams(event))
        faults = team_faults(event, row, contact)
        found["made"] = "" if texts["name"].strip() else row.name
    except Faults as wrong:
        faults = list(wrong.faults)
    for fault in map(at_desk, faults):
        if _is_written(fault, texts):
            found["faults"].setdefault(fault.field, sentence(fault.message))
    if at == "name":
        found["teams"] = [{**filled(one), "says": _says(one)} for one in earlier_teams(event, texts["name"])]
    elif at == ANGLERS:
        last = cells.last_of_several(texts[ANGLERS])
        found["anglers"] = [name for name in earlier_anglers(event, last) if len(last) > 1 and name != last]
    return found


def _is_written(fault: Fault, texts: Mapping[str, str]) -> bool:
    """Whether a fault is of something written: who types has not come to the blank lines yet."""
    if fault.field == "name" and not texts["name"].strip():
        return False  # a made name is looked at with the anglers of whom it is made
    return bool(texts.get(fault.field, "").strip())


def _says(known: EarlierTeam) -> str:
    said = {"anglers": BETWEEN.join(known.anglers), "event": known.event.name, "season": known.event.season.name}
    if not known.anglers:
        return gettext("%(event)s, %(season)s") % said
    return gettext("%(anglers)s; %(event)s, %(season)s") % said
