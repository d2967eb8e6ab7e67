"""The ledger of slips: what of a slip is chained, and the check that nothing was altered."""

from collections.abc import Iterable
from typing import Any

from weighin.audit.domain.chain import START, link
from weighin.records.domain.rows import chained
from weighin.slips.domain.fields import FIELDS
from weighin.slips.models import WeighSlip


def content(slip: WeighSlip) -> dict[str, Any]:
    """Everything of a slip that the chain protects, in plain values."""
    return chained(FIELDS, slip)


def check_figures(link: str) -> str:
    """Eight figures of a slip's link, to tell by eye that a printed slip and the ledger agree.

    They change with anything that the slip or one before it says. They are no proof: whoever wants one compares the
    whole link.

    >>> check_figures("0" * 62 + "ff")
    '0000 0255'
    """
    figures = f"{int(link, 16) % 100_000_000:08d}"
    return f"{figures[:4]} {figures[4:]}"


def breaks(slips: Iterable[WeighSlip]) -> list[str]:
    """What does not fit in an event's ledger, in words; empty when nothing was altered, removed or put between.

    ``slips`` are all of the event's in order of position, with their entries.
    """
    found = []
    before, position = START, 0
    for slip in slips:
        position += 1
        if slip.position != position:
            found.append(f"position {position} is missing: slip {slip.number} stands at {slip.position}")
            position = slip.position
        if link(before, content(slip)) != slip.link:
            found.append(
                f"slip {slip.number} (position {slip.position}) does not fit: it, or one before it, was altered"
            )
        before = slip.link
    return found
