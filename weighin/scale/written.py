"""Forms of written values: a service reads them all at once and names every fault."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from django import forms

from weighin.rules.faults import Fault, Faults
from weighin.ui.forms import ServiceForm


class Written(forms.CharField):
    """Text that a service reads. ``required`` only says so on the page: a blank comes through, to be named with the rest."""

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
        labels: Mapping[str, str] = {name: str(field.label) for name, field in self.fields.items() if "_" in name}
        return re.sub(
            r"[a-z]+(?:_[a-z]+)+", lambda found: f"“{labels[found[0]]}”" if found[0] in labels else found[0], message
        )


def line(label: str, *, help_text: str = "", unit: str = "", **attrs: str) -> Written:
    """A line to write on; ``unit`` stands after it, ``attrs`` go to the input."""
    widget = forms.TextInput(attrs={"autocomplete": "off", **attrs})
    field = Written(label=label, help_text=help_text, widget=widget)
    field.unit = unit  # type: ignore[attr-defined]
    return field


def count(label: str, *, unit: str = "", **more: Any) -> Written:
    """A line for a whole number."""
    return line(label, unit=unit, inputmode="numeric", size="4", **more)


def figure(label: str, *, unit: str = "", **more: Any) -> Written:
    """A line for a figure that may have decimals."""
    return line(label, unit=unit, inputmode="decimal", size="7", **more)


def choice(label: str, choices: list[tuple[str, str]], *, help_text: str = "") -> Written:
    """One of a few, each a large target; the value is read by the service."""
    return Written(label=label, help_text=help_text, widget=forms.RadioSelect(choices=choices))
