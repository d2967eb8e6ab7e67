"""Read the fields of a row, and collect what is wrong."""

from collections.abc import Callable, Mapping
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.table import Table
from weighin.records.domain.faults import MISSING, NO_BOAT_HERE, NO_DAY_HERE
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, FieldName, Wrong


class Reader:
    """Reads fields by name and collects what is wrong."""

    def __init__(self, written: Mapping[str, str | None]):
        self.written = {name: (text or "").strip() for name, text in written.items()}
        self.faults: list[Fault] = []

    def value(self, name: str, read: Callable[[str], Any], default: Any = None) -> Any:
        text = self.written.get(name, "")
        if not text:
            return default
        try:
            return read(text)
        except Wrong as error:
            self.faults.append(error.at(name))
            return default

    def required(self, name: str, read: Callable[[str], Any], default: Any) -> Any:
        if not self.written.get(name):
            self.faults.append(MISSING.at(name, field=FieldName(name)))
        return self.value(name, read, default)

    def checked(self, name: str, read: Callable[[str], Any]) -> str:
        """The text as written, once ``read`` accepts it."""
        self.value(name, read)
        return self.written.get(name, "")

    def figure(self, name: str, most: int = 100_000, required: bool = False) -> str:
        """A measured figure as written, zero to ``most``."""
        if required and not self.written.get(name):
            self.faults.append(MISSING.at(name, field=FieldName(name)))
        return self.checked(name, lambda text: values.decimal(text, least=0, most=most))

    def day(self, calendar: Calendar) -> int:
        day: int = self.required("day", lambda text: values.whole(text, least=1, most=1000), 0)
        if day and day not in calendar.days:
            self.faults.append(NO_DAY_HERE.at("day", day=day))
        return day

    def boat(self, table: Table) -> int:
        boat: int = self.required("boat", lambda text: values.whole(text, least=1, most=2_000_000_000), 0)
        if boat and boat not in table.boats:
            self.faults.append(NO_BOAT_HERE.at("boat", boat=boat))
        return boat

    def finish(self) -> None:
        if self.faults:
            raise Faults(self.faults)
