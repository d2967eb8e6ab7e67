"""Whether the slips that count can still be scored when the boats' due times have moved."""

from typing import Any

from weighin.events.models import Event
from weighin.roster.queries import reading_table
from weighin.rules import scoring
from weighin.rules.faults import Faults
from weighin.slips.domain.faults import NOT_SCORED_ANY_MORE
from weighin.slips.domain.values import rules_slip
from weighin.slips.queries.slips import current_slips


def refuse_unsound(sender: type[Event], event: Event, **more: Any) -> None:
    """Refuse due times by which a slip could not be scored. Raises Faults naming each such slip.

    A day lost for lateness asks for no largest weights. When the boat is due later, the day may count again, and what
    the rules take from it was never written down: that slip is corrected first.
    """
    found = current_slips(event)
    if not found:
        return
    table = reading_table(event)  # as of boats without a check-in, as every slip was read
    faults = []
    for slip in found:
        for wrong in scoring.faults(table.rules, rules_slip(slip, table)):
            faults.append(
                NOT_SCORED_ANY_MORE.at("", slip=slip.number, boat=slip.entry.boat, day=slip.day, wrong=wrong.said)
            )
    if faults:
        raise Faults(faults)
