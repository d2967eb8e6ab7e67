"""The slip form, in the order of the work, and the forms that correct, void and settle."""

import uuid
from collections.abc import Callable, Iterable
from datetime import datetime
from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.kinds import Weight
from weighin.events.domain.table import Table
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Name
from weighin.records.forms.declared import form_field
from weighin.records.forms.written import Written, WrittenForm, count, figure, line
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.slips.domain.fields import BY_NAME, CLOCK, COUNTED, FIELDS, RULINGS, SPECIES
from weighin.slips.domain.hints import hints, takes_largest
from weighin.slips.domain.in_words import LABELS
from weighin.slips.models import WeighSlip
from weighin.ui import figures
from weighin.ui.parsing import typed


@form_field.register
def _weight(kind: Weight, field: Field) -> Written:
    return figure(field.label, help_text=field.help)


@form_field.register
def _name(kind: Name, field: Field) -> Written:
    return line(field.label, help_text=field.help, maxlength=str(kind.most))


OWN = ("id", "weighed_now", "paper_number", "believed")


class SlipForm(WrittenForm):
    """A new slip. ``written`` is what the service reads; a blank number of fish is worked out."""

    id = forms.CharField(required=False, widget=forms.HiddenInput)
    paper_number = count(
        gettext_lazy("Number of the paper slip"),
        help_text=gettext_lazy("Only when it was written by hand on a numbered paper slip."),
    )
    weighed_now = forms.BooleanField(
        label=gettext_lazy("Weighed now: blank is the time when the slip is saved"), required=False, initial=True
    )
    believed = forms.CharField(label=gettext_lazy("The figures are right"), required=False, widget=forms.HiddenInput)
    extra_penalty_reason = line(LABELS["extra_penalty_reason"], maxlength="500")
    disqualified_reason = line(
        LABELS["disqualified_reason"], maxlength="500", help_text=BY_NAME["disqualified_reason"].help
    )

    def __init__(
        self,
        data: Any = None,
        *,
        table: Table,
        entries: Iterable[Entry],
        now: datetime | None = None,
        keeps_largest: bool = False,
        pads: bool = False,
        initial: dict[str, Any] | None = None,
    ):
        self.table, self.entries = table, list(entries)
        self.going = day_going_on(table.calendar, now) if now else None
        self.now = now
        first = {
            "id": str(uuid.uuid4()),
            "dead": "0",
            "short": "0",
            "day": str(self.going or min(table.calendar.fished, default=1)),
        }
        super().__init__(data, initial={**first, **(initial or {})})
        own = {
            field.name: form_field(field.kind, field) for field in FIELDS if field.name not in ("reason", *self.fields)
        }
        self.fields.update(own)
        self.order_fields(("day", "boat", *COUNTED, *own))
        self._suit(table, keeps_largest)
        if not pads:
            del self.fields["paper_number"]

    def _suit(self, table: Table, keeps_largest: bool) -> None:
        unit = table.rules.unit
        for name in ("boat", "well_boat"):
            self.fields[name].widget.attrs["list"] = "boats"
        self.fields["minutes_late"].typed = typed.minutes  # type: ignore[attr-defined]
        days = [table.calendar.days[number] for number in table.calendar.fished]
        if len(days) == 1:
            self.fields["day"].widget = forms.HiddenInput()
        else:
            choices = [
                (
                    str(day.number),
                    gettext("Day %(number)s, %(date)s") % {"number": day.number, "date": figures.day(day.date)},
                )
                for day in days
            ]
            self.fields["day"].widget = forms.RadioSelect(choices=choices)
        for name in ("gross", "tare", "big_fish", "extra_penalty"):
            self.fields[name].unit = unit  # type: ignore[attr-defined]
            self.fields[name].typed = str  # type: ignore[attr-defined]  # a weight is kept as it was written
            if unit == "lb-oz":  # a decimal pad has no dash
                self.fields[name].widget.attrs.update(inputmode="text", size="9", autocapitalize="none")
        for name, words in hints(table.rules).items():
            if name in self.fields:
                self.fields[name].help_text = words
        if not takes_largest(table.rules) and not keeps_largest:
            del self.fields["largest_weights"]
        if self.going is None:
            del self.fields["weighed_now"]
        if not self.is_bound:
            self.fields["boat"].widget.attrs["autofocus"] = True

    def attempt(self, service: Callable[[dict[str, Any]], Any]) -> bool:
        def with_fresh_id(data: dict[str, Any]) -> Any:
            try:
                return service(data)
            except Faults as found:
                if any(fault.field == "id" for fault in found.faults):
                    self.data = {**{name: self.data.get(name, "") for name in self.data}, "id": str(uuid.uuid4())}
                raise

        kept = super().attempt(with_fresh_id)
        wrong = next((name for name in self.fields if name in self.errors), None)
        if wrong:
            self.fields[wrong].widget.attrs["autofocus"] = True
        return kept

    @property
    def weights(self) -> str:
        """The weights as they are typed: what somebody says is right holds for these alone."""
        return "/".join(self.data.get(name, "").strip() for name in ("gross", "tare", "big_fish"))

    @property
    def is_believed(self) -> bool:
        """Whether somebody said that these weights are right."""
        return bool(self.data.get("believed", "") == self.weights)

    @property
    def kept_slip(self) -> WeighSlip:
        """The slip, once ``attempt`` went through."""
        found: WeighSlip = self.__dict__["kept"]
        return found

    @property
    def slip_id(self) -> uuid.UUID | None:
        """The id this page gave its slip, so that a slip sent twice is kept once."""
        try:
            return uuid.UUID(self.cleaned_data["id"])
        except ValueError:
            return None

    def written(self, data: dict[str, Any]) -> dict[str, str]:
        """What the service reads."""
        return work_out({name: str(value) for name, value in data.items() if name not in OWN}, self._moment(data))

    def _moment(self, data: dict[str, Any]) -> str:
        wanted = (
            data.get("weighed_now")
            and not data.get("paper_number", "").strip()
            and self.now is not None
            and data.get("day") == str(self.going)
        )
        return self.now.replace(microsecond=0).isoformat() if wanted and self.now else ""


