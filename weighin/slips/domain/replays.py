"""Whether a slip sent again is the same slip: compared after reading, so that spelling does not matter."""

from decimal import Decimal
from typing import Any

from weighin.records.domain.table import Table
from weighin.rules import weights
from weighin.slips.domain.values import AT_RELEASE, COUNTS, SPECIES, TEXTS, TIMES, SlipValues, read_largest
from weighin.slips.models import WeighSlip

PLAIN = (
    *COUNTS,
    "short",
    *SPECIES,
    *TIMES,
    *TEXTS,
    "day",
    "big_fish_alive",
    "well_boat",
    "minutes_late",
    "void",
)


def same_content(slip: WeighSlip, values: SlipValues, table: Table) -> bool:
    """Whether the kept slip says what ``values`` say; a blank and the written default are the same."""
    replaced = slip.replaces.number if slip.replaces else None
    return (slip.entry.boat, replaced) == (values.boat, values.replaces) and _read(slip, table) == _read(values, table)


def _read(slip: WeighSlip | SlipValues, table: Table) -> dict[str, Any]:
    unit = table.rules.unit

    def weight(text: str, default: Decimal | None) -> Decimal | None:
        return weights.read(text, unit) if text else default

    return {
        **{name: getattr(slip, name) for name in PLAIN},
        # A tablet may send 0 for a count that it left blank before
        **{name: getattr(slip, name) or 0 for name in AT_RELEASE},
        "gross": weight(slip.gross, None),
        "tare": weight(slip.tare, table.rules.bag_tare),
        "big_fish": weight(slip.big_fish, None),
        "extra_penalty": weight(slip.extra_penalty, Decimal(0)),
        "excused_minutes": Decimal(slip.excused_minutes or 0),
        "largest_weights": read_largest(slip.largest_weights, unit) if slip.largest_weights else (),
    }
