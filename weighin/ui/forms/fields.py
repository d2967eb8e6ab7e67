"""Form fields that take what people type."""

import re
from collections.abc import Callable
from datetime import datetime, time
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from weighin.rules.faults import Wrong
from weighin.ui import figures
from weighin.ui.parsing import typed

SENT = re.compile(r"(?:[01][0-9]|2[0-3]):[0-5][0-9](?::[0-5][0-9])?")


class ClockInput(forms.TextInput):
    """A line for a time of day, shown as the club writes it; not a browser's own field, which follows the device."""

    def __init__(self, attrs: dict[str, Any] | None = None):
        super().__init__({"autocomplete": "off", "size": "11", **(attrs or {})})

    def format_value(self, value: Any) -> str | None:
        if isinstance(value, str) and SENT.fullmatch(value.strip()):
            value = time.fromisoformat(value.strip())
        if not isinstance(value, time):
            return None if value is None else str(value)
        return figures.exact_clock(value) if value.second else figures.clock(value)

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        return super().get_context(name, value, {"placeholder": figures.clock(time(15, 5)), **(attrs or {})})


class MomentInput(forms.TextInput):
    """A line for a day and a time, shown as the club writes them; not a browser's own field, which follows the device."""

    def __init__(self, attrs: dict[str, Any] | None = None):
        super().__init__({"autocomplete": "off", **(attrs or {})})

    def format_value(self, value: Any) -> str | None:
        written = typed.moment(str(value)) if value else ""
        try:
            at = datetime.fromisoformat(written)
        except ValueError:
            return ClockInput().format_value(written)
        return figures.dated_moment(at) if ":" in written else figures.dated(at)


class ClockField(forms.TimeField):
    """A time of day: ``15:00``, ``3pm``, ``3:05 PM``."""

    widget = ClockInput

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
