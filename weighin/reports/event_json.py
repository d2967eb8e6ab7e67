"""The whole event as plain JSON values: what ``export_event`` and the public address give out."""

from dataclasses import dataclass
from typing import Any

from weighin.events.models import Event
from weighin.fishcare.queries import CareRow, care_part, care_rows
from weighin.mortality.queries import Mortality, event_mortality, mortality_part
from weighin.scale.queries import ledger_head
from weighin.standings.document import event_part, purse_part, standings_part
from weighin.standings.queries import Standings, standings_of


@dataclass(frozen=True)
class WholeEvent:
    """An event worked out once, for every export and page that needs all of it."""

    event: Event
    standings: Standings
    care: list[CareRow]
    mortality: Mortality
    ledger: tuple[int, str]


def whole_event(event: Event) -> WholeEvent:
    """Standings, fish care, mortality and ledger of an event."""
    standings = standings_of(event)
    current = [slip for found in standings.slips.values() for slip in found]
    return WholeEvent(
        event=event,
        standings=standings,
        care=care_rows(event, standings.table, current),
        mortality=event_mortality(event, standings.counting),
        ledger=ledger_head(event),
    )


def event_document(whole: WholeEvent) -> dict[str, Any]:
    """The JSON of the export contract; notes of teams are never in it."""
    length, head = whole.ledger
    return {
        "event": event_part(whole.event, length > 0),
        "standings": standings_part(whole.standings),
        "purse": purse_part(whole.standings),
        "fish_care": care_part(whole.care),
        "mortality": mortality_part(whole.mortality),
        "ledger": {"length": length, "head": head},
    }
