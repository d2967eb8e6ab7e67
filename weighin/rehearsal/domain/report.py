"""What a rehearsal comes to, in figures. Pure."""

from collections.abc import Sequence
from math import ceil
from typing import Any

from weighin.line.domain.day import Way, in_line

PLACES = 2  # of minutes; of shares two more


def report_of(ways: Sequence[Way], slips: int, limit_min: float, faults: Sequence[str]) -> dict[str, Any]:
    """The report as it is written: boats, slips kept, minutes in the bag, the share of boats over the limit, the most boats
    checked in and not yet weighed at once, and what was lost. Percentiles are nearest ranks; without a boat all is 0."""
    minutes = sorted(way.in_bag for way in ways)
    return {
        "boats": len(ways),
        "slips": slips,
        "minutes_in_bag": {"p50": _rank(minutes, 50), "p90": _rank(minutes, 90), "max": _rank(minutes, 100)},
        "over_minutes_share": round(sum(one > limit_min + 1e-9 for one in minutes) / max(1, len(minutes)), PLACES + 2),
        "longest_line": max((long for _, long in in_line(ways)), default=0),
        "faults": list(faults),
    }


def _rank(ordered: Sequence[float], percent: int) -> float:
    return round(ordered[max(0, ceil(percent / 100 * len(ordered)) - 1)], PLACES) if ordered else 0.0
