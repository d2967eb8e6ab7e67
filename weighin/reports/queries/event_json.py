"""The whole event as plain JSON values: what ``export_event`` and the public address give out."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from weighin.care.queries.care import CareRow, care_part, care_rows
from weighin.events.models import Event
from weighin.mortality.queries.event import Mortality, event_mortality, mortality_part
from weighin.slips.queries.slips import ledger_head
from weighin.standings.queries.document import event_part, purse_part, standings_part
from weighin.standings.queries.standings import Standings, standings_of


@dataclass(frozen=True)
class WholeEvent:
    """An event worked out once, for every export and page that needs all of it."""

    event: Event
    standings: Standings
    care: list[CareRow]
    mortality: Mortality
    ledger: tuple[int, str]


def whole_event(event: Event, as_of: datetime | None = None, standings: Standings | None = None) -> WholeEvent:
    """Standings, fish care, mortality and ledger of an event; with ``as_of`` by the slips that were current then."""
    standings = standings or standings_of(event, as_of)
    current = standings.current
    care = care_rows(event, standings.table, current)
    if as_of is not None:
        # A note of a boat whose slip is held back would say that it was weighed
        care = [row for row in care if row.slip is not None]
    return WholeEvent(
        event=event,
        standings=standings,
        care=care,
        mortality=event_mortality(event, current, as_of),
        ledger=ledger_head(event, as_of),
    )


def event_document(whole: WholeEvent) -> dict[str, Any]:
    """The JSON of the export contract; notes of teams are never in it."""
    length, head = whole.ledger
    return {
        "event": event_part(whole.event, length > 0),
        "standings": standings_part(whole.standings.outcome),
        "purse": purse_part(whole.standings.outcome),
        "fish_care": care_part(whole.care),
        "mortality": mortality_part(whole.mortality),
        "ledger": {"length": length, "head": head},
    }
