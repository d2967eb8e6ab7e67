"""Forms of a club's rule sheets: written, chosen to begin with, compared, copied into an event."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.clubs.models import Club
from weighin.events.forms.rules import RulesForm, fee_reason_field
from weighin.events.queries.club_sheets import source_choices
from weighin.events.services.club_sheets import LONGEST_NAME, LONGEST_REASON
from weighin.rules.sheet.keys import KEYS
from weighin.rules.weights import UNITS
from weighin.ui.forms.service import ServiceForm


def source_field(label: Any, **more: Any) -> forms.ChoiceField:
    """A choice among all sheets that the club can read; its choices are set by the form."""
    return forms.ChoiceField(label=label, **more)


class SheetForm(RulesForm):
    """A club's sheet: its name, why it is written, and every rule."""

    name = forms.CharField(
        label=gettext_lazy("Name of the sheet"),
        max_length=LONGEST_NAME,
        required=False,
        help_text=gettext_lazy("Such as Team crappie or Night series."),
    )
    reason = forms.CharField(
        label=gettext_lazy("Why"),
        max_length=LONGEST_REASON,
        required=False,
        help_text=gettext_lazy("May be blank: such as voted at the fall meeting. It stands with the version."),
    )
    seen = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def rules(self) -> dict[str, str]:
        """The rules as typed."""
        return {key.name: self.cleaned_data[key.name] for key in KEYS}


class NewSheetForm(forms.Form):
    """What a new sheet begins with."""

    source = source_field(gettext_lazy("Start from"))
    unit = forms.ChoiceField(label=gettext_lazy("Weights in"), choices=[(unit, unit) for unit in UNITS])

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["source"].choices = source_choices(club)  # type: ignore[attr-defined]


class CompareForm(forms.Form):
    """Two sheets to read side by side."""

    one = source_field(gettext_lazy("One sheet"))
    other = source_field(gettext_lazy("The other"))

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, **kwargs)
        for name in ("one", "other"):
            self.fields[name].choices = source_choices(club)  # type: ignore[attr-defined]


class CopyForm(ServiceForm):
    """A sheet that is written over the event's."""

    source = source_field(gettext_lazy("Copy from"))
    fee_reason = fee_reason_field()

    def __init__(self, *args: Any, club: Club, pot_is_paid: bool, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["source"].choices = source_choices(club)  # type: ignore[attr-defined]
        if not pot_is_paid:
            del self.fields["fee_reason"]
