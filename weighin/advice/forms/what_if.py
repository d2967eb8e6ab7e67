"""What is asked of a season: another rule sheet, another plan, of all its events or of one. Blank means as it was."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.advice.domain.other_sheet import MOST_MINUTES, RULES, WEIGHTS, OtherSheet
from weighin.events.domain import temperatures
from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.rules import values
from weighin.rules.faults import Faults
from weighin.rules.sheet.keys import BY_NAME

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

HELP = {
    "dead_fish_penalty": gettext_lazy("Such as 0.5, or a list for the 1st, 2nd, ...: 0, 0.25"),
    "late_disqualify_after_minutes": gettext_lazy("Minutes past the due time; none = never"),
    "due_minutes": gettext_lazy("Minutes; 15 = a quarter of an hour later, -15 = earlier"),
    "lake": gettext_lazy("A cooler date, or an earlier start: what the lake would be, such as 72 °F"),
    "fewer": gettext_lazy("Fish a boat may bring to the scales in a day"),
}


class WhatIfForm(forms.Form):
    """Bound to the address's words. ``sheet`` holds the changed rules (None: none changed), ``asked`` the events meant."""

    use_required_attribute = False

    def __init__(self, given: Mapping[str, str], events: Sequence[Event]):
        super().__init__(given)
        self.events = events
        self.sheet: OtherSheet | None = None
        choices = [("", gettext("Every event of the season")), *((event.slug, event.name) for event in events)]
        self.fields["event"] = forms.ChoiceField(
            label=gettext("Of"),
            choices=choices,
            required=False,
            error_messages={"invalid_choice": gettext("Choose an event of this season.")},
        )
        for name in RULES:
            self.fields[name] = _line(BY_NAME[name].label, HELP.get(name, ""))
        self.fields["due_minutes"] = _line(gettext("Due later by"), HELP["due_minutes"])
        self.fields["lake"] = _line(gettext("The lake at"), HELP["lake"])
        self.fields["fewer"] = _line(gettext("No more fish than"), HELP["fewer"])

    @property
    def rule_fields(self) -> list[Any]:
        return [self[name] for name in (*RULES, "due_minutes")]

    @property
    def plan_fields(self) -> list[Any]:
        return [self[name] for name in ("lake", "fewer")]

    @property
    def unit(self) -> str:
        """The unit that weights are written in; blank where events in pounds and in kilograms are meant."""
        units = {event.weight_unit for event in self.asked}
        if len(units) == 1:
            return units.pop()
        return "" if "kg" in units or not units else "lb"

    @property
    def has_plan(self) -> bool:
        return self.cleaned_data.get("lake") is not None or self.cleaned_data.get("fewer") is not None

    @property
    def asked(self) -> list[Event]:
        """The events meant: the one chosen, or all of them."""
        slug = getattr(self, "cleaned_data", {}).get("event")
        return [event for event in self.events if event.slug == slug] if slug else list(self.events)

    def clean_due_minutes(self) -> int:
        text = self.cleaned_data["due_minutes"]
        if not text:
            return 0
        try:
            minutes = values.decimal(text, least=-MOST_MINUTES, most=MOST_MINUTES)
        except ValueError as error:
            raise forms.ValidationError(_said(error)) from None
        if minutes != int(minutes):
            raise forms.ValidationError(gettext("Write whole minutes."))
        return int(minutes)

    def clean_lake(self) -> float | None:
        text = self.cleaned_data["lake"]
        if not text:
            return None
        try:
            return float(temperatures.water(text).fahrenheit)
        except ValueError as error:
            raise forms.ValidationError(_said(error)) from None

    def clean_fewer(self) -> int | None:
        text = self.cleaned_data["fewer"]
        if not text:
            return None
        try:
            return values.whole(text, least=1, most=1000)
        except ValueError as error:
            raise forms.ValidationError(_said(error)) from None

    def clean(self) -> None:
        changes = {name: self.cleaned_data[name] for name in RULES if self.cleaned_data.get(name)}
        due = self.cleaned_data.get("due_minutes", 0)
        if self.errors or not (changes or due) or not self.events:
            return
        for name in WEIGHTS:
            if not self.unit and name in changes:
                self.add_error(
                    name, gettext("The season’s events weigh in pounds and in kilograms: choose one event above.")
                )
        sheet = OtherSheet(changes, due, self.unit)
        for event in self.asked:
            try:
                sheet.of(rules_of(event))
            except Faults as faults:
                for fault in faults.faults:
                    if fault.field in changes and not self.has_error(fault.field):
                        self.add_error(fault.field, _said(fault.message))
        if not self.errors:
            self.sheet = sheet


def _line(label: "StrOrPromise", help_text: "StrOrPromise") -> forms.CharField:
    attrs = {"autocomplete": "off", "inputmode": "text", "size": "10", "class": "write"}
    return forms.CharField(
        label=label, help_text=help_text, required=False, max_length=60, widget=forms.TextInput(attrs)
    )


def _said(problem: object) -> str:
    text = str(problem)
    return f"{text[:1].upper()}{text[1:]}{'' if text.endswith('.') else '.'}"
