"""An angler who takes another's place in a team."""

from dataclasses import replace

from weighin.audit.services import writing
from weighin.roster.domain.faults import ANGLER_WITHOUT_NAME, NOT_IN_THE_TEAM, SUBSTITUTE_WITHOUT_REASON
from weighin.roster.models import Entry
from weighin.roster.queries import entry_values_of
from weighin.roster.services.teams import change_entry
from weighin.rules import values
from weighin.rules.faults import Fault, Faults


def substitute(entry: Entry, position: int, name: str, reason: str, by: str) -> None:
    """Put an angler in the place of the one at ``position`` of a team; the history keeps who it was, and why.

    Raises Faults at ``position``, ``name`` and ``reason``.
    """
    with writing():
        row = entry_values_of(entry)
        why, wrong = values.reason(reason, SUBSTITUTE_WITHOUT_REASON.at("reason"))
        anglers, found = list(row.anglers), []
        if not 1 <= position <= len(anglers) or not anglers[position - 1]:
            found.append(NOT_IN_THE_TEAM.at("position"))
        if not name.strip():
            found.append(ANGLER_WITHOUT_NAME.at("name"))
        found += wrong
        if found:
            raise Faults(found)
        anglers[position - 1] = name
        try:
            change_entry(entry, replace(row, anglers=tuple(anglers)), by, why=why)
        except Faults as wrong:
            named = f"angler_{position}"
            raise Faults(
                [Fault("name", one.said, one.also) if one.field == named else one for one in wrong.faults]
            ) from None
