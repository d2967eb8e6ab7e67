"""Rows about an event that may be changed later, each change with its history."""

from typing import Any, ClassVar, TypeVar

from django.db.models import Model
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT

Row = TypeVar("Row", bound=Model)


class EventRow(RecordType[Row]):
    """A row that is changed in place and taken out with a reason; ``act`` begins the names of its history."""

    act: ClassVar[str]
    scope: ClassVar[Scope] = EVENT
    edited = True
    numbered = False

    def history(self, row: Any, old: Row | None, done: str) -> Noted:
        said = {"what": capfirst(self.noun), "row": row}
        if done == "changed":
            return Noted(f"{self.act}.changed", _("%(what)s changed: %(row)s") % said)
        if done == "taken_out":
            return Noted(f"{self.act}.taken_out", _("%(what)s voided: %(row)s") % said)
        return Noted(f"{self.act}.written", _("%(what)s written: %(row)s") % said)
