"""Read the fields of what is written about a boat, and collect what is wrong."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from weighin.records.domain.table import Table
from weighin.rules import values
from weighin.rules.faults import Fault

MOST_FISH = 1000
MOST_SIGNS = 500


def boat_and_day(written: Mapping[str, str | None]) -> tuple[int, int] | None:
    """The boat and day a slip or note is written for, as far as both can be read."""
    try:
        boat, day = (values.whole(written.get(name) or "", most=2_000_000_000) for name in ("boat", "day"))
    except ValueError:
        return None
    return boat, day


class FieldReader:
    """Reads fields by name and collects what is wrong; what slips and check-ins have in common."""

    def __init__(self, written: Mapping[str, str | None], table: Table, current: bool = True):
        self.written = {name: (text or "").strip() for name, text in written.items()}
        self.table = table
        self.current = current
        self.faults: list[Fault] = []

    def value(self, name: str, read: Callable[[str], Any], default: Any = None) -> Any:
        text = self.written.get(name, "")
        if not text:
            return default
        try:
            return read(text)
        except ValueError as error:
            self.fault(name, str(error))
            return default

    def boat(self, name: str, required: bool = False) -> int | None:
        boat: int | None = self.value(name, lambda text: values.whole(text, least=1, most=2_000_000_000))
        if boat is not None and boat not in self.table.boats:
            self.fault(name, f"there is no boat {boat} in this event: correct the number or enter the team first")
        if required and not self.written.get(name):
            self.fault(name, "the boat is missing: write its number")
        return boat

    def day(self) -> int | None:
        days = self.table.calendar.days
        day: int | None = self.value("day", lambda text: values.whole(text, least=1, most=1000))
        if not self.written.get("day"):
            self.fault("day", "the day is missing: write its number, such as 1")
        elif day is not None and day not in days:
            self.fault("day", f"there is no day {day} in this event: it has {_days(len(days))}")
            return None
        elif day is not None and days[day].cancelled and self.current:
            self.fault("day", f"day {day} was cancelled: it has no slips")
        return day

    def no_excuse_beside_minutes(self, minutes_late: int | None, excused: str) -> None:
        """Whole minutes late take no excuse: what is excused is left out of them, or the clock is written instead."""
        if minutes_late is not None and Decimal(excused or 0):
            said = "excused_minutes stand beside minutes_late, which take no excuse: write the minutes less the excuse, or checked_in"
            self.fault("excused_minutes", said, "minutes_late")

    def fault(self, name: str, message: str, *also: str) -> None:
        self.faults.append(Fault(name, message, also))


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"
