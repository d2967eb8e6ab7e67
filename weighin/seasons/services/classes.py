"""Say at which of its events a team is in a class."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.services import writing
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.models import Entry
from weighin.roster.services.event_rows import EventRow
from weighin.seasons.domain.class_fields import CLASS_MARK
from weighin.seasons.models import ClassMark


class ClassMarkRecord(EventRow[ClassMark]):
    """That a team is in a class; it changes no result of the event, and may be said of one that is closed."""

    model = ClassMark
    noun = gettext_lazy("class mark")
    act = "class"
    fields = CLASS_MARK
    key = ""
    says_why = False
    after_closing = True

    def unchanged(self, reader: Reader, context: Any) -> ClassMark | None:
        return ClassMark.objects.filter(entry=reader["entry"], name=reader["name"]).first()

    def history(self, row: ClassMark, old: ClassMark | None, done: str) -> Noted:
        said = {"team": row.entry.name, "of": row.get_name_display()}
        if done == "taken_out":
            return Noted("class.left", _("%(team)s is not in the class %(of)s") % said, str(row))
        return Noted("class.joined", _("%(team)s is in the class %(of)s") % said, str(row))


CLASS_MARKS = ClassMarkRecord()


def keep_classes(entries: Iterable[Entry], wanted: Mapping[str, Iterable[int]], by: str) -> None:
    """Put a team into classes at the events of these of its ``entries``, by class and key, and at no others."""
    with writing():
        for entry in entries:
            there = {mark.name: mark for mark in ClassMark.objects.filter(entry=entry)}
            for name in ClassMark.Name.values:
                asked = entry.pk in set(wanted.get(name, ()))
                if asked and name not in there:
                    draft = Draft({"entry": named_in_forms(entry), "name": name})
                    write(CLASS_MARKS, entry.event_id, draft, Sender(by, asked=True)).kept()
                elif not asked and name in there:
                    draft = Draft({}, replaces=there[name].pk, void=True)
                    write(CLASS_MARKS, entry.event_id, draft, Sender(by, asked=True)).kept()