class CorrectionForm(SlipForm):
    """A slip written again, with the reason. A time that is left as it is shown keeps its parts of a second."""

    reason = line(
        gettext_lazy("Why it is corrected"), maxlength="500", help_text=gettext_lazy("Stays in the history for good.")
    )

    def __init__(self, data: Any = None, *, slip: WeighSlip, table: Table, entries: Iterable[Entry]):
        keeps = bool(slip.largest_weights)
        super().__init__(
            data, table=table, entries=entries, keeps_largest=keeps, initial=as_written(slip, table.calendar)
        )
        self.exact = {name: moment for name in CLOCK if (moment := getattr(slip, name)) and moment.microsecond}
        self.fields["boat"].help_text = gettext(
            "Another boat than %(boat)s: slip %(number)s is voided and a new one saved for that boat, in one act."
        ) % {"boat": slip.entry.boat, "number": slip.number}

    def written(self, data: dict[str, Any]) -> dict[str, str]:
        found = super().written(data)
        unchanged = {n: m.isoformat() for n, m in self.exact.items() if data.get(n, "") == self.initial[n]}
        return {**found, **unchanged}


class SwapForm(WrittenForm):
    """The reason for putting two slips under each other's boats."""

    reason = line(
        gettext_lazy("Why they are swapped"),
        maxlength="500",
        help_text=gettext_lazy("Stays in the history of both for good."),
    )


class SettleForm(WrittenForm):
    """The reason why one of two slips counts."""

    reason = line(
        gettext_lazy("Why it counts"), maxlength="400", help_text=gettext_lazy("Stays in the history for good.")
    )


def work_out(written: dict[str, str], now: str = "") -> dict[str, str]:
    """The number of fish, when it is blank, from alive and dead; the time of weighing, when it is blank, from ``now``."""
    found = dict(written)
    alive, dead = (found.get(name, "").strip() for name in ("alive", "dead"))
    if not found.get("fish", "").strip() and _figures(alive) and _figures(dead):
        found["fish"] = str(int(alive) + int(dead))
    if not found.get("weighed", "").strip():
        found["weighed"] = now
    return found


def as_written(slip: WeighSlip, calendar: Calendar) -> dict[str, str]:
    """A slip's values as a form shows them again."""
    plain = {name: getattr(slip, name) for name in LABELS if name != "boat"}
    shown = {name: "" if value is None else str(value) for name, value in plain.items()}
    shown["boat"] = str(slip.entry.boat)
    shown["big_fish_alive"] = {None: "", True: "yes", False: "no"}[slip.big_fish_alive]
    for name in CLOCK:
        moment = plain[name]
        shown[name] = calendar.write(slip.day, moment.replace(microsecond=0)) if moment else ""
    return shown


def day_going_on(calendar: Calendar, now: datetime) -> int | None:
    """The day that is being fished or weighed at ``now``: the last that has begun, within 24 hours of its start."""
    for number in reversed(calendar.fished):
        hours = (now - calendar.start(number)).total_seconds() / 3600
        if 0 <= hours < 24:
            return number
    return None


def fields_of(form: SlipForm, names: Iterable[str]) -> list[Any]:
    """The bound fields of a part of the form, those that this event's form has."""
    return [form[name] for name in names if name in form.fields]


def _figures(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 5


PARTS = {
    "species": (*SPECIES, "well_boat"),
    "release": ("released", "dead_at_release", "kept"),
    "rulings": tuple(name for name in RULINGS if name != "note"),
}
