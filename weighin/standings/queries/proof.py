"""What of a result is printed, read out and sent, so that nobody can alter it afterwards without being found out."""

from dataclasses import dataclass

from weighin.audit.domain.reading_out import read_out
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.slips.queries.slips import ledger_head
from weighin.standings.models import OfficialResult
from weighin.standings.queries.seals import RESULT


@dataclass(frozen=True)
class Proof:
    """How many slips, and how many lines of history, and the figures in which each ends; no line in older results."""

    slips: int
    slip_figures: str
    lines: int = 0
    line_figures: str = ""


def proof_of(result: OfficialResult) -> Proof:
    """The proof of an official version, as it stood when it was published."""
    lines = HistoryEntry.objects.filter(event_id=result.event_id, act="result.published", position__isnull=False)
    line = next((one for one in lines if f"{RESULT}{result.version}" in (one.bound or {})), None)
    slips = result.ledger_length, read_out(result.ledger_head)
    return Proof(*slips, line.position or 0, read_out(line.link)) if line else Proof(*slips)


def proof_now(event: Event) -> Proof:
    """The proof of the slips as they are."""
    length, head = ledger_head(event)
    return Proof(length, read_out(head))
