"""How a lateness may be written: by the clock less what is excused, or in whole minutes."""

from decimal import Decimal
from typing import Any

from weighin.checkin.domain import faults
from weighin.rules.faults import FieldName


def check_lateness(reader: Any) -> None:
    """Whole minutes late stand alone: no clock beside them, and no excuse, which is left out of them."""
    if reader["checked_in"] is not None and reader["minutes_late"] is not None:
        one, other = FieldName("checked_in"), FieldName("minutes_late")
        reader.fault("minutes_late", faults.BOTH_GIVEN, "checked_in", one=one, other=other)
    if reader["minutes_late"] is not None and Decimal(reader["excused_minutes"] or 0):
        named = {"excused": "excused_minutes", "late": "minutes_late", "time": "checked_in"}
        params = {name: FieldName(field) for name, field in named.items()}
        reader.fault("excused_minutes", faults.EXCUSE_BESIDE_MINUTES, "minutes_late", **params)
