"""Forms that hand their data to a service and show its faults at their fields."""

from collections.abc import Callable, Iterable
from typing import Any

from django import forms

from weighin.rules.faults import Fault, Faults


class ServiceForm(forms.Form):
    """A form whose rules live in a service: ``attempt`` runs it and puts every fault at its field."""

    def attempt(self, service: Callable[[dict[str, Any]], Any]) -> bool:
        """Run ``service`` with the cleaned data. True when it went through; else the faults stand in the form."""
        if not self.is_valid():
            return False
        try:
            self.kept = service(self.cleaned_data)
        except Faults as faults:
            self.add_faults(faults.faults)
            return False
        return True

    def add_faults(self, faults: Iterable[Fault]) -> None:
        """Put each fault at its field, with other fields by their labels; one of no field here stands above all."""
        labels = {name: str(field.label) for name, field in self.fields.items() if field.label}
        for fault in faults:
            said = sentence(fault.in_labels(labels).message)
            self.add_error(fault.field if fault.field in self.fields else None, said)


def sentence(message: str) -> str:
    """A fault's message as a sentence of its own."""
    return message[:1].upper() + message[1:] + ("" if message.endswith((".", "?")) else ".")
