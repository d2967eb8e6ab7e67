"""Forms of written values: a service reads them all at once and names every fault."""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.ui.forms.fields import ClockInput, MomentInput
from weighin.ui.forms.service import ServiceForm
from weighin.ui.parsing import typed

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


class Written(forms.CharField):
    """Text that a service reads. ``required`` only says so on the page: a blank comes through, to be named with the rest."""

    unit: "StrOrPromise" = ""
    typed: Callable[[str], str] | None = None

    def to_python(self, value: Any) -> Any:
        """What was typed as the reader reads it: without the unit that stands after the line."""
        text = super().to_python(value) or ""
        read = self.typed or (typed.minutes if self.unit == "min" else typed.percent if self.unit == "%" else None)
        return read(text) if read else typed.without_unit(text, str(self.unit))

    def validate(self, value: Any) -> None:
        return


class WrittenForm(ServiceForm):
    """A form whose blanks a service names."""

    use_required_attribute = False


def line(
    label: "StrOrPromise",
    *,
    help_text: "StrOrPromise" = "",
    unit: "StrOrPromise" = "",
    typed: Callable[[str], str] | None = None,
    **attrs: "StrOrPromise",
) -> Written:
    """A line to write on; ``unit`` stands after it, ``typed`` reads what people write, ``attrs`` go to the input."""
    widget = forms.TextInput(attrs={"autocomplete": "off", **attrs})
    field = Written(label=label, help_text=help_text, widget=widget)
    field.unit, field.typed = unit, typed
    return field


def clock(label: "StrOrPromise", *, help_text: "StrOrPromise" = "") -> Written:
    """A line for a time of day: ``15:00``, ``3pm``, ``3:05 PM``."""
    field = Written(label=label, help_text=help_text, widget=ClockInput())
    field.typed = typed.clock
    return field


def moment(label: "StrOrPromise", *, help_text: "StrOrPromise" = "") -> Written:
    """A line for a day and a time: ``Jun 20, 2026, 3:30 PM``, or one of them."""
    field = Written(label=label, help_text=help_text, widget=MomentInput())
    field.typed = typed.moment
    return field


def count(label: "StrOrPromise", *, unit: "StrOrPromise" = "", **more: Any) -> Written:
    """A line for a whole number."""
    return line(label, unit=unit, inputmode="numeric", size="4", **more)


def figure(label: "StrOrPromise", *, unit: "StrOrPromise" = "", **more: Any) -> Written:
    """A line for a figure that may have decimals."""
    return line(label, unit=unit, inputmode="decimal", size="7", **more)


def choice(
    label: "StrOrPromise", choices: Iterable[tuple[str, "StrOrPromise"]], *, help_text: "StrOrPromise" = ""
) -> Written:
    """One of a few, each a large target; the value is read by the service."""
    return Written(label=label, help_text=help_text, widget=forms.RadioSelect(choices=list(choices)))


class ReasonForm(WrittenForm):
    """The reason for taking a slip out."""

    reason = line(gettext_lazy("Why"), maxlength="500", help_text=gettext_lazy("Stands in the history for good."))
