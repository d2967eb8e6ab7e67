"""The forms of a scale and of a test weight laid on it."""

import uuid
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.calendar import Calendar
from weighin.records.forms.declared import DeclaredForm
from weighin.records.forms.written import WrittenForm, choice, line
from weighin.scales.domain.fields import CHECK, SCALE
from weighin.scales.domain.layouts import KEY
from weighin.scales.models import Scale
from weighin.scales.services.scales import SCALE_RECORD

ALL_THE_TIME, WHEN_ASKED = "", "asked"
SPEAKS = [
    (ALL_THE_TIME, gettext_lazy("All the time")),
    (KEY, gettext_lazy("When its own key is pressed")),
    (WHEN_ASKED, gettext_lazy("When it is asked")),
]


class ScaleForm(DeclaredForm):
    """A scale: what its plate says, and how its indicator speaks if it is on a line."""

    declared = SCALE

    speaks = choice(gettext_lazy("It sends"), SPEAKS)

    def __init__(self, data: Any = None, *, unit: str, scale: Scale | None = None) -> None:
        said = SCALE_RECORD.texts(scale or Scale())
        asked = said["ask"] not in (ALL_THE_TIME, KEY)
        speaks, ask = (WHEN_ASKED, said["ask"]) if asked else (said["ask"], "")
        super().__init__(data, initial={**said, "speaks": speaks, "ask": ask})
        blank = {"layout": [("", gettext("Not connected: weights are typed"))], "baud": []}
        for name, first in blank.items():
            field: Any = self.fields[name]
            field.widget = forms.Select(choices=[*first, *field.widget.choices])
        self.fields["division"].unit = unit  # type: ignore[attr-defined]

    def written(self, data: dict[str, Any]) -> dict[str, str]:
        """What the reader reads."""
        found = {field.name: str(data.get(field.name, "")) for field in SCALE}
        if data.get("speaks") != WHEN_ASKED:
            found["ask"] = str(data.get("speaks", ""))
        return found

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if data.get("speaks") == WHEN_ASKED and not str(data.get("ask", "")).strip():
            self.add_error("ask", gettext("Write the command that asks for a weight, or choose another way."))
        return data


class CheckForm(DeclaredForm):
    """A test weight laid on a scale, and what the scale showed."""

    declared = CHECK

    key = forms.CharField(required=False, widget=forms.HiddenInput)
    at_date = line(gettext_lazy("Tested on"), type="date")
    at_time = line(
        gettext_lazy("at"), placeholder=gettext_lazy("3:05 PM"), size="9", help_text=gettext_lazy("Blank: now.")
    )

    def __init__(self, data: Any = None, *, scale: Scale, calendar: Calendar, by: str, moment: str = "") -> None:
        today = timezone.now().astimezone(calendar.zone).date().isoformat()
        first = {"key": str(uuid.uuid4()), "moment": moment, "at_date": today, "tested_by": by}
        super().__init__(data, initial=first)
        for name in ("test_weight", "shown"):
            self.fields[name].unit = scale.unit  # type: ignore[attr-defined]

    @property
    def sender_key(self) -> uuid.UUID:
        """The id this form gave its row; a new one where it was tampered with."""
        try:
            return uuid.UUID(self.cleaned_data["key"])
        except ValueError:
            return uuid.uuid4()


class TakeOutForm(WrittenForm):
    """Why a check is taken out."""

    reason = line(
        gettext_lazy("Why it is voided"),
        maxlength="300",
        help_text=gettext_lazy("Stays in the record beside what the check said."),
    )
