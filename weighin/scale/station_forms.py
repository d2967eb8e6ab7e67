"""Forms that pair a station and withdraw one."""

from django import forms

from weighin.scale.stations import CANS
from weighin.scale.written import WrittenForm, line


class StationForm(WrittenForm):
    """Its name and what it may do."""

    name = line(
        "Name", maxlength="80", help_text="Its place, such as Table 1. Pairing a name again withdraws the one before."
    )
    can = forms.MultipleChoiceField(
        label="It may",
        required=False,
        choices=list(CANS.items()),
        initial=["weigh"],
        widget=forms.CheckboxSelectMultiple,
    )


class WithdrawForm(WrittenForm):
    """The station that is withdrawn."""

    name = line("Station", maxlength="80")
