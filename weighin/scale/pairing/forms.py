"""The form of a new station."""

from django import forms

from weighin.scale.stations import CANS
from weighin.ui.forms import ServiceForm


class StationForm(ServiceForm):
    """What a station is called and may do."""

    name = forms.CharField(
        label="Its name",
        max_length=80,
        help_text="The place it stands at, such as Table 1. A tablet paired under a name takes the place of the one before.",
    )
    can = forms.MultipleChoiceField(
        label="It may",
        choices=list(CANS.items()),
        widget=forms.CheckboxSelectMultiple,
        initial=["weigh"],
        error_messages={"required": "Choose at least one: this station could do nothing."},
    )
