"""Forms of written values: a service reads them all at once and names every fault."""

from collections.abc import Callable
from typing import Any

from django import forms

from weighin.records.domain.labels import in_labels
from weighin.rules.faults import Fault, Faults
from weighin.ui.forms.service import ServiceForm
from weighin.ui.parsing import typed


class Written(forms.CharField):
    """Text that a service reads. ``required`` only says so on the page: a blank comes through, to be named with the rest."""

    unit = ""
    typed: Callable[[str], str] | None = None

    def to_python(self, value: Any) -> Any:
        """What was typed as the reader reads it: without the unit that stands after the line."""
        text = super().to_python(value) or ""
        read = self.typed or (typed.minutes if self.unit == "min" else typed.percent if self.unit == "%" else None)
        return read(text) if read else typed.without_unit(text, self.unit)

    def validate(self, value: Any) -> None:
        return


class WrittenForm(ServiceForm):
    """A form whose service speaks of field names: its faults say the labels instead."""

    use_required_attribute = False

    def attempt(self, service: Callable[[dict[str, Any]], Any]) -> bool:
        def with_labels(data: dict[str, Any]) -> Any:
            try:
                return service(data)
            except Faults as found:
                raise Faults(Fault(f.field, self.in_labels(f.message), f.also) for f in found.faults) from None

        return super().attempt(with_labels)

    def in_labels(self, message: str) -> str:
        """The message with field names such as ``bag_emptied`` as the page calls them."""
        return in_labels(message, {name: str(field.label) for name, field in self.fields.items()})


def line(
    label: str, *, help_text: str = "", unit: str = "", typed: Callable[[str], str] | None = None, **attrs: str
) -> Written:
    """A line to write on; ``unit`` stands after it, ``typed`` reads what people write, ``attrs`` go to the input."""
    widget = forms.TextInput(attrs={"autocomplete": "off", **attrs})
    field = Written(label=label, help_text=help_text, widget=widget)
    field.unit, field.typed = unit, typed
    return field


def clock(label: str, *, help_text: str = "") -> Written:
    """A line for a time of day: ``15:00``, ``3pm``, ``3:05 PM``."""
    return line(label, help_text=help_text, typed=typed.clock, placeholder="HH:MM", size="9")


def count(label: str, *, unit: str = "", **more: Any) -> Written:
    """A line for a whole number."""
    return line(label, unit=unit, inputmode="numeric", size="4", **more)


def figure(label: str, *, unit: str = "", **more: Any) -> Written:
    """A line for a figure that may have decimals."""
    return line(label, unit=unit, inputmode="decimal", size="7", **more)


def choice(label: str, choices: list[tuple[str, str]], *, help_text: str = "") -> Written:
    """One of a few, each a large target; the value is read by the service."""
    return Written(label=label, help_text=help_text, widget=forms.RadioSelect(choices=choices))


class ReasonForm(WrittenForm):
    """The reason for taking a slip out."""

    reason = line("Why", maxlength="500", help_text="Stands in the history for good.")
