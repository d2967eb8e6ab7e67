"""Rows about one boat on one day of an event."""

from typing import Any, ClassVar, TypeVar

from django.db.models import Model, QuerySet

from weighin.records.domain.faults import OF_ANOTHER_BOAT_OR_DAY
from weighin.records.domain.messages import Draft, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.record_type import RecordType, Scope
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Fault

Row = TypeVar("Row", bound=Model)


class BoatRecord(RecordType[Row]):
    """A row of a boat: written with the boat's number, kept with its entry."""

    scope: ClassVar[Scope] = EVENT

    def rows(self) -> QuerySet[Row]:
        return self.model._default_manager.select_related("entry")

    def check_correction(self, reader: Reader, old: Any, draft: Draft, asked: bool) -> list[Fault]:
        found = super().check_correction(reader, old, draft, asked)
        if (reader["boat"], reader["day"]) != (old.entry.boat, old.day):
            whose = {"noun": self.noun, "number": self.named(old), "boat": old.entry.boat, "day": old.day}
            found.append(OF_ANOTHER_BOAT_OR_DAY.at("replaces", **whose))
        return found

    def attributes(self, values: Values, context: EventContext) -> Values:
        others = {name: value for name, value in values.items() if name != "boat"}
        return {**others, "event": context.event, "entry": context.entries[values["boat"]]}
