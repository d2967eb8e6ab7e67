"""The field of a form that a declared field of a row gives, by its kind."""

from collections.abc import Sequence
from functools import singledispatch
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Count, Figure, Flag, Kind, Line, Text
from weighin.records.forms.written import Written, WrittenForm, choice, count, figure, line

YES_NO = (("yes", _("Yes")), ("no", _("No")))


@singledispatch
def form_field(kind: Kind, field: Field) -> Written:
    """A form's field with the label, help and unit of the declared one."""
    return line(field.label, help_text=field.help, unit=field.unit)


@form_field.register
def _text(kind: Text, field: Field) -> Written:
    widget = forms.Textarea(attrs={"rows": 2, "maxlength": str(kind.most)})
    return Written(label=field.label, help_text=field.help, widget=widget)


@form_field.register
def _line(kind: Line, field: Field) -> Written:
    found = line(field.label, help_text=field.help, maxlength=str(kind.most))
    if kind.offered:
        found.widget.attrs["list"] = kind.offered
    return found


@form_field.register
def _count(kind: Count, field: Field) -> Written:
    return count(field.label, help_text=field.help, unit=field.unit)


@form_field.register
def _figure(kind: Figure, field: Field) -> Written:
    return figure(field.label, help_text=field.help, unit=field.unit)


@form_field.register
def _choice(kind: Choice, field: Field) -> Written:
    return choice(field.label, kind.options, help_text=field.help)


@form_field.register
def _flag(kind: Flag, field: Field) -> Written:
    return choice(field.label, kind.words or YES_NO, help_text=field.help)


class DeclaredForm(WrittenForm):
    """A form of declared fields, each that has a label; what the form says itself comes before it."""

    declared: ClassVar[Sequence[Field]]

    def __init__(self, *given: Any, **more: Any):
        super().__init__(*given, **more)
        for field in self.declared:
            if field.label and field.name not in self.fields:
                self.fields[field.name] = form_field(field.kind, field)
