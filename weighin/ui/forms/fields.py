"""Form fields that take what people type."""

from collections.abc import Callable
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from weighin.rules.faults import Wrong
from weighin.ui.parsing import typed


class ClockField(forms.TimeField):
    """A time of day: ``15:00``, ``3pm``, ``3:05 PM``."""

    def to_python(self, value: Any) -> Any:
        return super().to_python(typed.clock(value) if isinstance(value, str) else value)


class MoneyField(forms.DecimalField):
    """An amount of money of 0 or more, with or without a currency sign."""

    def __init__(self, **kwargs: Any):
        widget = forms.TextInput(attrs={"inputmode": "decimal"})
        super().__init__(**{"min_value": 0, "max_digits": 12, "decimal_places": 2, "widget": widget, **kwargs})

    def to_python(self, value: Any) -> Any:
        return super().to_python(_understood(typed.money, value))


class TypedField(forms.CharField):
    """Text that ``typed`` turns into what its reader reads."""

    def __init__(self, *args: Any, typed: Callable[[str], str], **kwargs: Any):
        self.typed = typed
        super().__init__(*args, **kwargs)

    def to_python(self, value: Any) -> Any:
        return _understood(self.typed, super().to_python(value))


def _understood(read: Callable[[str], str], value: Any) -> Any:
    if not isinstance(value, str):
        return value
    try:
        return read(value)
    except Wrong as fault:
        raise ValidationError(f"{fault}.") from None
