"""The forms of a scale and of a test weight laid on it."""

import uuid
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.calendar import Calendar
from weighin.records.forms.written import Written, WrittenForm, choice, line
from weighin.scales.domain.fields import BAUDS, SCALE
from weighin.scales.domain.layouts import KEY, LAYOUTS, OWN
from weighin.scales.models import Scale, ScaleCheck

ALL_THE_TIME, WHEN_ASKED = "", "asked"
SPEAKS = [
    (ALL_THE_TIME, gettext_lazy("All the time")),
    (KEY, gettext_lazy("When its own key is pressed")),
    (WHEN_ASKED, gettext_lazy("When it is asked")),
]
YES_NO = [("yes", gettext_lazy("Yes")), ("no", gettext_lazy("No"))]


class ScaleForm(WrittenForm):
    """A scale: what its plate says, and how its indicator speaks if it is on a line."""

    name = line(
        gettext_lazy("Name"), maxlength="40", size="16", help_text=gettext_lazy("As the table calls it: Table 1.")
    )
    made_by = line(
        gettext_lazy("Maker and number"),
        maxlength="120",
        size="24",
        help_text=gettext_lazy("From its plate, for the record."),
    )
    division = line(
        gettext_lazy("Division"),
        maxlength="12",
        size="8",
        inputmode="decimal",
        help_text=gettext_lazy("The plate says it as d or e."),
    )
    new = choice(
        gettext_lazy("Tolerance"),
        [("no", gettext_lazy("Maintenance")), ("yes", gettext_lazy("Acceptance"))],
        help_text=gettext_lazy("Acceptance, half of it, while the scale is new or just repaired."),
    )
    in_use = choice(gettext_lazy("In use at this event"), YES_NO)
    stations = line(
        gettext_lazy("Stations whose slips it weighs"),
        maxlength="400",
        size="30",
        help_text=gettext_lazy("Names with commas. Needed only where the event has several scales."),
    )
    layout = Written(label=gettext_lazy("How its line reads"), widget=forms.Select())
    pattern = line(
        gettext_lazy("Its own pattern"),
        maxlength="200",
        size="40",
        help_text=gettext_lazy("Such as {state},{figures} {unit}."),
    )
    speaks = choice(gettext_lazy("It speaks"), SPEAKS)
    ask = line(
        gettext_lazy("It is asked with"),
        maxlength="10",
        size="6",
        help_text=gettext_lazy("Such as S or P; the manual says it."),
    )
    baud = Written(
        label=gettext_lazy("Bits a second"), widget=forms.Select(choices=[(str(one), str(one)) for one in BAUDS])
    )
    data_bits = choice(gettext_lazy("Data bits"), [("8", "8"), ("7", "7")])
    parity = choice(gettext_lazy("Parity"), list(Scale.Parity.choices))
    stop_bits = choice(gettext_lazy("Stop bits"), [("1", "1"), ("2", "2")])

    def __init__(self, data: Any = None, *, unit: str, scale: Scale | None = None) -> None:
        super().__init__(data, initial=_as_written(scale) if scale else {**_as_written(Scale()), "division": ""})
        words = [(name, layout.words) for name, layout in LAYOUTS.items()]
        self.fields["layout"].widget.choices = [
            ("", gettext("It is on no line: all is typed")),
            *words,
            (OWN, gettext("Its own pattern")),
        ]
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
            self.add_error("ask", gettext("Write what it is asked with, or choose another way."))
        return data


class CheckForm(WrittenForm):
    """A test weight laid on a scale, and what the scale showed."""

    key = forms.CharField(required=False, widget=forms.HiddenInput)
    moment = choice(gettext_lazy("When"), list(ScaleCheck.Moment.choices))
    test_weight = line(gettext_lazy("Test weight, as marked"), maxlength="12", size="8", inputmode="decimal")
    shown = line(gettext_lazy("The scale shows"), maxlength="12", size="8", inputmode="decimal")
    at_date = line(gettext_lazy("Tested on"), type="date")
    at_time = line(
        gettext_lazy("at"), placeholder=gettext_lazy("HH:MM"), size="9", help_text=gettext_lazy("Blank: now.")
    )
    tested_by = line(gettext_lazy("By whom"), maxlength="120", size="16")
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

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
        gettext_lazy("Why it is taken out"),
        maxlength="300",
        help_text=gettext_lazy("Stands in the record beside what the check said."),
    )


def _as_written(scale: Scale) -> dict[str, str]:
    found = {field.name: field.kind.text(getattr(scale, field.name)) for field in SCALE}
    asked = scale.ask not in ("", KEY)
    return {**found, "speaks": WHEN_ASKED if asked else scale.ask, "ask": scale.ask if asked else ""}
