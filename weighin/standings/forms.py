"""Forms of the results page, and of protests."""

import uuid
from collections.abc import Sequence
from functools import cached_property
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy

from weighin.records.domain.fields import Field
from weighin.records.forms.declared import DeclaredForm, form_field
from weighin.records.forms.written import Written, moment
from weighin.standings.domain.fields import PROTEST, PROTEST_TIME, RULING
from weighin.standings.domain.kinds import NearNow
from weighin.ui.forms.fields import ClockField
from weighin.ui.forms.service import ServiceForm


@form_field.register
def _near_now(kind: NearNow, field: Field) -> Written:
    return moment(field.label, help_text=field.help)


class ReopenForm(ServiceForm):
    """Open a closed event again."""

    reopen_reason = forms.CharField(
        required=False,
        max_length=500,
        label=gettext_lazy("Why it is reopened"),
        help_text=gettext_lazy("Goes into the history."),
    )


class EmbargoForm(ServiceForm):
    """From when on places are held back from the crowd."""

    since = ClockField(
        required=False,
        label=gettext_lazy("From (today, as 2:00 PM)"),
        help_text=gettext_lazy("Blank: from now on."),
        error_messages={"invalid": gettext_lazy("This is not a time. Write it as 2:00 PM.")},
    )


class RowForm(DeclaredForm):
    """A form of a row that is only added; a correction of one asks why. It makes the id of what it sends, so that a
    second press keeps nothing twice."""

    key = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, data: Any = None, *, said: dict[str, str] | None = None, **initial: Any):
        super().__init__(data, initial={"key": str(uuid.uuid4()), **initial, **(said or {}), "reason": ""})
        if said is None:
            del self.fields["reason"]

    @cached_property
    def sender_key(self) -> uuid.UUID:
        """The id that this form made; a new one where it was tampered with."""
        try:
            return uuid.UUID(self.cleaned_data["key"])
        except ValueError:
            return uuid.uuid4()

    def texts(self, data: dict[str, Any]) -> dict[str, str]:
        """What the reader reads."""
        return {field.name: str(data.get(field.name) or "") for field in self.declared if field.label}


class ProtestForm(RowForm):
    """A protest handed in, or a correction of one."""

    declared: ClassVar[Sequence[Field]] = PROTEST


class RulingForm(RowForm):
    """What was ruled, or a correction of that."""

    declared: ClassVar[Sequence[Field]] = RULING


class ProtestTimeForm(DeclaredForm):
    """For how long protests are taken."""

    declared: ClassVar[Sequence[Field]] = PROTEST_TIME
