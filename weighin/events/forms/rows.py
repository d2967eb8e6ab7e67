"""Forms of rows that may be changed later: they know their sender's id, and the state the writer had before them."""

import uuid
from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property
from typing import Any, ClassVar

from django import forms
from django.db.models import Model
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain import temperatures
from weighin.events.domain.care_context import CareContext
from weighin.events.domain.kinds import Clock, DateAndTime, Day, EventDate, TimeOfDay, WaterTemperature, Weight
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Kind
from weighin.records.domain.messages import Draft
from weighin.records.forms.declared import form_field
from weighin.records.forms.written import Written, WrittenForm, choice, clock, figure, line
from weighin.records.services.record_type import RecordType
from weighin.ui import figures

SHOWS = [("F", "°F"), ("C", "°C")]
NOW_SAID = gettext_lazy("Blank: the time when it is saved.")
PARTS = {"date": gettext_lazy("%(what)s, date"), "time": gettext_lazy("%(what)s, time")}
OWN = ("key", "seen", "shows")


@form_field.register(Clock)
@form_field.register(TimeOfDay)
def _clock(kind: Kind, field: Field) -> Written:
    return clock(field.label, help_text=field.help)


@form_field.register
def _date(kind: EventDate, field: Field) -> Written:
    return line(field.label, help_text=field.help, type="date")


@form_field.register
def _day(kind: Day, field: Field) -> Written:
    return choice(field.label, [])


@form_field.register
def _weight(kind: Weight, field: Field) -> Written:
    return figure(field.label, help_text=field.help, unit=field.unit, maxlength="12")


@form_field.register
def _temperature(kind: WaterTemperature, field: Field) -> Written:
    return figure(field.label, help_text=field.help)


class RowForm(WrittenForm):
    """The fields of a record as they are declared: a form says only what is known no earlier than on the page.

    ``page`` is the template, which extends ``records/row.html``, ``back`` the page that the rows stand on. Temperatures
    are figures whose unit the field ``shows`` says.
    """

    record: ClassVar[RecordType[Any]]
    page: ClassVar[str]
    back: ClassVar[str]

    key = forms.CharField(required=False, widget=forms.HiddenInput)
    seen = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(
        self, data: Any = None, *, care_context: CareContext, row: Model | None = None, initial: Mapping[str, str] = {}
    ):
        self.care_context, self.row = care_context, row
        first = {"key": str(uuid.uuid4()), "day": str(care_context.likely_day), "shows": care_context.unit}
        super().__init__(data, initial={**first, **(self.as_written(row, care_context) if row else {}), **initial})
        for field in self.record.fields:
            self._add(field)
            if field.name in self._named(WaterTemperature)[-1:]:
                self.fields["shows"] = choice(gettext_lazy("The thermometer shows"), SHOWS)
        if "day" in self.fields:
            self._offer_days(care_context)
        if row is None:
            self._default_to_now(care_context)
        self.suit(care_context)

    def suit(self, care_context: CareContext) -> None:
        """Fit choices and hints to the event; subclasses say how."""

    @cached_property
    def sender_key(self) -> uuid.UUID:
        """The id this form gave its row; a new one where it was tampered with."""
        try:
            return uuid.UUID(self.cleaned_data["key"])
        except ValueError:
            return uuid.uuid4()

    def draft(self, data: Mapping[str, Any], said: Mapping[str, str] = {}) -> Draft:
        """What was typed, as the door takes it: temperatures with their unit, blank times of a new row as now.

        ``said`` is what the page knows without asking.
        """
        texts = {name: str(data.get(name, "")) for name in self.fields if name not in OWN}
        for name in self._named(WaterTemperature):
            if texts[name].strip() and not any(sign.isalpha() for sign in texts[name]):
                texts[name] = f"{texts[name].strip()} {data.get('shows', '')}".strip()
        if self.row is not None:
            return Draft({**texts, **said}, replaces=self.row.pk, seen=data["seen"])
        self._fill_in_now(texts)
        return Draft({**texts, **said}, self.sender_key)

    @classmethod
    def as_written(cls, row: Any, care_context: CareContext) -> dict[str, str]:
        """A row's values as the form shows them again."""
        shown: dict[str, str] = {}
        calendar = care_context.calendar
        for field in cls.record.fields:
            name, value = field.name, cls.record.value_of(row, field)
            if isinstance(field.kind, Clock):
                shown[name] = calendar.write(row.day, value) if value and row.day in calendar.days else ""
            elif isinstance(field.kind, DateAndTime):
                local = value.astimezone(calendar.zone)
                shown[f"{name}_date"] = local.date().isoformat()
                shown[f"{name}_time"] = f"{local:%H:%M:%S}" if local.second else f"{local:%H:%M}"
            elif isinstance(field.kind, WaterTemperature) and value:
                warmth = temperatures.water(value)
                shown[name], shown["shows"] = f"{warmth.figure:f}", warmth.unit
            else:
                shown[name] = field.kind.text(value)
        return shown

    def _add(self, field: Field) -> None:
        """The form's fields of a declared one; one without a label is not asked for."""
        if field.kind.parts:
            for part, kind in field.kind.parts.items():
                label = PARTS[part] % {"what": field.label}
                self.fields[f"{field.name}_{part}"] = form_field(kind, replace(field, label=label))
        elif field.label:
            self.fields[field.name] = form_field(field.kind, field)

    def _named(self, kind: type[Kind]) -> list[str]:
        return [field.name for field in self.record.fields if isinstance(field.kind, kind)]

    def _offer_days(self, care_context: CareContext) -> None:
        if len(care_context.days) == 1:
            self.fields["day"].widget = forms.HiddenInput()
            return
        said = [
            (
                str(n),
                gettext("Day %(n)s, %(date)s") % {"n": n, "date": figures.day(care_context.calendar.days[n].date)},
            )
            for n in care_context.days
        ]
        self.fields["day"].widget = forms.RadioSelect(choices=said)

    def _default_to_now(self, care_context: CareContext) -> None:
        first = self._named(Clock)[:1]
        if first and care_context.going is not None:
            self.fields[first[0]].help_text = NOW_SAID
        for name in self._named(DateAndTime):
            self.initial.setdefault(f"{name}_date", care_context.date_of(care_context.now).isoformat())
            self.fields[f"{name}_time"].help_text = NOW_SAID

    def _fill_in_now(self, texts: dict[str, str]) -> None:
        now = self.care_context.now.astimezone(self.care_context.calendar.zone).replace(second=0, microsecond=0)
        for name in self._named(Clock)[:1]:
            if not texts[name].strip() and texts.get("day") == str(self.care_context.going):
                texts[name] = now.isoformat()
        for name in self._named(DateAndTime):
            if not texts[f"{name}_time"].strip() and texts[f"{name}_date"].strip() == now.date().isoformat():
                texts[f"{name}_time"] = f"{now:%H:%M}"


class TakeOutForm(WrittenForm):
    """Why a row is taken out."""

    reason = line(
        gettext_lazy("Why it is voided"),
        maxlength="300",
        help_text=gettext_lazy("Stays in the history, with the entry."),
    )
