"""Forms of rows that may be changed later: they know their sender's id, and the state the writer had before them."""

import uuid
from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any, ClassVar

from django import forms
from django.db.models import Model
from django.utils.dateformat import format as date_format
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain import temperatures
from weighin.events.domain.care_context import CareContext
from weighin.records.forms.written import WrittenForm, choice, clock, line

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

YES_NO = [("yes", gettext_lazy("Yes")), ("no", gettext_lazy("No")), ("", gettext_lazy("Not seen"))]
SHOWS = [("F", "°F"), ("C", "°C")]
NOW_SAID = gettext_lazy("Blank: the time when it is kept.")


class RowForm(WrittenForm):
    """A row's fields. ``clocks`` are times of the row's ``day``; ``moments`` a date and a time, which may be days later;
    ``temperatures`` are figures whose unit the field ``shows`` says."""

    clocks: ClassVar[tuple[str, ...]] = ()
    moments: ClassVar[tuple[str, ...]] = ()
    temperatures: ClassVar[tuple[str, ...]] = ()

    key = forms.CharField(required=False, widget=forms.HiddenInput)
    seen = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(
        self, data: Any = None, *, care_context: CareContext, row: Model | None = None, initial: Mapping[str, str] = {}
    ):
        self.care_context, self.row = care_context, row
        first = {"key": str(uuid.uuid4()), "day": str(care_context.likely_day), "shows": care_context.unit}
        super().__init__(data, initial={**first, **(self.as_written(row, care_context) if row else {}), **initial})
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

    def written(self, data: Mapping[str, Any]) -> dict[str, str]:
        """What the reader reads: temperatures with their unit, blank times of a new row as now, its ``own_key``."""
        found = {name: str(data.get(name, "")) for name in self.fields if name not in ("key", "seen", "shows")}
        for name in self.temperatures:
            if found[name].strip() and not any(sign.isalpha() for sign in found[name]):
                found[name] = f"{found[name].strip()} {data.get('shows', '')}".strip()
        if self.row is None:
            self._fill_in_now(found)
            found["own_key"] = str(self.sender_key)
        return found

    @classmethod
    def as_written(cls, row: Model, care_context: CareContext) -> dict[str, str]:
        """A row's values as the form shows them again."""
        shown = {name: _text(getattr(row, name, "")) for name in cls.base_fields}
        for name in cls.clocks:
            moment, day = getattr(row, name), getattr(row, "day", 0)
            shown[name] = (
                care_context.calendar.write(day, moment) if moment and day in care_context.calendar.days else ""
            )
        for name in cls.moments:
            moment = getattr(row, name)
            if moment:
                local = moment.astimezone(care_context.calendar.zone)
                shown[f"{name}_date"] = local.date().isoformat()
                shown[f"{name}_time"] = f"{local:%H:%M:%S}" if local.second else f"{local:%H:%M}"
        for name in cls.temperatures:
            if getattr(row, name):
                warmth = temperatures.water(getattr(row, name))
                shown[name], shown["shows"] = f"{warmth.figure:f}", warmth.unit
        return {name: text for name, text in shown.items() if name not in ("key", "seen")}

    def _offer_days(self, care_context: CareContext) -> None:
        if len(care_context.days) == 1:
            self.fields["day"].widget = forms.HiddenInput()
            return
        said = [
            (
                str(n),
                gettext("Day %(n)s, %(date)s") % {"n": n, "date": date_format(care_context.calendar.days[n].date, "l")},
            )
            for n in care_context.days
        ]
        self.fields["day"].widget = forms.RadioSelect(choices=said)

    def _default_to_now(self, care_context: CareContext) -> None:
        first = self.clocks[:1]
        if first and care_context.going is not None:
            self.fields[first[0]].help_text = NOW_SAID
        for name in self.moments:
            self.initial.setdefault(f"{name}_date", care_context.date_of(care_context.now).isoformat())
            self.fields[f"{name}_time"].help_text = NOW_SAID

    def _fill_in_now(self, found: dict[str, str]) -> None:
        now = self.care_context.now.astimezone(self.care_context.calendar.zone).replace(second=0, microsecond=0)
        for name in self.clocks[:1]:
            if not found[name].strip() and found.get("day") == str(self.care_context.going):
                found[name] = now.isoformat()
        for name in self.moments:
            if not found[f"{name}_time"].strip() and found[f"{name}_date"].strip() == now.date().isoformat():
                found[f"{name}_time"] = f"{now:%H:%M}"


class TakeOutForm(WrittenForm):
    """Why a row is taken out."""

    reason = line(
        gettext_lazy("Why it is taken out"),
        maxlength="300",
        help_text=gettext_lazy("Stands in the history, with what the row said."),
    )


def moment_fields(date: "StrOrPromise", time: "StrOrPromise") -> tuple[Any, Any]:
    """The two fields of a moment by their labels: its date and its time."""
    return line(date, type="date"), clock(time)


def shows() -> Any:
    """Which unit the thermometer shows."""
    return choice(gettext_lazy("The thermometer shows"), SHOWS)


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
